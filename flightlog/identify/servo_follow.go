package identify

import (
	"errors"
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
)

// vagueFollow is the standard deviation of the time of a servo, s, that leaves a damping as unknown as no servo at all would.
// Common practice, no source.
const vagueFollow = 0.020

// unevenFollow is, in samples, how far the mean time of movements may lie from the middle between samples for all flights alike, as
// where a transmitter's frames keep step with the logger. Common practice, no source.
const unevenFollow = 1.0 / 12

// Follow finds the time by which a surface follows its command from the flights, where no bench test states it: the time, pure delay
// and lag together, with which the moment that the surface makes fits the angular acceleration best, in the regression of
// EquationError. Each movement of the stick shows its own time, since nobody knows when between two samples it was; a flight gives
// their mean, and flights are averaged. The standard deviation, which is returned beside the servo and stands in LagSD, holds the noise, the
// unknown times between samples, the spread between flights where that is larger, and a twelfth of a sample that no number of flights
// takes away.
//
// The time is that from the logged command to the logged rates: a logger that reads its gyros late takes that much off, and a rate limit
// that large steps meet counts as delay.
//
// control is elevator, aileron or rudder_left. Segments that move other controls are not used; inertias need not be known.
// The error says in words when there are no such segments, or when the time cannot be told apart from damping.
func Follow(segments []Segment, control flightlog.Quantity, setup Setup) (Servo, float64, error) {
	f, err := newFollower(segments, control, setup)
	if err != nil {
		return Servo{}, 0, err
	}
	var times, lags, sds []float64
	vague := f.vague(math.Inf(1))
	for _, flight := range f.gathered.flights {
		s, err := f.flight(flight)
		if err != nil {
			vague = err
			continue
		}
		times, lags, sds = append(times, s.EquivalentLag()), append(lags, s.Lag), append(sds, s.LagSD)
	}
	if len(times) == 0 {
		return Servo{}, 0, vague
	}
	time, sd := pooled(times, sds)
	sd = math.Hypot(sd, unevenFollow*f.gathered.segments[0].segment.Step)
	lag, _ := pooled(lags, sds)
	if !(sd <= vagueFollow) {
		return Servo{}, sd, f.vague(sd)
	}
	out := Servo{Delay: math.Max(0, time-lag), Lag: math.Max(0, math.Min(lag, time)), LagSD: sd, Source: fmt.Sprintf("estimated from %d flights", len(times))}
	if len(times) == 1 {
		out.Source = "estimated from one flight"
	}
	return out, sd, nil
}

// follower is the search for one control.
type follower struct {
	gathered *gathered
	control  flightlog.Quantity
	column   int // of the control
	response int
}

func newFollower(segments []Segment, control flightlog.Quantity, setup Setup) (*follower, error) {
	f := &follower{control: control}
	axis := Lateral
	switch control {
	case flightlog.Elevator:
		axis, f.column, f.response = Longitudinal, 2, 1
	case flightlog.Aileron:
		f.column, f.response = 3, 1
	case flightlog.RudderLeft:
		f.column, f.response = 4, 2
	default:
		return nil, fmt.Errorf("identify: %q is no surface whose lag can be found; write %s, %s or %s", control, flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft)
	}
	var moving []Segment
	for _, s := range segments {
		if s.Control == control && len(s.command(control)) > 0 && len(edgesOf(s.command(control))) > 0 {
			moving = append(moving, withInertia(s))
		}
	}
	if len(moving) == 0 {
		return nil, fmt.Errorf("identify: no sharp step on the %s in any segment, so that nobody can tell by what time it follows; fly doublets, or measure it on the bench", plainName(control))
	}
	setup.Errors = Errors{}
	var err error
	f.gathered, err = gather(moving, axis, setup)
	return f, err
}

// withInertia puts an inertia where none was measured: the time does not depend on the size of a moment, only on its course.
func withInertia(s Segment) Segment {
	for _, i := range [...]*float64{&s.Body.Ix, &s.Body.Iy, &s.Body.Iz} {
		if !(*i > 0) {
			*i = 1
		}
	}
	if s.Body.Ixz*s.Body.Ixz >= s.Body.Ix*s.Body.Iz {
		s.Body.Ixz = 0
	}
	return s
}

func plainName(control flightlog.Quantity) string {
	if control == flightlog.RudderLeft {
		return "rudder"
	}
	return string(control)
}

// pooled is the mean weighted by the variances, and its standard deviation, widened where flights differ by more than theirs.
func pooled(values, sds []float64) (mean, sd float64) {
	var weights, sum float64
	for i, v := range values {
		w := 1 / (sds[i] * sds[i])
		weights += w
		sum += w * v
	}
	mean, sd = sum/weights, math.Sqrt(1/weights)
	if n := len(values); n > 1 {
		chi := 0.0
		for i, v := range values {
			chi += (v - mean) * (v - mean) / (sds[i] * sds[i])
		}
		sd *= math.Sqrt(math.Max(1, chi/float64(n-1)))
	}
	return mean, sd
}

// vague says that the time cannot be told.
func (f *follower) vague(sd float64) error {
	size := "no interval at all"
	if statistic.Finite(sd) {
		size = fmt.Sprintf("± %.0f ms", 1000*sd)
	}
	return fmt.Errorf("identify: the time by which the %s follows its command cannot be told apart from damping (%s): the inputs are too slow or too small; fly doublets with quick steps, or measure it on the bench: %w",
		plainName(f.control), size, leastsquares.ErrUndetermined)
}

// notDetermined tells whether a regression failed for want of information.
func notDetermined(err error) bool { return errors.Is(err, leastsquares.ErrUndetermined) }
