package quality

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// A heading jumps where it steps from one sample to the next by more than a model turns meanwhile and then stays there, as when a
// compass is disturbed or an attitude filter aligns itself anew. More than mostJumps are no jumps but a wrong unit.
// (Common practice, no source.)
const (
	leastJump  = 0.35 // rad
	turnsMost  = 4.0  // rad/s, faster than any model yaws
	jumpSides  = 5    // samples on either side whose medians must differ
	jumpPause  = 0.5  // s: behind a longer pause the model may have turned
	mostJumps  = 3
	steepPitch = 60 * degree // beyond it a loop turns the heading by itself
)

// jump is a step of the heading.
type jump struct {
	at float64 // s, the first sample behind it
	by float64 // rad, clockwise positive
}

// withoutJumps takes jumps out of the heading, so that they spoil no comparison, and lists them.
func withoutJumps(rec *flightlog.Recording) (*flightlog.Recording, []jump) {
	c := rec.Channels[flightlog.Heading]
	places := jumpPlaces(rec, c)
	if len(places) == 0 || len(places) > mostJumps {
		return rec, nil
	}
	out := *rec
	out.Channels = maps.Clone(rec.Channels)
	value := slices.Clone(c.Value)
	var jumps []jump
	for _, i := range places {
		by := sizeOf(c.Value, i)
		jumps = append(jumps, jump{c.Time[i], by})
		for k := i; k < len(value); k++ {
			value[k] -= by
		}
	}
	out.Channels[flightlog.Heading] = flightlog.Channel{Time: c.Time, Value: value}
	return &out, jumps
}

// jumpPlaces are the first samples behind jumps.
func jumpPlaces(rec *flightlog.Recording, c flightlog.Channel) (places []int) {
	if len(c.Value) != len(c.Time) {
		return nil
	}
	for _, v := range c.Value {
		if math.Abs(v) > 4*math.Pi { // degrees
			return nil
		}
	}
	for i := jumpSides; i+jumpSides <= len(c.Value); i++ {
		pause := c.Time[i] - c.Time[i-1]
		least := leastJump + turnsMost*pause
		if math.Abs(turnBetween(c.Value[i-1], c.Value[i])) <= least || pause > jumpPause {
			continue
		}
		if math.Abs(stepAt(c.Value, i)) > least && !steepAt(rec, c.Time[i]) && !clockErrs(rec, c.Time[i]) {
			places = append(places, i)
		}
	}
	return places
}

// turnBetween is the shorter way round from one heading to another.
func turnBetween(from, to float64) float64 { return math.Remainder(to-from, 2*math.Pi) }

// stepAt is by how much the median behind a place differs from the one ahead of it.
func stepAt(v []float64, i int) float64 {
	side := func(part []float64) float64 {
		away := make([]float64, len(part))
		for k, x := range part {
			away[k] = turnBetween(v[i-1], x)
		}
		return statistic.Median(away)
	}
	return turnBetween(side(v[i-jumpSides:i]), side(v[i:i+jumpSides]))
}

// sizeOf is the step at a place without what the model turned meanwhile, as between the samples on either side.
func sizeOf(v []float64, i int) float64 {
	return turnBetween(v[i-1], v[i]) - (turnBetween(v[i-2], v[i-1])+turnBetween(v[i], v[i+1]))/2
}

// steepAt tells whether the nose points so far up or down within a second that the heading may turn over.
func steepAt(rec *flightlog.Recording, t float64) bool {
	c := rec.Channels[flightlog.PitchAngle]
	from, _ := slices.BinarySearch(c.Time, t-1)
	to, _ := slices.BinarySearch(c.Time, t+1)
	return slices.ContainsFunc(c.Value[from:to], func(v float64) bool { return math.Abs(v) > steepPitch })
}

// clockErrs tells whether the reader left rows out about a time: then every channel steps.
func clockErrs(rec *flightlog.Recording, t float64) bool {
	return slices.ContainsFunc(rec.Findings, func(f flightlog.Finding) bool { return f.Channel == "" && f.Start <= t+1 && f.End >= t-1 })
}

// jumpFindings tell the jumps in flight; one on the ground is an alignment.
func (e *evidence) jumpFindings(jumps []jump) {
	_, last := overall(e.rec.Channels[flightlog.Heading])
	for i, j := range jumps {
		end := last
		if i+1 < len(jumps) {
			end = jumps[i+1].at
		}
		if !e.s.flyingAt(j.at) || e.condemned[flightlog.Heading] {
			continue
		}
		e.found = append(e.found, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Heading, Start: j.at, End: end,
			What:        fmt.Sprintf("the heading jumps by %.0f° at %.1f s", math.Abs(j.by)/degree, j.at),
			Consequence: fmt.Sprintf("heading, wind by heading and sideslip behind it, %s, are in doubt; look for currents and iron near the compass", during(j.at, end))})
	}
}
