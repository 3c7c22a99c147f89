package study

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// FullSize is what only limits on stall and take-off ask for of a configuration: it takes lattices of its own.
type FullSize struct {
	Beliefs    []Belief
	ModelLifts []LiftAt // greatest lift of the model in trim, the foremost CG first
	Missing    []string // what is not predicted, and for want of what
}

// Belief is one predicted number of a configuration, the step from model to full size where one was computed, and the standard
// deviation that section data leave at full size.
type Belief struct {
	Quantity        string
	Value, Step, SD float64
	HasStep         bool   // Value belongs to the model, and Step was computed; else Value belongs to full size
	Method          string // how it was found, and the case that governs
}

// LiftAt is a lift coefficient at a CG, m aft of datum.
type LiftAt struct{ CG, Lift float64 }

// fullSizeInputs are all that these predictions are computed from.
type fullSizeInputs struct {
	Stall           stallInputs
	Stalls, TakeOff bool // which of them are asked for
}

// askedOf tells which of these predictions the limits of a program rest on.
func askedOf(p *program.Program) (stalls, takeOff bool) {
	for _, l := range p.Limits {
		switch l.Quantity {
		case evidence.StallOrderMargin, evidence.StallingSpeed:
			stalls = true
		case evidence.RotationSpeed:
			takeOff = true
		}
	}
	return stalls, takeOff
}

// fullSize works out, for every configuration, what the limits on stall and take-off rest on; nothing when there are none.
func (s *Study) fullSize(ctx context.Context) error {
	in := fullSizeInputs{Stall: s.stallInputs()}
	if in.Stalls, in.TakeOff = askedOf(s.Program); !in.Stalls && !in.TakeOff {
		return nil
	}
	all, err := keep.Result(s.keep, keep.Work[[]FullSize]{Kind: "fullsize", Inputs: in, Compute: func() ([]FullSize, error) { return in.compute(ctx, s.keep) }})
	if err != nil {
		return err
	}
	for i, f := range all {
		c := &s.Configurations[i]
		c.FullSize, c.Warnings = f, append(slices.Clone(c.Warnings), f.Missing...)
	}
	return nil
}

func (in fullSizeInputs) compute(ctx context.Context, store *keep.Store) ([]FullSize, error) {
	p := &in.Stall.Program
	configurations, err := configurationsOf(p)
	if err != nil {
		return nil, err
	}
	setup, err := Setup(p, in.Stall.ReferenceCG)
	if err != nil {
		return nil, err
	}
	var orders stallOrders
	if in.Stalls {
		if orders, err = in.Stall.orders(ctx, store); err != nil {
			return nil, err
		}
	}
	out := make([]FullSize, len(configurations))
	if in.Stalls {
		for i := range out {
			out[i].stall(orders.Cases[i], orders.Missing)
		}
	}
	if in.TakeOff {
		err = takeOffs(p, configurations, setup, out)
	}
	return out, err
}

// takeOffs notes the moments at which the nose wheel leaves the ground; all configurations are solved together.
func takeOffs(p *program.Program, configurations []Configuration, setup prediction.Setup, out []FullSize) error {
	airframes := make([]aero.Airframe, len(configurations))
	for i, c := range configurations {
		airframes[i] = c.Airframe
	}
	rotations, missing, err := prediction.TakeOffs(p, airframes, setup)
	if err != nil {
		return fmt.Errorf("take-off: %w", named(err, configurations))
	}
	for i := range out {
		out[i].takeOff(rotations[i], missing[i])
	}
	return nil
}

// toFullSize takes what the solution at hand tells of full size: the elevator line at the approach speed and the step of zero-lift drag.
func (c *Configuration) toFullSize(a prediction.Analysis, p *program.Program, setup prediction.Setup) error {
	c.ZeroLiftElevator = math.NaN()
	if lift, cg, ok := prediction.Approach(p, a.Solution.Reference().Area); ok {
		var err error
		if c.ZeroLiftElevator, err = prediction.ZeroLiftElevator(&a, setup, c.NeutralPoint, c.ElevatorTrimRate, lift, cg); err != nil {
			return err
		}
	}
	sections, err := prediction.SectionsOf(p)
	if err == nil {
		c.DragStep, err = prediction.ZeroLiftDragStep(p, sections, &a, setup)
	}
	if err != nil { // only the drag goes without: section data that cannot be used stop what asks for them
		c.DragStep = prediction.DragStep{Missing: []string{"zero-lift drag at full size: " + err.Error()}}
	}
	return nil
}

// takeOff takes the moment with which the elevator lifts the nose wheel.
func (f *FullSize) takeOff(r prediction.Rotation, missing []string) {
	if len(missing) > 0 {
		f.Missing = append(f.Missing, missing...)
		return
	}
	f.Beliefs = append(f.Beliefs, Belief{Quantity: evidence.RotationMoment, Value: r.Moment,
		Method: "vortex lattice with the ground's image, level on the wheels, elevator at its nose-up stop; propeller, wheel drag and a stall of the foreplane left out"})
}

// stall takes stall order and greatest lift from the cases of a configuration.
func (f *FullSize) stall(cases []prediction.StallCase, missing []string) {
	margin, sd, governing, ok := prediction.StallMargin(cases)
	if ok {
		f.Beliefs = append(f.Beliefs, Belief{Quantity: evidence.StallOrderMargin, Value: margin, SD: sd, Method: "critical sections on the vortex lattice; " + governing.Name})
	}
	lifts := f.lift(cases)
	lacks := ""
	switch {
	case !ok && !lifts:
		lacks = "stall order and greatest lift are not predicted"
	case !ok:
		lacks = "stall order is not predicted"
	case !lifts:
		lacks = "greatest lift is not predicted"
	}
	if lacks != "" {
		f.Missing = append(f.Missing, lacks+": "+decisive(missing))
	}
}

// decisive are those of the sentences about what is missing that stopped the judging; where none says so, all of them.
func decisive(missing []string) string {
	var stopped []string
	for _, what := range missing {
		if strings.Contains(what, "not judged") {
			stopped = append(stopped, what)
		}
	}
	switch {
	case len(stopped) > 0:
		return strings.Join(stopped, "; ")
	case len(missing) > 0:
		return strings.Join(missing, "; ")
	}
	return "within the angles of attack searched, nothing shows which surface lets go first"
}

// lift takes the greatest lift at the foremost loading: the model's, and the step from there to full size. It tells whether there is one.
func (f *FullSize) lift(cases []prediction.StallCase) bool {
	at := func(size string, h prediction.Handling) prediction.StallCase {
		for _, c := range cases {
			if c.Size == size && c.Handling == h && c.Surfaces == prediction.AllClean && c.Greatest.Known {
				return c
			}
		}
		return prediction.StallCase{}
	}
	model, full := at(evidence.ModelScale, prediction.ForwardTrimmed), at(evidence.FullSize, prediction.ForwardTrimmed)
	if !model.Greatest.Known || !full.Greatest.Known {
		return false
	}
	f.Beliefs = append(f.Beliefs, Belief{Quantity: evidence.MaxLift, Value: model.Greatest.Lift, Step: full.Greatest.Lift - model.Greatest.Lift, SD: full.Greatest.Deviation,
		HasStep: true, Method: fmt.Sprintf("critical sections on the vortex lattice, in trim at the foremost loading; it ends where %s", full.Greatest.Ends)})
	f.ModelLifts = append(f.ModelLifts, LiftAt{model.CG, model.Greatest.Lift})
	if aft := at(evidence.ModelScale, prediction.AftTrimmed); aft.Greatest.Known {
		f.ModelLifts = append(f.ModelLifts, LiftAt{aft.CG, aft.Greatest.Lift})
	}
	return true
}

// believe puts the beliefs into what decide is handed.
func (f FullSize) believe(p *decide.Prediction) {
	for _, b := range f.Beliefs {
		p.Values[b.Quantity] = b.Value
		if b.HasStep {
			if p.Step == nil {
				p.Step = map[string]float64{}
			}
			p.Step[b.Quantity] = b.Step
		}
		if b.SD > 0 {
			if p.Doubt == nil {
				p.Doubt = map[string]float64{}
			}
			p.Doubt[b.Quantity] = b.SD
			if b.HasStep { // the tables at full-size Reynolds numbers have an error of their own, which no flight of the model sees
				if p.FullDoubt == nil {
					p.FullDoubt = map[string]float64{}
				}
				p.FullDoubt[b.Quantity] = b.SD
			}
		}
	}
}

// slowJudgeable refuses limits whose numbers could not be predicted for some configuration, in the words of what is missing.
func (s *Study) slowJudgeable() error {
	for _, c := range s.Configurations {
		if dragAsked(s.Program) && !c.DragStep.Known {
			return &InputError{fmt.Sprintf("program.toml: a limit on %s cannot be judged with %s, since drag at full size is not known: %s", evidence.PhugoidDamping, c.Name, strings.Join(c.DragStep.Missing, "; ")),
				"add what is missing, or take the limit out"}
		}
	}
	for _, l := range s.Program.Limits {
		belief := map[string]string{evidence.StallOrderMargin: evidence.StallOrderMargin, evidence.StallingSpeed: evidence.MaxLift, evidence.RotationSpeed: evidence.RotationMoment}[l.Quantity]
		for _, c := range s.Configurations {
			if belief == "" || slices.ContainsFunc(c.FullSize.Beliefs, func(b Belief) bool { return b.Quantity == belief }) {
				continue
			}
			return &InputError{fmt.Sprintf("program.toml: limit %q on %s cannot be judged with %s: %s", l.Name, l.Quantity, c.Name, strings.Join(c.FullSize.Missing, "; ")),
				"add what is missing, or take the limit out"}
		}
	}
	return nil
}
