package quality

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// An airspeed tube counts as blocked where the airspeed stays away from what the rest of the log says by more than all of
// the first three, for blockedSeconds: longer than a gust, shorter than any test point.
const (
	blockedLeast   = 2.2  // m/s: two standard deviations of gusts of a fifth of a wind of 5 m/s, and the lag in quick manoeuvres
	blockedShare   = 0.11 // of the speed: beyond position error
	blockedSDs     = 5.0
	weakWitness    = 1.8 // times as far off where the witness is the lift: sideslip, flaps of air and power bend it by a tenth or so
	blockedSeconds = 4.0
	offRun         = 4  // blocks of a second on end: a steep slow turn mixes lag and wind for less
	blockedBreak   = 15 // blocks of a second: a blocked tube may read right by chance for a while in between
)

// speedWitness is what the rest of the log says of the airspeed, in blocks of a second.
type speedWitness struct {
	speed    []float64 // by the tube, true m/s
	expected []float64 // by the witness; NaN where it is silent
	sd       float64   // of what is left where the tube is good
	levels   bool      // whether expected tells the airspeed itself, and not just its changes
	changes  bool      // whether it tells changes within a few seconds
	words    string
}

// blocked finds the stretches in which a tube does not go with its witness: off in level, or deaf to changes.
func (e *evidence) blocked(w speedWitness, refit func(bad []bool) speedWitness) {
	deaf, alive := make([]bool, len(w.speed)), make([]bool, len(w.speed))
	if w.changes {
		deaf, alive = e.deafness(w)
	}
	bad := deaf
	for range 3 { // what is bad spoils the witness that finds it
		if refit != nil {
			w = refit(bad)
		}
		bad = slices.Clone(deaf)
		if w.levels {
			for b, off := range e.offLevel(w) {
				bad[b] = bad[b] || off
			}
		}
		if refit == nil {
			break
		}
	}
	for _, f := range stretchesOf(bad, alive, w.changes) {
		e.blockedFinding(w, f[0], f[1])
	}
}

// offLevel marks blocks in which the airspeed, smoothed, is too far from what is expected.
func (e *evidence) offLevel(w speedWitness) []bool {
	out := make([]bool, len(w.speed))
	left := combined(len(w.speed), func(b int) float64 { return w.speed[b] - w.expected[b] })
	for b, away := range smoothed(left) {
		limit := math.Max(math.Max(blockedLeast, blockedShare*math.Abs(w.speed[b]-away)), blockedSDs*w.sd)
		if !w.changes {
			limit *= weakWitness
		}
		out[b] = math.Abs(away) > limit
	}
	dropShort(out, offRun)
	return out
}

// dropShort unmarks runs of fewer than least.
func dropShort(marks []bool, least int) {
	for from := 0; from < len(marks); {
		to := from
		for to < len(marks) && marks[to] {
			to++
		}
		if to-from < least {
			for b := from; b < to; b++ {
				marks[b] = false
			}
		}
		from = to + 1
	}
}

// stretchesOf joins marked blocks into stretches [from, to]: across short pauses, and across long ones in which nothing shows that the
// tube is alive, where there is a witness that would. What lasts less than blockedSeconds is left out.
func stretchesOf(bad, alive []bool, witnessed bool) [][2]int {
	var out [][2]int
	seenAlive := 0
	for b := range bad {
		if alive[b] {
			seenAlive++
		}
		if !bad[b] {
			continue
		}
		if n := len(out); n > 0 && (b-out[n-1][1]-1 <= blockedBreak || witnessed && seenAlive == 0) {
			out[n-1][1] = b
		} else {
			out = append(out, [2]int{b, b})
		}
		seenAlive = 0
	}
	kept := out[:0]
	for _, s := range out {
		if float64(s[1]-s[0]+1)*brisk*cell >= blockedSeconds {
			kept = append(kept, s)
		}
	}
	return kept
}

func (e *evidence) blockedFinding(w speedWitness, from, to int) {
	count, sum, expected := 0.0, 0.0, 0.0
	for b := from; b <= to; b++ {
		if !math.IsNaN(w.speed[b] + w.expected[b]) {
			count++
			sum += w.speed[b]
			expected += w.expected[b]
		}
	}
	start, end := e.s.start+float64(from*brisk)*cell, e.s.start+float64((to+1)*brisk)*cell
	_, last := overall(e.rec.Channels[flightlog.Airspeed])
	end = math.Min(end, last)
	what := fmt.Sprintf("the airspeed does not follow what %s say", w.words)
	if w.levels && count > 0 && math.Abs(sum-expected)/count > blockedLeast {
		what = fmt.Sprintf("the airspeed reads %.1f m/s on average where %s say %.1f", sum/count, w.words, expected/count)
	}
	e.found = append(e.found, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Airspeed, Start: start, End: end,
		What: what + ", as if the tube were blocked or leaking", Consequence: lost(flightlog.Airspeed, start, end) + "; the rest of the log is good"})
	e.s.blank(flightlog.Airspeed, start, end)
	e.forget(flightlog.Airspeed)
}

// smoothed is the mean over three seconds: a gust of 30 m passes in less than two.
func smoothed(v []float64) []float64 {
	out := missing(len(v))
	for b := range out {
		sum, count := 0.0, 0
		for i := max(0, b-1); i <= min(len(v)-1, b+1); i++ {
			if !math.IsNaN(v[i]) {
				sum += v[i]
				count++
			}
		}
		if count > 0 {
			out[b] = sum / float64(count)
		}
	}
	return out
}
