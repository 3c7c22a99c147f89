package prediction

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/body"
	"wingproof/aero/lattice"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
)

// Lift is the lift coefficient at which the lattice is linearised when nobody asks for another: the middle of what a model
// flies between fast level flight and slow glides. Derivatives move with it by less than their stated errors.
const Lift = 0.5

// Setup is the condition in which airframes are compared.
type Setup struct {
	CG        r3.Vec   // moment point, datum axes, m
	Lift      float64  // lift coefficient; Lift when zero
	Alpha     *float64 // angle of attack instead, rad; nothing is trimmed then
	PitchRate float64  // qc/2V of a pull-up, see lattice.PullUpRate; derivatives are taken there
	Untrimmed bool     // reach the lift coefficient by angle of attack alone
	Elevator  string   // the control that trims; stability.Elevator when empty
	Grids     bool     // estimate the error of the grid, which takes twice the work
	Lattice   lattice.Options
	Body      *body.Body // slender-body correction; nil for none
}

// Analysis is one airframe in a Setup.
type Analysis struct {
	Airframe    aero.Airframe
	Solution    *lattice.Solution // on the finest grid
	State       lattice.State     // trimmed, or as asked
	Trimmed     bool
	Derivatives aero.Derivatives // about the moment point, body included
	Body        body.Effect      // zero without a fuselage
	Numbers     []Number
	Warnings    []string

	grids *lattice.Grids
}

// Analyse solves airframes and takes every quantity of each.
//
// An airframe that cannot be solved or trimmed is an error that wraps lattice.AirframeError when there are several.
func Analyse(airframes []aero.Airframe, s Setup) ([]Analysis, error) {
	out := make([]Analysis, len(airframes))
	if s.Grids {
		all, err := lattice.SolveAllGrids(airframes, s.Lattice)
		if err != nil {
			return nil, err
		}
		for i, g := range all {
			out[i].grids, out[i].Solution = g, g.Finest()
		}
	} else {
		all, err := lattice.SolveAll(airframes, s.Lattice)
		if err != nil {
			return nil, err
		}
		for i, solution := range all {
			out[i].Solution = solution
		}
	}
	for i := range out {
		out[i].Airframe = airframes[i]
		if err := out[i].take(s); err != nil {
			if len(out) > 1 {
				err = &lattice.AirframeError{Index: i, Err: err}
			}
			return nil, err
		}
	}
	return out, nil
}

// take fills an analysis from its solution.
func (a *Analysis) take(s Setup) error {
	for _, w := range a.Solution.Warnings() {
		a.Warnings = append(a.Warnings, w.String())
	}
	if s.Body != nil {
		for _, w := range s.Body.Warnings() {
			a.Warnings = append(a.Warnings, w.String())
		}
	}
	at, err := s.at(a.Solution, a.Airframe)
	if err != nil {
		return err
	}
	a.State, a.Trimmed, a.Derivatives, a.Body = at.state, at.trimmed, at.derivatives, at.body
	if s.Body != nil {
		a.Warnings = append(a.Warnings, a.bodyDoubt())
	}
	if !at.trimmed && s.Alpha == nil && !s.Untrimmed {
		a.Warnings = append(a.Warnings, fmt.Sprintf("no surface has a hinge with control = %q: nothing is trimmed, and elevator slopes are not predicted", s.elevator()))
	}
	values, err := at.values()
	if err != nil {
		return err
	}
	a.Numbers = values
	if a.grids == nil {
		return nil
	}
	errors, err := a.Further(s.Quantities())
	for i, e := range errors {
		a.Numbers[i].Grid = e.Error
	}
	return err
}

// bodyDoubt says how far the fuselage's own moment may be off: a doubt that the stated errors of theory do not hold, since they
// are those of the lifting surfaces.
func (a *Analysis) bodyDoubt() string {
	r := a.Solution.Reference()
	_, shift := body.NeutralPointShift(a.Derivatives, a.Body)
	return fmt.Sprintf("fuselage: its moment is uncertain by %.0f %% in pitch and %.0f %% in yaw (one standard deviation, common practice, no source), which is %.0f mm of neutral point "+
		"and %.3f per rad of Cn_β; the intervals given do not hold this yet, so judge no close case on them",
		100*body.PitchRelativeDeviation, 100*body.YawRelativeDeviation, 1000*shift, a.Body.YawDeviation/(r.Area*r.Span))
}

// point is one solution in the Setup's state.
type point struct {
	setup       Setup
	airframe    aero.Airframe
	solution    *lattice.Solution
	state       lattice.State
	trimmed     bool
	derivatives aero.Derivatives
	body        body.Effect
}

func (s Setup) elevator() string {
	if s.Elevator == "" {
		return stability.Elevator
	}
	return s.Elevator
}

func (s Setup) lift() float64 {
	if s.Lift == 0 {
		return Lift
	}
	return s.Lift
}

// at finds the state of a solution and the derivatives there.
func (s Setup) at(solution *lattice.Solution, airframe aero.Airframe) (*point, error) {
	p := &point{setup: s, airframe: airframe, solution: solution}
	p.body = s.bodyEffect(solution, airframe)
	var err error
	r := solution.Reference()
	switch {
	case s.Alpha != nil:
		p.state.Alpha = *s.Alpha
	case s.Untrimmed || !HasControl(airframe, s.elevator()):
		p.state.Alpha, err = solution.AlphaForLift(s.lift(), nil)
	default:
		p.trimmed = true
		p.state, err = solution.Balanced(lattice.Balance{
			Lift: s.lift(), PitchRate: s.PitchRate, Control: s.elevator(), MomentPoint: s.CG, MomentSlope: p.body.Pitch / (r.Area * r.MeanChord),
		})
	}
	if err != nil {
		return nil, err
	}
	p.derivatives = body.Correct(solution.Derivatives(p.state, s.CG), p.body)
	return p, nil
}

// HasControl tells whether some surface has a hinge of that name.
func HasControl(airframe aero.Airframe, control string) bool {
	for _, surface := range airframe.Surfaces {
		for _, h := range surface.Hinges {
			if h.Control == control {
				return true
			}
		}
	}
	return false
}

// BodyOf is the program's fuselage; nil when it states none.
func BodyOf(p *program.Program) (*body.Body, error) {
	if len(p.Fuselage) == 0 {
		return nil, nil
	}
	stations := make([]body.Station, len(p.Fuselage))
	for i, f := range p.Fuselage {
		stations[i] = body.Station{X: f.X, Width: f.Width, Height: f.Height, Z: f.Z}
	}
	b, err := body.New(stations)
	if err != nil {
		return nil, fmt.Errorf("fuselage: %w", err)
	}
	return &b, nil
}

// bodyEffect asks the lattice how the flow along the fuselage turns with the angle of attack.
func (s Setup) bodyEffect(solution *lattice.Solution, airframe aero.Airframe) body.Effect {
	if s.Body == nil {
		return body.Effect{}
	}
	b := s.Body
	const step = 0.01 // rad
	local := func(x float64) float64 {
		at := []r3.Vec{{X: x, Z: b.AxisZ(x)}}
		up := func(alpha float64) float64 {
			v := solution.Flow(lattice.State{Alpha: alpha}, s.CG, at)[0]
			return math.Atan2(v.Z, v.X)
		}
		return (up(step) - up(-step)) / (2 * step)
	}
	flow := body.Flow(local)
	end := b.Stations[len(b.Stations)-1].X
	for _, root := range roots(airframe) {
		var next body.Flow
		var err error
		if root.wing {
			next, err = body.WithWing(root.Root, end, flow)
		} else {
			next, err = body.WithRoot(root.Root, flow)
		}
		if err == nil {
			flow = next
		}
	}
	return b.Effect(flow, nil)
}

type surfaceRoot struct {
	body.Root
	wing bool
}

// roots are the root chords in the plane of symmetry: foreplanes first, then the wing with its strake as one.
func roots(airframe aero.Airframe) []surfaceRoot {
	var out []surfaceRoot
	wing := surfaceRoot{wing: true}
	nearest := math.Inf(1)
	for _, s := range airframe.Surfaces {
		if len(s.Stations) == 0 {
			continue
		}
		st := s.Stations[0]
		switch s.Role {
		case aero.RoleForeplane:
			out = append(out, surfaceRoot{Root: body.Root{LeadingEdge: st.LeadingEdge.X, TrailingEdge: st.TrailingEdge.X}})
		case aero.RoleWing, aero.RoleStrake:
			if st.LeadingEdge.Y < nearest {
				nearest = st.LeadingEdge.Y
				wing.Root = body.Root{LeadingEdge: st.LeadingEdge.X, TrailingEdge: st.TrailingEdge.X}
			}
		}
	}
	if !math.IsInf(nearest, 1) {
		out = append(out, wing)
	}
	return out
}
