package identify

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// shortestSegment is the shortest segment that a regression takes, s: less than a period of a model's short period or Dutch roll tells
// nothing of damping. Common practice, no source.
const shortestSegment = 1.5

// block is one segment made ready for regression.
type block struct {
	flight, kind   string
	control        flightlog.Quantity
	start, step    float64
	columns        [][]float64 // one for each term of the axis
	responses      [][]float64 // one for each response of the axis
	apart          [][]float64 // orthonormal: what each segment has of its own, such as a constant, and what is taken off all columns
	input          []float64   // surface that was moved
	fresh          float64     // share of the rows whose noise is independent
	lift, airspeed float64     // before the input
	density        float64
}

// smoothed are the channels of a segment after the common filter.
type smoothed struct {
	segment                   *Segment
	start                     float64
	p, q, r, dp, dq, dr       []float64
	forward, right, down      []float64
	speed, alpha, beta        []float64
	elevator, aileron, rudder []float64
	edges                     [][]float64 // what the unknown times of the edges of the moved command do
	quiet                     int         // samples before the control first moved
}

// checkSegment says what is wrong with a segment, or nothing.
func checkSegment(s *Segment) error {
	where := fmt.Sprintf("flight %s, %s from %.1f s", s.Flight, s.Kind, s.Start)
	n := len(s.PitchRate)
	switch {
	case !(s.Step > 0):
		return fmt.Errorf("%s: a step of %g s between samples is not positive", where, s.Step)
	case float64(n)*s.Step < shortestSegment || n < 2*newKernel(s.Step).margin()+20:
		return fmt.Errorf("%s: %d samples are too few to tell anything; it takes %.1f s of the motion", where, n, shortestSegment)
	case !(s.Density > 0 && s.Body.Mass > 0):
		return fmt.Errorf("%s: density %g kg/m³ and mass %g kg must be positive", where, s.Density, s.Body.Mass)
	}
	for _, c := range s.channels() {
		if len(c.values) != n {
			return fmt.Errorf("%s: %d samples of %s beside %d of pitch rate", where, len(c.values), c.name, n)
		}
		if !statistic.Finite(c.values...) {
			return fmt.Errorf("%s: %s has gaps; only an unbroken recording can be used", where, c.name)
		}
	}
	for _, v := range s.Airspeed {
		if !(v > 0) {
			return fmt.Errorf("%s: airspeed %g m/s is not positive", where, v)
		}
	}
	return nil
}

type namedChannel struct {
	name   string
	values []float64
}

func (s *Segment) channels() []namedChannel {
	return []namedChannel{
		{"roll rate", s.RollRate}, {"pitch rate", s.PitchRate}, {"yaw rate", s.YawRate},
		{"forward acceleration", s.ForwardForce}, {"right acceleration", s.RightForce}, {"down acceleration", s.DownForce},
		{"airspeed", s.Airspeed}, {"angle of attack", s.Alpha}, {"sideslip", s.Beta},
		{"elevator", s.Elevator}, {"aileron", s.Aileron}, {"rudder", s.Rudder},
	}
}

// smoothSegment filters all channels of a checked segment alike.
func smoothSegment(s *Segment, servos map[flightlog.Quantity]Servo) smoothed {
	k := newKernel(s.Step)
	out := smoothed{
		segment: s, start: s.Start + float64(k.margin())*s.Step,
		p: k.value(s.RollRate), q: k.value(s.PitchRate), r: k.value(s.YawRate),
		dp: k.slope(s.RollRate, s.Step), dq: k.slope(s.PitchRate, s.Step), dr: k.slope(s.YawRate, s.Step),
		forward: k.value(s.ForwardForce), right: k.value(s.RightForce), down: k.value(s.DownForce),
		speed: k.value(s.Airspeed), alpha: k.value(s.Alpha), beta: k.value(s.Beta),
		quiet: max(1, s.firstMove()-k.margin()),
	}
	out.surfaces(servos)
	return out
}

// surfaces are where the servos bring the surfaces, smoothed; a servo that is not known counts as one without lag.
func (s *smoothed) surfaces(servos map[flightlog.Quantity]Servo) {
	k, step := newKernel(s.segment.Step), s.segment.Step
	surface := func(control flightlog.Quantity, command []float64) []float64 {
		return k.value(servos[control].behindLogged(command, step))
	}
	s.elevator = surface(flightlog.Elevator, s.segment.Elevator)
	s.aileron = surface(flightlog.Aileron, s.segment.Aileron)
	s.rudder = surface(flightlog.RudderLeft, s.segment.Rudder)
	if command := s.segment.command(s.segment.Control); command != nil {
		s.edges = edgeDirections(command, step, servos[s.segment.Control])
	}
}

// moved is the surface that the segment moves.
func (s *smoothed) moved() []float64 {
	switch s.segment.Control {
	case flightlog.Elevator:
		return s.elevator
	case flightlog.Aileron:
		return s.aileron
	case flightlog.RudderLeft, flightlog.RudderRight:
		return s.rudder
	}
	return nil
}

// without takes off what the segment has of its own.
func (b *block) without(columns [][]float64) [][]float64 {
	out := make([][]float64, len(columns))
	for j, c := range columns {
		out[j] = append([]float64(nil), c...)
		for _, own := range b.apart {
			share := inner(own, c)
			for i := range out[j] {
				out[j][i] -= float64(share * own[i])
			}
		}
	}
	return out
}

// constant is the direction of a constant, of length one.
func constant(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 1 / math.Sqrt(float64(n))
	}
	return out
}

// command is the logged command of a control.
func (s *Segment) command(control flightlog.Quantity) []float64 {
	switch control {
	case flightlog.Elevator:
		return s.Elevator
	case flightlog.Aileron:
		return s.Aileron
	case flightlog.RudderLeft, flightlog.RudderRight:
		return s.Rudder
	}
	return nil
}

// firstMove is the first sample at which the moved control is a third of its stroke away from where it began: the whole length when it never
// is. What the pilot did to hold the model before stays below that.
func (s *Segment) firstMove() int {
	command := s.command(s.Control)
	farthest := 0.0
	for _, c := range command {
		farthest = math.Max(farthest, math.Abs(c-command[0]))
	}
	for k, c := range command {
		if math.Abs(c-command[0]) > farthest/3 {
			return k
		}
	}
	return len(s.PitchRate)
}

// centred takes the mean off each column.
func centred(columns [][]float64) [][]float64 {
	out := make([][]float64, len(columns))
	for j, c := range columns {
		own := block{apart: [][]float64{constant(len(c))}}
		out[j] = own.without([][]float64{c})[0]
	}
	return out
}
