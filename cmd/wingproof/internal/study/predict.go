package study

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
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
	DirectionalStiffness float64 // 1/rad about ReferenceCG
	DihedralEffect       float64 // 1/rad
	TrimAlpha            float64 // rad at PredictionLift
	TrimElevator         float64 // rad at PredictionLift
	InducedDrag          float64 // coefficient at PredictionLift, far field
	SpanEfficiency       float64
	Panels               int
	SpanLoad             []aero.StripLoad
	BendingAxis          []float64 // y of the stations below, m
	Bending              []float64 // N·m at limit load and gross mass, wing with what joins it
	Warnings             []string
}

// predict solves the lattice of every configuration.
func (s *Study) predict(ctx context.Context, count *counter) error {
	all := s.Program.Configurations()
	s.Configurations = make([]Configuration, len(all))
	cg, known := referenceCG(s.Program)
	if !known {
		baseline, err := unstableGuess(s.Program, all[0])
		if err != nil {
			return err
		}
		cg = baseline
	}
	s.ReferenceCG = cg
	return each(ctx, len(all), func(_ context.Context, i int) error {
		c, err := predictOne(s.Program, all[i], cg)
		if err != nil {
			return fmt.Errorf("configuration %s: %w", evidence.Name(all[i]), err)
		}
		s.Configurations[i] = c
		count.say("lattice")
		return nil
	})
}

// unstableGuess puts the reference CG a tenth of the mean chord ahead of the neutral point when the folder
// names no CG at all.
func unstableGuess(p *program.Program, levels map[string]string) (float64, error) {
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
	if err := c.stability(solution, state, point); err != nil {
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

// stability takes neutral point, slopes and trim rate from the derivatives about the reference CG.
func (c *Configuration) stability(solution *lattice.Solution, state lattice.State, point r3.Vec) error {
	c.Derivatives = solution.Derivatives(state, point)
	var err error
	if c.NeutralPoint, err = stability.NeutralPoint(c.Derivatives); err != nil {
		return err
	}
	c.LiftSlope = c.Derivatives.ByAlpha.Lift
	c.DirectionalStiffness = c.Derivatives.ByBeta.Yaw
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

// bend works out the bending moment along the wing at limit load and gross mass: the lift of the whole
// aircraft is load factor times weight, with the load shape of PredictionLift trimmed at the aftmost
// loading, where the foreplane carries least and the wing most. Inertia relief is left out, which errs on
// the heavy side.
func (c *Configuration) bend(solution *lattice.Solution, p *program.Program, point r3.Vec) error {
	if aft, ok := aftmostLoading(p); ok {
		point.X = aft
	}
	state, err := trimState(solution, c.Airframe, point, &Configuration{})
	if err != nil {
		return err
	}
	c.BendingAxis = bendingStations(p, c.Airframe)
	pressure := p.FullSize.LimitLoadFactor * p.FullSize.Mass.Value * gravity / (c.Airframe.Reference.Area * PredictionLift)
	for _, section := range loads.Along(solution.Strips(state), halfWing(c.Airframe), c.BendingAxis, point.X) {
		c.Bending = append(c.Bending, pressure*section.Bending)
	}
	return nil
}

// halfWing names the surfaces whose load the wing carries: wing, strake and what joins their ends.
func halfWing(airframe aero.Airframe) []string {
	var names []string
	for _, surface := range airframe.Surfaces {
		switch surface.Role {
		case aero.RoleWing, aero.RoleStrake, aero.RoleWinglet:
			names = append(names, surface.Name)
		}
	}
	return names
}

// bendingStations are the stations of the first built part's table, else eleven from root to tip.
func bendingStations(p *program.Program, airframe aero.Airframe) []float64 {
	for _, b := range p.Built {
		if len(b.Y) > 0 {
			return b.Y
		}
	}
	stations := make([]float64, 11)
	for i := range stations {
		stations[i] = airframe.Reference.Span / 2 * float64(i) / 10
	}
	return stations
}

// prediction is what decide needs of a configuration.
func (c Configuration) prediction(p *program.Program) decide.Prediction {
	values := map[string]float64{
		evidence.NeutralPoint:         c.NeutralPoint,
		evidence.LiftCurveSlope:       c.LiftSlope,
		evidence.DirectionalStiffness: c.DirectionalStiffness,
	}
	if !math.IsNaN(c.ElevatorTrimRate) {
		values[evidence.ElevatorTrimRate] = c.ElevatorTrimRate
	}
	bending := map[string][]decide.BendingStation{}
	for _, b := range p.Built {
		line := make([]decide.BendingStation, len(c.BendingAxis))
		for i, y := range c.BendingAxis {
			line[i] = decide.BendingStation{Y: y, Moment: c.Bending[i]}
		}
		bending[b.Surface] = line
	}
	return decide.Prediction{Levels: c.Levels, Values: values, Bending: bending}
}
