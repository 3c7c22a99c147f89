package study

import (
	"context"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/lattice"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// PredictionLift is the lift coefficient at which the lattice is linearised.
const PredictionLift = prediction.Lift

// Configuration is one combination of levels with what the lattice says of it.
type Configuration struct {
	Name        string
	Levels      map[string]string
	Airframe    aero.Airframe
	Analysis    prediction.Analysis // trimmed at PredictionLift about ReferenceCG; without a Solution where results are kept
	Derivatives aero.Derivatives    // those of the analysis

	NeutralPoint         float64 // m aft of datum
	ElevatorTrimRate     float64 // rad per unit CL per m of CG travel
	LiftSlope            float64 // 1/rad, elevator held
	TrimmedLiftSlope     float64 // 1/rad, elevator trimming at ReferenceCG
	DirectionalStiffness float64 // 1/rad about StiffnessCG
	StiffnessCG          float64 // m aft of datum: the aftmost loading that flies, where it is least; else ReferenceCG
	DihedralEffect       float64 // 1/rad
	TrimAlpha            float64 // rad at PredictionLift
	TrimElevator         float64 // rad at PredictionLift
	InducedDrag          float64 // coefficient at PredictionLift, far field
	SpanEfficiency       float64
	Panels               int
	SpanLoad             []aero.StripLoad
	BendingAxis          []float64 // y of the stations below, m
	Bending              []float64 // N·m, greatest size over the load envelope, wing with what joins it; the root comes first
	Loads                prediction.LoadsResult
	Stalls               []prediction.StallCase // after Study.Stalls
	FullSize             FullSize               // where the limits of the program ask for it
	DragStep             prediction.DragStep    // of zero-lift drag from model to full size
	ZeroLiftElevator     float64                // rad, see prediction.ZeroLiftElevator; NaN when nothing is trimmed or no approach speed is stated
	Warnings             []string

	spars map[string][]decide.BendingStation // by surface that a built part lies in
}

// predict solves the lattice of every configuration, unless that was done before.
func (s *Study) predict(ctx context.Context, count *counter) error {
	in := predictionInputsOf(s.Program)
	out, err := in.predictions(ctx, s.keep, count)
	s.Configurations, s.ReferenceCG = out.Configurations, out.ReferenceCG
	return err
}

// predictionResults are the predictions of every configuration.
type predictionResults struct {
	Configurations []Configuration
	ReferenceCG    float64
}

// compute solves the lattice of every configuration, all together, since most surfaces are the same in many of them.
func (in predictionInputs) compute(ctx context.Context, count *counter) (out predictionResults, err error) {
	p := &in.Program
	if out.Configurations, err = configurationsOf(p); err != nil {
		return out, err
	}
	if out.ReferenceCG = in.CG; !in.KnownCG {
		if out.ReferenceCG, err = guessedCG(out.Configurations[0].Airframe); err != nil {
			return out, fmt.Errorf("configuration %s: %w", out.Configurations[0].Name, err)
		}
	}
	setup, err := Setup(p, out.ReferenceCG)
	if err != nil {
		return out, err
	}
	airframes := make([]aero.Airframe, len(out.Configurations))
	for i, c := range out.Configurations {
		airframes[i] = c.Airframe
	}
	all, err := prediction.Analyse(airframes, setup)
	if err != nil {
		return out, named(err, out.Configurations)
	}
	return out, each(ctx, len(all), func(i int) error {
		c := &out.Configurations[i]
		if err := c.take(all[i], p, setup.CG); err != nil {
			return fmt.Errorf("configuration %s: %w", c.Name, err)
		}
		if err := c.toFullSize(all[i], p, setup); err != nil {
			return fmt.Errorf("configuration %s: %w", c.Name, err)
		}
		count.say("lattice")
		return nil
	})
}

// configurationsOf lists the configurations of a program with their airframes, nothing predicted yet.
func configurationsOf(p *program.Program) ([]Configuration, error) {
	levels := p.Configurations()
	out := make([]Configuration, len(levels))
	for i, l := range levels {
		c := &out[i]
		c.Name, c.Levels = evidence.Name(l), l
		var err error
		if c.Airframe, c.Warnings, err = p.Airframe(l); err != nil {
			return nil, fmt.Errorf("configuration %s: %w", c.Name, err)
		}
	}
	return out, nil
}

// Setup is the condition in which the configurations of a program are predicted: trimmed at PredictionLift about a CG, with the
// program's fuselage and the error of the grid.
func Setup(p *program.Program, cg float64) (prediction.Setup, error) {
	fuselage, err := prediction.BodyOf(p)
	return prediction.Setup{CG: r3.Vec{X: cg, Z: p.FullSize.EmptyZ.Value}, Grids: true, Body: fuselage}, err
}

// named replaces the number of an airframe by the name of its configuration.
func named(err error, configurations []Configuration) error {
	var at *lattice.AirframeError
	if errors.As(err, &at) && at.Index < len(configurations) {
		return fmt.Errorf("configuration %s: %w", configurations[at.Index].Name, at.Err)
	}
	return err
}

// guessedCG is the reference CG when the folder names no CG at all: a tenth of the mean chord ahead of the neutral
// point.
func guessedCG(airframe aero.Airframe) (float64, error) {
	solution, err := lattice.Solve(airframe, lattice.Options{Density: 0.5})
	if err != nil {
		return 0, err
	}
	return solution.NeutralPoint(lattice.State{}) - 0.1*airframe.Reference.MeanChord, nil
}

// take fills a configuration from its analysis.
func (c *Configuration) take(a prediction.Analysis, p *program.Program, point r3.Vec) error {
	c.Analysis, c.Derivatives = a, a.Derivatives
	c.Warnings = append(c.Warnings, a.Warnings...)
	_, aft, ok := prediction.LoadedRange(p)
	if !ok {
		aft = point.X
	}
	c.NeutralPoint = a.Value(evidence.NeutralPoint)
	c.LiftSlope = a.Value(evidence.LiftCurveSlope)
	c.TrimmedLiftSlope = a.Value(evidence.TrimmedLiftSlope)
	c.ElevatorTrimRate = a.Value(evidence.ElevatorTrimRate)
	c.DihedralEffect = a.Value(prediction.DihedralEffect)
	c.directional(aft)
	c.TrimAlpha, c.TrimElevator = a.State.Alpha, a.State.Controls[stability.Elevator]
	c.InducedDrag, c.SpanEfficiency = a.Value(prediction.InducedDrag), a.Value(prediction.SpanEfficiency)
	c.Panels = a.Solution.Panels()
	c.SpanLoad = a.Solution.StripsAbout(a.State, point)
	return c.bend(a.Solution, p, point)
}

// directional takes the directional stiffness about a CG. The side force of the winglets acts ahead of or behind it:
// Cn_β changes by CY_β·Δx/b, so that a limit is judged at the CG where least of it is left.
func (c *Configuration) directional(cg float64) {
	c.StiffnessCG = cg
	c.DirectionalStiffness = stability.Moved(c.Derivatives, cg, c.Derivatives.MomentZ).ByBeta.Yaw
}

// prediction is what decide needs of a configuration.
func (c Configuration) prediction() decide.Prediction {
	values := map[string]float64{
		evidence.NeutralPoint:         c.NeutralPoint,
		evidence.LiftCurveSlope:       c.LiftSlope,
		evidence.DirectionalStiffness: c.DirectionalStiffness,
	}
	if !math.IsNaN(c.ElevatorTrimRate) {
		values[evidence.ElevatorTrimRate] = c.ElevatorTrimRate
	}
	if !math.IsNaN(c.ZeroLiftElevator) {
		values[evidence.ZeroLiftElevator] = c.ZeroLiftElevator
	}
	out := decide.Prediction{Levels: c.Levels, Values: values, Step: map[string]float64{}, Bending: c.spars}
	if c.DragStep.Known {
		out.Step[evidence.ZeroLiftDrag] = c.DragStep.Step
	}
	out.NoseUpStop, _ = prediction.NoseUpStop(c.Airframe, prediction.Setup{})
	c.FullSize.believe(&out)
	return out
}
