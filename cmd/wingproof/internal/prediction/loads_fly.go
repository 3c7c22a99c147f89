package prediction

import (
	"maps"
	"math"
	"slices"
	"strings"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
)

// loadFlier flies the conditions of one airframe.
type loadFlier struct {
	program  *program.Program
	airframe aero.Airframe
	solution *lattice.Solution
	setup    LoadsSetup
	strips   []aero.StripLoad // for their geometry

	ailerons, rudders []fullControl
	elevator          bool
	missing           []string
	tanked, made      bool // some loading says where fuel lies along the surfaces; one of those weighs as much as the gross mass
}

// fullControl is a control at full travel.
type fullControl struct {
	name string
	full float64 // rad
}

func newLoadFlier(p *program.Program, airframe aero.Airframe, solution *lattice.Solution, s LoadsSetup) *loadFlier {
	f := &loadFlier{program: p, airframe: airframe, solution: solution, setup: s, strips: solution.Strips(lattice.State{})}
	f.elevator = HasControl(airframe, stability.Elevator)
	f.ailerons = controlsAt(airframe, isAileron, func(h aero.Hinge) float64 { return (h.TravelMax - h.TravelMin) / 2 })
	f.rudders = controlsAt(airframe, isRudder, func(h aero.Hinge) float64 { return math.Max(h.TravelMax, -h.TravelMin) })
	return f
}

// isAileron and isRudder sort controls as the lattice signs them.
func isAileron(_ aero.Surface, control string) bool {
	return strings.HasPrefix(strings.ToLower(control), "aileron")
}

func isRudder(s aero.Surface, control string) bool {
	return (s.Role == aero.RoleWinglet || s.Role == aero.RoleFin) && !isAileron(s, control)
}

// controlsAt are the controls of a kind at full travel, each once, with the greatest travel of its hinges. Full aileron
// is half the sum of both travels, one side up and the other down.
func controlsAt(airframe aero.Airframe, kind func(aero.Surface, string) bool, travel func(aero.Hinge) float64) []fullControl {
	var out []fullControl
	for _, s := range airframe.Surfaces {
		for _, h := range s.Hinges {
			if !kind(s, h.Control) {
				continue
			}
			i := slices.IndexFunc(out, func(d fullControl) bool { return d.name == h.Control })
			if i < 0 {
				i, out = len(out), append(out, fullControl{name: h.Control})
			}
			out[i].full = math.Max(out[i].full, travel(h))
		}
	}
	return out
}

// trimmed is straight flight at the condition's lift coefficient, or with a pitch rate qc/2V a pull-up, balanced by
// the elevator where there is one.
func (f *loadFlier) trimmed(c loads.Condition, pitchRate float64) (lattice.State, error) {
	cl := c.LiftCoefficient(f.airframe.Reference.Area)
	if !f.elevator {
		alpha, err := f.solution.AlphaForLift(cl, nil)
		return lattice.State{Alpha: alpha, Controls: map[string]float64{}}, err
	}
	r := f.solution.Reference()
	return f.solution.Balanced(lattice.Balance{
		Lift: cl, PitchRate: pitchRate, Control: stability.Elevator, MomentPoint: c.CG, MomentSlope: f.setup.Body.Pitch / (r.Area * r.MeanChord),
	})
}

// symmetric is the state of a flight before aileron, rudder and sideslip.
func (f *loadFlier) symmetric(one loadFlight) (lattice.State, error) {
	if one.held {
		level := one.Condition
		level.LoadFactor = 1
		state, err := f.trimmed(level, 0)
		if err != nil {
			return state, err
		}
		state.Alpha, err = f.solution.AlphaForLift(one.LiftCoefficient(f.airframe.Reference.Area), state.Controls)
		return state, err
	}
	rate := 0.0
	if one.pullUp {
		rate = lattice.PullUpRate(one.LoadFactor, atmosphere.Gravity, f.solution.Reference().MeanChord, one.Speed)
	}
	return f.trimmed(one.Condition, rate)
}

// fly sets the controls of a flight and takes the air loads of both halves.
func (f *loadFlier) fly(one loadFlight) (LoadCondition, loads.Flown, error) {
	flown := loads.Flown{Condition: one.Condition}
	state, err := f.symmetric(one)
	if err != nil {
		return LoadCondition{}, flown, err
	}
	for _, rudder := range f.rudders {
		state.Controls[rudder.name] += one.Rudder * rudder.full
	}
	state.Beta = one.Sideslip
	if err := f.roll(&state, &flown, one.tanks); err != nil {
		return LoadCondition{}, flown, err
	}
	reference := f.solution.Reference()
	if one.pullUp {
		flown.Rates.Pitch = (one.LoadFactor - 1) * atmosphere.Gravity / one.Speed
	}
	if one.Asymmetric() {
		f.holdLift(&state, one.Condition)
	}
	flown.Right = f.solution.StripsAbout(state, one.CG)
	if one.Asymmetric() {
		flown.Left = f.solution.StripsAbout(f.mirrored(state), one.CG)
		side := f.solution.Coefficients(state, one.CG).Side
		flown.SideLoadFactor = one.DynamicPressure() * reference.Area * side / (one.Mass * atmosphere.Gravity)
	}
	return LoadCondition{
		Condition: one.Condition, LiftCoefficient: one.LiftCoefficient(reference.Area), State: state,
		ElevatorHeld: one.held, ElevatorBeyond: f.beyondStop(state), SideLoadFactor: flown.SideLoadFactor,
	}, flown, nil
}

// holdLift turns the angle of attack until the lift is that of the condition again: aileron, rudder and above all sideslip,
// by the square of its cosine, change it. The elevator stays.
func (f *loadFlier) holdLift(state *lattice.State, c loads.Condition) {
	cl := c.LiftCoefficient(f.solution.Reference().Area)
	for range 4 { // each step leaves less than a hundredth of the miss
		miss := f.solution.Coefficients(*state, c.CG).Lift - cl
		state.Alpha -= miss / f.solution.Derivatives(*state, c.CG).ByAlpha.Lift
	}
}

// roll puts the ailerons out, and either the roll rate that takes up their moment or, where Ix is stated, the
// acceleration that it gives. The rate is that of the equivalent airspeed: at the true one it is faster, and the little that
// inertia takes from it differs by that. Nobody says which fuel is in the stated Ix: that along the surfaces comes on top,
// on the heavy side.
func (f *loadFlier) roll(state *lattice.State, flown *loads.Flown, tanks []program.Item) error {
	c := flown.Condition
	if c.Aileron == 0 {
		return nil
	}
	d := f.solution.Derivatives(*state, c.CG)
	moment := 0.0
	for _, aileron := range f.ailerons {
		state.Controls[aileron.name] += c.Aileron * aileron.full
		moment += d.ByControl[aileron.name].Roll * c.Aileron * aileron.full
	}
	reference := f.solution.Reference()
	if c.SteadyRoll {
		var err error
		state.RollRate, err = loads.SteadyRollRate(moment, d.ByRollRate.Roll, 1)
		flown.Rates.Roll = state.RollRate * 2 * c.Speed / reference.Span
		return err
	}
	if ix := f.program.FullSize.Ix.Value; ix > 0 {
		flown.RateChanges.Roll = c.DynamicPressure() * reference.Area * reference.Span * moment / (ix + rollInertia(tanks))
	}
	return nil
}

// rollInertia is that of tanks whose fuel lies evenly along their spans, kg·m².
func rollInertia(tanks []program.Item) float64 {
	sum := 0.0
	for _, t := range tanks {
		sum += t.Mass * (t.SpanFrom*t.SpanFrom + t.SpanFrom*t.SpanTo + t.SpanTo*t.SpanTo) / 3
	}
	return sum
}

// mirrored is the state seen in a mirror on the plane of symmetry.
func (f *loadFlier) mirrored(state lattice.State) lattice.State {
	state.Controls = maps.Clone(state.Controls)
	state.Beta, state.RollRate, state.YawRate = -state.Beta, -state.RollRate, -state.YawRate
	for _, c := range slices.Concat(f.ailerons, f.rudders) {
		state.Controls[c.name] = -state.Controls[c.name]
	}
	return state
}

// beyondStop is how far the elevator would have to go past its travel, rad.
func (f *loadFlier) beyondStop(state lattice.State) float64 {
	beyond, deflection := 0.0, state.Controls[stability.Elevator]
	for _, s := range f.airframe.Surfaces {
		for _, h := range s.Hinges {
			if h.Control == stability.Elevator {
				beyond = math.Max(beyond, math.Max(deflection-h.TravelMax, h.TravelMin-deflection))
			}
		}
	}
	return beyond
}
