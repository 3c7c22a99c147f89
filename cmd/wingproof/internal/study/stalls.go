package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// Stalls works out for every configuration which surface lets go first, and puts the margins among the estimates. What the program
// does not state for it comes back in words.
//
// It stands apart from Run because it needs a lattice of its own, with wakes along the stream of a slow aircraft.
func (s *Study) Stalls(ctx context.Context) (missing []string, err error) {
	out, err := s.stallInputs().orders(ctx, s.keep)
	for i, cases := range out.Cases {
		s.Configurations[i].Stalls = cases
	}
	for _, c := range s.Configurations {
		s.Estimates = append(s.Estimates, c.stallEstimates()...)
	}
	return out.Missing, err
}

// stallInputs are all that the stall orders are computed from.
type stallInputs struct {
	Program     program.Program // what predictions read of it
	ReferenceCG float64
}

// stallOrders are the stall cases of each configuration, and what the program does not state for them.
type stallOrders struct {
	Cases   [][]prediction.StallCase
	Missing []string
}

func (s *Study) stallInputs() stallInputs {
	in := stallInputs{predictionInputsOf(s.Program).Program, s.ReferenceCG}
	in.Program.FullSize.ApproachSpeed = 0 // no stall and no take-off asks for it
	return in
}

// orders finds the stall orders that were worked out before, or computes them.
func (in stallInputs) orders(ctx context.Context, store *keep.Store) (stallOrders, error) {
	return keep.Result(store, keep.Work[stallOrders]{Kind: "stall", Inputs: in, Compute: func() (stallOrders, error) { return in.compute(ctx) }})
}

func (in stallInputs) compute(ctx context.Context) (out stallOrders, err error) {
	p := &in.Program
	setup, err := Setup(p, in.ReferenceCG)
	if err != nil {
		return out, err
	}
	configurations, err := configurationsOf(p)
	if err != nil {
		return out, err
	}
	airframes := make([]aero.Airframe, len(configurations))
	for i, c := range configurations {
		airframes[i] = c.Airframe
	}
	slow := prediction.StallSetup(setup)
	all, err := prediction.Analyse(airframes, slow)
	if err != nil {
		return out, named(err, configurations)
	}
	out.Cases = make([][]prediction.StallCase, len(all))
	lacks := make([][]string, len(all))
	err = each(ctx, len(all), func(i int) error {
		var err error
		if out.Cases[i], lacks[i], err = prediction.Stall(p, &all[i], slow); err != nil {
			return fmt.Errorf("stall order of configuration %s: %w", configurations[i].Name, err)
		}
		return nil
	})
	for _, list := range lacks {
		for _, what := range list {
			if !slices.Contains(out.Missing, what) {
				out.Missing = append(out.Missing, what)
			}
		}
	}
	return out, err
}

// stallEstimates are the least margins of a configuration at full size, with the error of the section data.
func (c Configuration) stallEstimates() []evidence.Estimate {
	var out []evidence.Estimate
	add := func(quantity string, sc prediction.StallCase, low, high, deviation float64, common map[string]float64) {
		cg := sc.CG
		e := evidence.Estimate{
			Configuration: c.Name, Levels: c.Levels, Quantity: quantity, Unit: "rad", Scale: evidence.FullSize,
			Origin: evidence.Predicted, State: evidence.Determined, Axes: AxesOf(quantity), Power: evidence.Pointer("idle"),
			Method:  evidence.Pointer("critical sections on the vortex lattice; " + sc.Name + ", loading " + sc.Loading),
			Flights: []string{}, Warnings: nonNil(sc.Notes),
			At: evidence.At{CG: &cg, CGPercent: evidence.Pointer(c.Airframe.Reference.Percent(cg)),
				LiftCoefficient: evidence.Pointer(sc.Lift), Speed: evidence.Pointer(sc.Speed), Reynolds: evidence.Pointer(sc.ForeplaneReynolds)},
		}
		if !finite(sc.Lift, sc.Speed, sc.ForeplaneReynolds) {
			e.At.LiftCoefficient, e.At.Speed, e.At.Reynolds = nil, nil, nil
		}
		if !finite(low, high, deviation) {
			e.State, e.Set = evidence.NotDetermined, evidence.Pointer(evidence.Interval)
			e.Low, e.High = bound(low), bound(high)
			out = append(out, e)
			return
		}
		e.Value = evidence.Pointer((low + high) / 2)
		out = append(out, withError(e, 0, common, true))
	}
	if sc, ok := prediction.GoverningStall(c.Stalls); ok {
		add(prediction.StallOrderMargin, sc, sc.Order.Margin.Low, sc.Order.Margin.High, sc.Deviation, sc.Common)
	}
	if sc, ok := prediction.GoverningStallTrim(c.Stalls); ok {
		add(prediction.StallTrimMargin, sc, sc.Trim.Left.Low, sc.Trim.Left.High, sc.Trim.Deviation, sc.Trim.Common)
	}
	return out
}

// bound is a finite bound, else nil.
func bound(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
