package quality

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// A sensor that sits at its extreme value shows as clipped peaks: samples that repeat one number with lower ones on both
// sides (or higher ones). In a channel that else never repeats itself, two such peaks of shortestRun samples at the extreme of
// the flight, or one that lasts saturatedSeconds, do not happen by chance. A coarse channel must hold its extreme far more often
// than the values just below it. What lies within the range is no end of it, however often it comes.
const (
	saturatedSeconds = 0.3 // s: longer than the top of the quickest manoeuvre of a model stays within a sample's noise
	saturatedSamples = 6   // in all peaks at one number
	sameTrouble      = 5.0 // s: peaks closer than this are one finding
	mostStretches    = 10  // told one by one
)

// saturates tells whether a sensor's range may end below what a flight asks for.
func saturates(q flightlog.Quantity) bool {
	switch q {
	case flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.PitchAngle, flightlog.Airspeed, flightlog.StaticPressure, flightlog.Altitude, flightlog.GroundSpeed, flightlog.ClimbRate,
		flightlog.AngleOfAttack, flightlog.Sideslip:
		return true
	}
	return false
}

// peak is a clipped peak: a run with lower (side +1) or higher (side −1) samples around.
type peak struct {
	run
	value float64
	side  int
}

// saturation finds clipped peaks in flight. The values at which the channel clips come back too.
func saturation(q flightlog.Quantity, c flightlog.Channel, s scan, air *series) ([]flightlog.Finding, []float64) {
	if !saturates(q) || len(s.runs) == 0 {
		return nil, nil
	}
	var peaks []peak
	for _, r := range s.runs {
		if r.from == 0 || r.to+1 == len(c.Value) || !air.flyingAt(c.Time[r.from]) {
			continue
		}
		v, before, after := c.Value[r.from], c.Value[r.from-1], c.Value[r.to+1]
		switch {
		case before < v && after < v:
			peaks = append(peaks, peak{r, v, 1})
		case before > v && after > v && q != flightlog.Airspeed && q != flightlog.GroundSpeed:
			peaks = append(peaks, peak{r, v, -1})
		}
	}
	slices.SortStableFunc(peaks, func(a, b peak) int { return cmp.Or(cmp.Compare(a.value, b.value), cmp.Compare(a.side, b.side)) })
	var out []flightlog.Finding
	var clips []float64
	for i := 0; i < len(peaks); {
		j := i
		for j < len(peaks) && peaks[j].value == peaks[i].value && peaks[j].side == peaks[i].side {
			j++
		}
		if group := peaks[i:j]; clipped(c, s, air, group) {
			out = append(out, saturationFindings(q, c, group)...)
			clips = append(clips, peaks[i].value)
		}
		i = j
	}
	return out, clips
}

// clipped judges the peaks at one number.
func clipped(c flightlog.Channel, s scan, air *series, group []peak) bool {
	samples, repeats, longest, most := 0, 0, 0.0, 0
	for _, p := range group {
		samples += p.samples()
		repeats += p.samples() - 1
		longest = math.Max(longest, c.Time[p.to]-c.Time[p.from])
		most = max(most, p.samples())
	}
	if samples < saturatedSamples || repeats < s.rare {
		return false
	}
	value, side := group[0].value, float64(group[0].side)
	if s.usual <= 1 {
		return (len(group) >= 2 || longest >= saturatedSeconds) && isExtreme(c, air, value, side)
	}
	return most >= 3*s.usual && longest >= saturatedSeconds && isExtreme(c, air, value, side) && crowded(c, air, value, side)
}

// isExtreme tells whether no sample of the flight lies beyond a value.
func isExtreme(c flightlog.Channel, air *series, value, side float64) bool {
	for i, v := range c.Value {
		if side*(v-value) > 0 && air.flyingAt(c.Time[i]) {
			return false
		}
	}
	return true
}

// crowded tells whether the extreme holds three times the samples of the tenth of the range next to it, where a motion
// that was not clipped would hold ever fewer.
func crowded(c flightlog.Channel, air *series, value, side float64) bool {
	low := value
	for i, v := range c.Value {
		if side*(low-v) > 0 && air.flyingAt(c.Time[i]) {
			low = v
		}
	}
	at, near := 0, 0
	for i, v := range c.Value {
		switch away := side * (value - v); {
		case !air.flyingAt(c.Time[i]):
		case away == 0:
			at++
		case away < 0.1*math.Abs(value-low):
			near++
		}
	}
	return at > 3*near
}

func saturationFindings(q flightlog.Quantity, c flightlog.Channel, group []peak) []flightlog.Finding {
	slices.SortFunc(group, func(a, b peak) int { return cmp.Compare(a.from, b.from) })
	var out []flightlog.Finding
	samples := 0
	extreme := "highest"
	if group[0].side < 0 {
		extreme = "lowest"
	}
	for _, p := range group {
		start, end := c.Time[p.from], c.Time[p.to]
		if n := len(out); n > 0 && (start-out[n-1].End < sameTrouble || n == mostStretches) {
			out[n-1].End = end
			samples += p.samples()
		} else {
			out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: start, End: end})
			samples = p.samples()
		}
		f := &out[len(out)-1]
		f.What = fmt.Sprintf("the %s sits at its %s value %.6g for %d samples, as a sensor at the end of its range does", plainName(q), extreme, p.value, samples)
		f.Consequence = lost(q, f.Start, f.End) + "; use a wider range of the sensor"
	}
	return out
}
