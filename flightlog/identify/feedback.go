package identify

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// Loop is a surface whose command may follow the motion of the model.
type Loop struct {
	Control flightlog.Quantity
	Rate    flightlog.Quantity // that it would follow
	Gain    float64            // rad of command per rad/s that explains all segments together best; with the sign of the control
	Looked  int                // segments in which it could have been seen
	Found   int                // segments that show it
	Flights []string           // that show it
	Active  bool               // at least half of the segments show it, and all together do
	Warning string             // what follows from it and what to do; empty unless Active
}

// Feedback tells whether an active stabiliser moved the surfaces of an axis: whether the command springs back while the model begins to
// turn. Elevator is held against pitch rate, aileron against roll rate, rudder against yaw rate; one Loop each, in this order.
//
// What is looked at are the sharp movements of a segment's own Control, a fraction of a second about each: there the pilot's stick goes
// from one position to another, and whatever else the command does at once with the rate, no hand has done. Segments that
// move another control say nothing, so that a pilot who holds the wings level in an input on the elevator raises no alarm; nor does
// level flight say anything, because there a pilot answers the motion too, and the motion answers him.
//
// A segment shows a loop when the rate explains leastShare or more of what sweeps of the stick leave unexplained, with a gain that opposes the motion and is
// more than what trembling hands feign. A stabiliser behind the recorder, whose work is not in the log, is not found.
func Feedback(segments []Segment, axis Axis) ([]Loop, error) {
	if err := checkAxis(axis); err != nil {
		return nil, err
	}
	var out []Loop
	for _, t := range axisTerms(axis) {
		if t.control != "" {
			out = append(out, loopOf(segments, t.control))
		}
	}
	return out, nil
}

// What a segment must show. Found on rehearsed flights of a careless pilot, whose trembling explains less in nineteen of twenty
// inputs.
const (
	leastGain  = 0.04 // rad per rad/s
	leastShare = 0.4
)

// loopOf looks at one control.
func loopOf(segments []Segment, control flightlog.Quantity) Loop {
	out := Loop{Control: control, Rate: rateOf(control)}
	all, power := make([]float64, 2*gainSteps+1), 0.0
	for i := range segments {
		s := &segments[i]
		if s.Control != control {
			continue
		}
		record, ok := recordOf(s, control)
		if !ok {
			continue
		}
		out.Looked++
		left, turns := record.left(), record.power()
		for k := range left {
			all[k] += left[k]
		}
		power += turns
		if answerBy(left, turns).shows() {
			out.Found++
			if !slices.Contains(out.Flights, s.Flight) {
				out.Flights = append(out.Flights, s.Flight)
			}
		}
	}
	together := answerBy(all, power)
	out.Gain = together.gain
	if out.Active = out.Found > 0 && 2*out.Found >= out.Looked && together.shows(); out.Active {
		out.Warning = out.warning()
	}
	return out
}

// warning is what a loop means.
func (l *Loop) warning() string {
	lost := map[flightlog.Quantity]string{
		flightlog.Elevator: "elevator power and pitch damping", flightlog.Aileron: "aileron power and roll damping", flightlog.RudderLeft: "rudder power and yaw damping",
	}[l.Control]
	return fmt.Sprintf("an active stabiliser moved the %s with the %s (%.2f rad per rad/s, seen in %d of %d manoeuvres): %s cannot be told apart; switch it off for input manoeuvres",
		plainName(l.Control), spelled([]string{string(l.Rate)}), math.Abs(l.Gain), l.Found, l.Looked, lost)
}

func rateOf(control flightlog.Quantity) flightlog.Quantity {
	switch control {
	case flightlog.Elevator:
		return flightlog.PitchRate
	case flightlog.Aileron:
		return flightlog.RollRate
	}
	return flightlog.YawRate
}

// answered is the rate that a control answers.
func (s *Segment) answered(control flightlog.Quantity) []float64 {
	switch control {
	case flightlog.Elevator:
		return s.PitchRate
	case flightlog.Aileron:
		return s.RollRate
	}
	return s.YawRate
}

func plainName(control flightlog.Quantity) string {
	if control == flightlog.RudderLeft {
		return "rudder"
	}
	return string(control)
}
