package main

import (
	"cmp"
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// stretch is a time range of a log, s.
type stretch struct{ start, end float64 }

// airborne is when the model flew.
type airborne struct {
	seconds    float64   // in the air
	start, end float64   // s of the recording
	flights    []stretch // in order, apart from one another
	fastest    float64   // m/s
	known      bool      // a speed was logged at all
}

// A model flies above this speed: common practice, no source; the slowest model of this kind stalls at about 12 m/s. Where the
// airspeed dies, the speed over the ground and a height that no hill at the field gives show that it still flies; shorter than a
// glitch they show nothing.
const (
	leastFlying = 8.0    // m/s
	wellUp      = 15.0   // m above the start of the log
	mostUp      = 3000.0 // m; more is no height of a model but a sensor that fails
	glitch      = 2.0    // s, and the longest pause between samples that counts as flown
)

// flying tells when the model was in the air, by airspeed, ground speed and height together, since each of them may fail.
func (l *look) flying() airborne {
	var a airborne
	var found []stretch
	for _, q := range []flightlog.Quantity{flightlog.Airspeed, flightlog.GroundSpeed} {
		c := l.recording.Channels[q]
		if len(c.Time) < 2 {
			continue
		}
		a.known = true
		if q == flightlog.Airspeed || a.fastest == 0 {
			a.fastest = slices.Max(c.Value)
		}
		found = append(found, stretchesWhere(c, func(v float64) bool { return v >= leastFlying })...)
	}
	if len(found) > 0 { // height alone is no flight: a log may be carried up a hill
		found = append(found, l.highUp()...)
	}
	a.flights = joined(found)
	for i, s := range a.flights {
		if i == 0 {
			a.start = s.start
		}
		a.seconds += s.end - s.start
		a.end = s.end
	}
	return a
}

// highUp is when the model was well above where the log began, by altitude.
func (l *look) highUp() []stretch {
	c := l.recording.Channels[flightlog.Altitude]
	if len(c.Time) < 2 {
		return nil
	}
	const first = 3.0 // s
	ground := statistic.Median(within(c, c.Time[0], c.Time[0]+first))
	return stretchesWhere(c, func(v float64) bool { return v-ground > wellUp && v-ground < mostUp })
}

// stretchesWhere are the times, longer than a glitch, over which a channel's samples hold to a rule.
func stretchesWhere(c flightlog.Channel, ok func(v float64) bool) []stretch {
	var out []stretch
	from := -1
	flush := func(last int) {
		if from >= 0 && c.Time[last]-c.Time[from] >= glitch {
			out = append(out, stretch{c.Time[from], c.Time[last]})
		}
		from = -1
	}
	for i, v := range c.Value {
		if i > 0 && (!ok(v) || c.Time[i]-c.Time[i-1] > glitch) {
			flush(i - 1)
		}
		if from < 0 && ok(v) {
			from = i
		}
	}
	flush(len(c.Value) - 1)
	return out
}

// joined is the union of stretches, in order.
func joined(list []stretch) []stretch {
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.start, b.start), cmp.Compare(a.end, b.end)) })
	var out []stretch
	for _, s := range list {
		if n := len(out); n > 0 && s.start <= out[n-1].end {
			out[n-1].end = math.Max(out[n-1].end, s.end)
			continue
		}
		out = append(out, s)
	}
	return out
}

// during is the part of a stretch in the air.
func (a airborne) during(s stretch) []stretch {
	var out []stretch
	for _, f := range a.flights {
		if from, to := math.Max(f.start, s.start), math.Min(f.end, s.end); to > from {
			out = append(out, stretch{from, to})
		}
	}
	return out
}

// onGround tells whether a finding lies wholly before or behind the flight. One without times is about the log as a whole.
func (a airborne) onGround(f flightlog.Finding) bool {
	whole := f.Start == 0 && f.End == 0
	return !whole && len(a.flights) > 0 && (f.End < a.start || f.Start > a.end)
}
