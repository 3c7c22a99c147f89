package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// Dynamics is what the input manoeuvres of one flight say.
type Dynamics struct {
	Fits []identify.Fit // one for each axis and state of power
	Why  []string       // what could not be fitted, and why

	Warnings []string         // a stabiliser that worked against the inputs
	Swings   []estimate.Swing // Dutch rolls in the hands-off ends of the rudder inputs
}

// stabilised says which surfaces an active stabiliser moved against the inputs.
func stabilised(segments []identify.Segment, axis identify.Axis) []string {
	loops, err := identify.Feedback(segments, axis)
	if err != nil {
		return nil // the fit has told what is wrong with the axis
	}
	var out []string
	for _, loop := range loops {
		if loop.Active {
			out = append(out, loop.Warning)
		}
	}
	return out
}

// identify fits the derivatives to the input manoeuvres of every flight that counts.
func (s *Study) identify(ctx context.Context, count *counter) error {
	return each(ctx, len(s.Flights), func(i int) error {
		if f := &s.Flights[i]; f.Used {
			f.Dynamics = s.dynamicsOf(f.Reduction.Segments)
			f.Dynamics.Swings = s.dutchRolls(*f)
		}
		count.say("fitting manoeuvres")
		return nil
	})
}

// dynamicsOf fits segments by axis and state of power.
func (s *Study) dynamicsOf(segments []identify.Segment) Dynamics {
	var out Dynamics
	for _, axis := range []identify.Axis{identify.Longitudinal, identify.Lateral} {
		for _, power := range powersOf(segments) {
			these := segmentsOf(segments, axis, power)
			if len(these) == 0 {
				continue
			}
			fit := derivativeInputs{these, axis, s.setup(axis)}.outcome(s.keep)
			if fit.Why != "" {
				out.Why = append(out.Why, fmt.Sprintf("%s inputs with power %s: %s", axis, power, fit.Why))
				continue
			}
			out.Fits = append(out.Fits, fit.Fit)
			out.Warnings = append(out.Warnings, stabilised(these, axis)...)
		}
	}
	return out
}

// stabilisedIn names the flights in which a stabiliser worked.
func stabilisedIn(flights []Flight) []string {
	var out []string
	for _, f := range flights {
		for _, warning := range f.Dynamics.Warnings {
			out = append(out, "flight "+f.Name+": "+warning)
		}
	}
	return out
}

// derivativeInputs are all that a fit of derivatives reads.
type derivativeInputs struct {
	Segments []identify.Segment
	Axis     identify.Axis
	Setup    identify.Setup
}

// derivatives are what such a fit gave, or why it gave none.
type derivatives struct {
	Fit identify.Fit
	Why string
}

// outcome finds what the same manoeuvres gave before, or fits them. A fit on which the program breaks down costs its own flight only.
func (in derivativeInputs) outcome(store *keep.Store) derivatives {
	out, _ := keep.Result(store, keep.Work[derivatives]{Kind: "derivatives", Inputs: in, Compute: func() (out derivatives, err error) {
		defer func() {
			if broken := recover(); broken != nil {
				err = fmt.Errorf("the fit broke down, which is a mistake of this program: %v", broken)
				out = derivatives{Why: err.Error()}
			}
		}()
		fit, failed := identify.Estimate(in.Segments, in.Axis, in.Setup)
		if failed != nil {
			return derivatives{Why: failed.Error()}, nil
		}
		return derivatives{Fit: fit}, nil
	}})
	return out
}

// segmentsOf keeps the segments of one axis and one state of power.
func segmentsOf(segments []identify.Segment, axis identify.Axis, power string) []identify.Segment {
	var out []identify.Segment
	for _, one := range segments {
		if (one.Control == flightlog.Elevator) == (axis == identify.Longitudinal) && one.Power == power {
			out = append(out, one)
		}
	}
	return out
}

func powersOf(segments []identify.Segment) []string {
	var out []string
	for _, one := range segments {
		if !slices.Contains(out, one.Power) {
			out = append(out, one.Power)
		}
	}
	slices.Sort(out)
	return out
}

// setup is what all fits of one axis share. Longitudinal derivatives refer to the CG of the predictions, lateral ones to the CG at
// which directional stiffness is judged.
func (s *Study) setup(axis identify.Axis) identify.Setup {
	ratio := s.Program.Model.LengthRatio
	c := s.Configurations[0]
	cg := s.ReferenceCG
	if axis == identify.Lateral {
		cg = c.StiffnessCG
	}
	out := identify.Setup{Reference: c.Airframe.Reference.Scaled(ratio), MomentX: cg * ratio, MomentZ: c.Derivatives.MomentZ * ratio,
		Servos: map[flightlog.Quantity]identify.Servo{}, Errors: s.dynamicErrors()}
	for _, v := range s.Program.Servos {
		out.Servos[v.Control] = identify.Servo{Delay: v.Delay, Lag: v.Lag, Rate: v.Rate, Backlash: v.Backlash, LagSD: v.LagSD, Source: v.Source}
	}
	return out
}

// dynamicErrors are the standard deviations of what all fits of derivatives share, at model size.
func (s *Study) dynamicErrors() identify.Errors {
	e := s.Program.Model.Errors
	shared := systematics(s.Program)
	out := identify.Errors{AirspeedScale: s.airspeedSD(), Mass: shared.Mass, Density: shared.Density, CG: shared.CG * s.Program.Model.LengthRatio,
		Mounting: e.Alpha, ElevatorScale: e.ElevatorScale, AileronScale: e.AileronScale, RudderScale: e.RudderScale}
	for _, w := range weighingsInUse(s.Program) {
		out.InertiaX = relative(out.InertiaX, w.IxSD, w.Ix)
		out.InertiaY = relative(out.InertiaY, w.IySD, w.Iy)
		out.InertiaZ = relative(out.InertiaZ, w.IzSD, w.Iz)
	}
	return out
}

// relative is the larger of most and sd over size, where there is a size.
func relative(most, sd, size float64) float64 {
	if size > 0 {
		return math.Max(most, sd/size)
	}
	return most
}

// weighingsInUse lists the weighings that flights that count name.
func weighingsInUse(p *program.Program) []program.Weighing {
	var out []program.Weighing
	for _, w := range p.Weighings {
		if slices.ContainsFunc(p.Flights, func(f program.Flight) bool { return f.Use && f.Weighing == w.Name }) {
			out = append(out, w)
		}
	}
	return out
}
