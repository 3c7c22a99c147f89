package reduce

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reconstruct"
	"wingproof/flightlog/statistic"
)

// Where a segment begins and ends. Common practice, no source.
const (
	leadIn       = 1.5  // s of steady flight ahead of the first movement
	leastLead    = 0.3  // s: less shows no trimmed state to start from
	rampHalf     = 0.15 // s by which a hand's movement begins ahead of its middle, which package manoeuvre tells
	stillFor     = 0.9  // s ahead of an input over which the middle of a control is taken, as in package manoeuvre
	calmShare    = 0.35 // of the input's size: what the controls may move in the lead-in, as in package manoeuvre
	leastFree    = 1.0  // s behind the steps: half a Dutch roll of a model
	longestInput = 10.0 // s, of a whole segment: behind it the phugoid only is seen
	stallClear   = 0.5  // s ahead of a stall break that are no longer free response
)

// span is from when to when an input can be used; why says that it cannot.
type span struct {
	start, end float64
	why        string
}

// obstacle is a time that no segment may hold.
type obstacle struct {
	start, end float64
	what       string
	control    flightlog.Quantity // whose samples are lost; empty for anything else
}

// hinders tells whether an obstacle stands in the way of an input: a lost rudder is none for the elevator, and the other way round.
func (o obstacle) hinders(control flightlog.Quantity) bool {
	switch o.control {
	case flightlog.Elevator:
		return control == flightlog.Elevator
	case flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		return control != flightlog.Elevator
	}
	return true
}

// lostFor lists where samples of channels are lost.
func (m *measurement) lostFor(seen []flightlog.Finding, channels ...flightlog.Quantity) []obstacle {
	var out []obstacle
	for _, f := range seen {
		if f.Severity == flightlog.Loss && f.End > f.Start && spoils(f, channels) {
			out = append(out, obstacle{f.Start, f.End, f.What, f.Channel})
		}
	}
	return out
}

// noSegment lists what no segment may hold: lost samples of the channels that it is made of, stretches in which the reconstruction
// lost itself, stalls, and what somebody marked to be left out.
func (m *measurement) noSegment(seen []flightlog.Finding) []obstacle {
	out := m.lostFor(seen,
		flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate,
		flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Airspeed,
		flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight)
	for _, t := range m.signals.breaks {
		out = append(out, obstacle{start: t - stallClear, end: t + breakMargin, what: "the model stalls"})
	}
	for _, mark := range m.context.Marks {
		if mark.Kind == LeaveOut {
			out = append(out, obstacle{start: mark.Start, end: mark.End, what: "it is marked to be left out"})
		}
	}
	return out
}

// spanOf is what can be used of an input: from leadIn ahead of its first movement, as far as the controls rest, to the end of
// its free response, short of the next input and of every obstacle.
func (m *measurement) spanOf(inputs []manoeuvre.Manoeuvre, at int, lost []obstacle) span {
	in := inputs[at]
	first, steps := in.Start-rampHalf, in.Start
	for _, w := range in.Widths {
		steps += w
	}
	s := span{start: m.calmFrom(in, first), end: in.End}
	for _, next := range inputs[at+1:] {
		if next.Start > steps {
			s.end = math.Min(s.end, next.Start-rampHalf)
			break
		}
	}
	s.end = math.Min(s.end, s.start+longestInput)
	least := math.Min(steps+leastFree, s.end)
	for _, o := range append(slices.Clone(lost), m.offThePath(s)...) {
		if !o.hinders(in.Control) {
			continue
		}
		switch {
		case o.end < s.start || o.start > s.end:
		case o.end < first-leastLead:
			s.start = o.end
		case o.start > least:
			s.end = o.start
		default:
			s.why = fmt.Sprintf("%s (%.1f to %.1f s)", o.what, o.start, o.end)
			return s
		}
	}
	if s.end < steps+leastFree {
		s.why = fmt.Sprintf("only %.1f s of free response follow, at least %g s are needed", math.Max(0, s.end-steps), leastFree)
	}
	return s
}

// offThePath lists where within a span the path is not known, or the model not in the air.
func (m *measurement) offThePath(s span) []obstacle {
	var out []obstacle
	p := m.flown
	for i := firstAt(p, s.start); i < len(p.Time) && p.Time[i] <= s.end; i++ {
		if p.Airborne[i] && statistic.Finite(p.Alpha[i]) {
			continue
		}
		if n := len(out); n > 0 && p.Time[i]-out[n-1].end < 2*m.pathStep() {
			out[n-1].end = p.Time[i]
			continue
		}
		out = append(out, obstacle{start: p.Time[i], end: p.Time[i], what: "the model is on the ground, or its path is not known"})
	}
	return out
}

// firstAt is the index of the first instant of a path not before a time.
func firstAt(p *reconstruct.Path, t float64) int {
	i, _ := slices.BinarySearch(p.Time, t)
	return i
}

// calmFrom is the time, at most leadIn ahead of the first movement, from which the controls of the input's axis rest.
func (m *measurement) calmFrom(in manoeuvre.Manoeuvre, first float64) float64 {
	from := first - leadIn
	axis := []flightlog.Quantity{flightlog.Elevator}
	if in.Control != flightlog.Elevator {
		axis = []flightlog.Quantity{flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight}
	}
	for _, q := range axis {
		c := m.g.clean[q]
		low, _ := slices.BinarySearch(c.Time, first-stillFor)
		high, _ := slices.BinarySearch(c.Time, first)
		if high <= low {
			continue // logged on change, and it does not
		}
		middle := statistic.Median(c.Value[low:high])
		for k := high - 1; k >= 0 && c.Time[k] > from; k-- {
			if math.Abs(c.Value[k]-middle) > calmShare*math.Abs(in.Size) {
				from = c.Time[k] + c.Step()
				break
			}
		}
	}
	return math.Min(from, first-leastLead)
}
