package study

import (
	"context"
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

// PredictionLift is the lift coefficient at which the lattice is linearised: the middle of what a model
// flies between fast level flight and slow glides. Derivatives move with it by less than their stated
// errors.
const PredictionLift = 0.5

const gravity = 9.80665 // m/s², standard gravity, ISO 80000-3

// Configuration is one combination of levels with what the lattice says of it.
type Configuration struct {
	Name        string
	Levels      map[string]string
	Airframe    aero.Airframe
	Derivatives aero.Derivatives // trimmed at PredictionLift about ReferenceCG

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
	Bending              []float64 // N·m at limit load and gross mass, wing with what joins it; the root comes first
	Warnings             []string

	spars map[string][]decide.BendingStation // by surface that a built part lies in
}

// predict solves the lattice of every configuration.
func (s *Study) predict(ctx context.Context, count *counter) error {
	all := s.Program.Configurations()
	s.Configurations = make([]Configuration, len(all))
	cg, known := prediction.ReferenceCG(s.Program)
	if !known {
		var err error
		if cg, err = guessedCG(s.Program, all[0]); err != nil {
			return fmt.Errorf("configuration %s: %w", evidence.Name(all[0]), err)
		}
	}
	s.ReferenceCG = cg
	return each(ctx, len(all), func(i int) error {
		c, err := predictOne(s.Program, all[i], cg)
		if err != nil {
			return fmt.Errorf("configuration %s: %w", evidence.Name(all[i]), err)
		}
		s.Configurations[i] = c
		count.say("lattice")
		return nil
	})
}

// guessedCG is the reference CG when the folder names no CG at all: a tenth of the mean chord ahead of the neutral
// point.
func guessedCG(p *program.Program, levels map[string]string) (float64, error) {
	airframe, _, err := p.Airframe(levels)
	if err != nil {
		return 0, err
	}
	solution, err := lattice.Solve(airframe, lattice.Options{})
	if err != nil {
		return 0, err
	}
	return solution.NeutralPoint(lattice.State{}) - 0.1*airframe.Reference.MeanChord, nil
}

func predictOne(p *program.Program, levels map[string]string, cg float64) (Configuration, error) {
	c := Configuration{Name: evidence.Name(levels), Levels: levels}
	airframe, warnings, err := p.Airframe(levels)
	if err != nil {
		return c, err
	}
	c.Airframe, c.Warnings = airframe, warnings
	solution, err := lattice.Solve(airframe, lattice.Options{})
	if err != nil {
		return c, err
	}
	for _, w := range solution.Warnings() {
		c.Warnings = append(c.Warnings, w.String())
	}
	point := r3.Vec{X: cg, Z: p.FullSize.EmptyZ.Value}
	state, err := trimState(solution, airframe, point, &c)
	if err != nil {
		return c, err
	}
	_, aft, ok := prediction.LoadedRange(p)
	if !ok {
		aft = cg
	}
	if err := c.stability(solution, state, point, aft); err != nil {
		return c, err
	}
	c.Panels = solution.Panels()
	c.InducedDrag = solution.InducedDrag(state)
	c.SpanEfficiency = solution.SpanEfficiency(state)
	c.SpanLoad = solution.Strips(state)
	return c, c.bend(solution, p, point)
}

// trimState finds the trimmed state at PredictionLift, or the untrimmed one when no surface carries an
// elevator.
func trimState(solution *lattice.Solution, airframe aero.Airframe, point r3.Vec, c *Configuration) (lattice.State, error) {
	if hasControl(airframe, stability.Elevator) {
		state, err := solution.Trim(PredictionLift, stability.Elevator, point)
		if err == nil {
			c.TrimElevator = state.Controls[stability.Elevator]
		}
		c.TrimAlpha = state.Alpha
		return state, err
	}
	c.Warnings = append(c.Warnings, "no surface has a hinge with control = \"elevator\": nothing is trimmed, and elevator slopes are not predicted")
	alpha, err := solution.AlphaForLift(PredictionLift, nil)
	c.TrimAlpha = alpha
	return lattice.State{Alpha: alpha}, err
}

func hasControl(airframe aero.Airframe, control string) bool {
	for _, surface := range airframe.Surfaces {
		for _, h := range surface.Hinges {
			if h.Control == control {
				return true
			}
		}
	}
	return false
}

// stability takes neutral point, slopes and trim rate from the derivatives about the reference CG, and directional
// stiffness about aftCG.
func (c *Configuration) stability(solution *lattice.Solution, state lattice.State, point r3.Vec, aftCG float64) error {
	c.Derivatives = solution.Derivatives(state, point)
	var err error
	if c.NeutralPoint, err = stability.NeutralPoint(c.Derivatives); err != nil {
		return err
	}
	c.LiftSlope = c.Derivatives.ByAlpha.Lift
	c.directional(aftCG)
	c.DihedralEffect = c.Derivatives.ByBeta.Roll
	if _, ok := c.Derivatives.ByControl[stability.Elevator]; !ok {
		c.ElevatorTrimRate, c.TrimmedLiftSlope = math.NaN(), math.NaN()
		return nil
	}
	if c.ElevatorTrimRate, err = stability.ElevatorTrimRate(c.Derivatives); err != nil {
		return err
	}
	c.TrimmedLiftSlope, err = stability.TrimmedLiftSlope(c.Derivatives)
	return err
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
	return decide.Prediction{Levels: c.Levels, Values: values, Bending: c.spars}
}
