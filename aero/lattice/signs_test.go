package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// controlled is the invented aircraft with elevator, ailerons, flaps and rudders.
func controlled(t testing.TB) (aero.Airframe, r3.Vec) {
	t.Helper()
	var c caseFile
	readJSON(t, "canard-case.json", &c)
	a := c.airframe("1.00", "1.00")
	hinge := func(control string, from, to int, fraction float64) aero.Hinge {
		return aero.Hinge{Control: control, FromStation: from, ToStation: to, HingeFraction: fraction, Effectiveness: 1}
	}
	a.Surfaces[0].Hinges = []aero.Hinge{hinge("flap", 1, 2, 0.8), hinge("aileron", 2, 3, 0.75)}
	a.Surfaces[1].Hinges = []aero.Hinge{hinge("rudder", 1, 2, 0.7)}
	a.Surfaces[2].Hinges = []aero.Hinge{hinge("elevator", 1, 2, 0.7)}
	return a, c.momentPoint()
}

func solved(t testing.TB, a aero.Airframe) *Solution {
	t.Helper()
	s, err := Solve(a, Options{})
	require.NoError(t, err)
	return s
}

func TestSignsByHand(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	require.Equal(t, []string{"aileron", "elevator", "flap", "rudder"}, s.Controls())
	alpha, err := s.AlphaForLift(0.5, nil)
	require.NoError(t, err)
	d := s.Derivatives(State{Alpha: alpha}, point)

	elevator := d.ByControl["elevator"]
	require.Positive(t, elevator.Lift)  // more lift on the foreplane than the wing loses in its downwash
	require.Positive(t, elevator.Pitch) // and ahead of the moment point: nose up
	require.Zero(t, elevator.Roll)
	require.Zero(t, elevator.Yaw)

	aileron := d.ByControl["aileron"]
	require.Positive(t, aileron.Roll) // left down, right up: the left wing rises
	require.Zero(t, aileron.Lift)

	rudder := d.ByControl["rudder"]
	require.Positive(t, rudder.Side) // both trailing edges left push the tips to the right
	require.Negative(t, rudder.Yaw)  // behind the moment point: nose left
	require.Positive(t, rudder.Roll) // above it: right wing down
	require.Zero(t, rudder.Pitch)

	flap := d.ByControl["flap"]
	require.Positive(t, flap.Lift)

	require.Positive(t, d.ByBeta.Yaw)  // weathercock stable with winglets aft
	require.Negative(t, d.ByBeta.Roll) // swept wing: wind from the right lifts the right wing
	require.Negative(t, d.ByBeta.Side)
	require.Negative(t, d.ByRollRate.Roll)
	require.Negative(t, d.ByPitchRate.Pitch)
	require.Negative(t, d.ByYawRate.Yaw)
	require.Positive(t, d.ByYawRate.Roll) // nose swings right: the left wing meets more air
	require.Equal(t, alpha, d.Alpha)
	require.Equal(t, point.X, d.MomentPoint)
}

func TestFinOnThePlaneOfSymmetry(t *testing.T) {
	fin := aero.Surface{
		Name: "fin", Role: aero.RoleFin,
		Stations: []aero.Station{
			{LeadingEdge: r3.Vec{X: 5, Z: 0.2}, TrailingEdge: r3.Vec{X: 6, Z: 0.2}},
			{LeadingEdge: r3.Vec{X: 5.5, Z: 1.7}, TrailingEdge: r3.Vec{X: 6.1, Z: 1.7}},
		},
		Hinges: []aero.Hinge{{Control: "rudder", FromStation: 1, ToStation: 2, HingeFraction: 0.6, Effectiveness: 1}},
	}
	wing := wingAt("wing", aero.RoleWing, 1, 0, 3)
	with := solved(t, aero.Airframe{Surfaces: []aero.Surface{wing, fin}})
	without := solved(t, aero.Airframe{Surfaces: []aero.Surface{wing}})
	point := r3.Vec{X: 1}
	a, b := with.Derivatives(State{Alpha: 0.05}, point), without.Derivatives(State{Alpha: 0.05}, point)
	require.InDelta(t, b.ByAlpha.Lift, a.ByAlpha.Lift, 1e-9, "a fin in symmetric flow carries nothing")
	require.Less(t, a.ByBeta.Side, b.ByBeta.Side)
	require.Positive(t, a.ByBeta.Yaw-b.ByBeta.Yaw)
	require.Positive(t, a.ByControl["rudder"].Side)
	require.Negative(t, a.ByControl["rudder"].Yaw)

	// The same fin far from anything, alone in sideslip, is a wing of its own span and area: aspect
	// ratio 1.5²/1.2 with a free end on both sides.
	upright := solved(t, aero.Airframe{
		Surfaces:  []aero.Surface{fin},
		Reference: aero.Reference{Area: 1.2, Span: 1.5, MeanChord: 0.8},
	})
	flat := fin
	flat.Role, flat.Mirrored, flat.Hinges = aero.RoleWinglet, true, nil
	flat.Stations = nil
	for _, st := range fin.Stations { // laid over and moved 90 m out, so that its image is far away
		lay := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: 90 + v.Z} }
		flat.Stations = append(flat.Stations, aero.Station{LeadingEdge: lay(st.LeadingEdge), TrailingEdge: lay(st.TrailingEdge)})
	}
	lying := solved(t, aero.Airframe{Surfaces: []aero.Surface{flat}, Reference: upright.Reference()})
	side := upright.Derivatives(State{}, r3.Vec{}).ByBeta.Side
	lift := lying.Derivatives(State{}, r3.Vec{}).ByAlpha.Lift / 2 // two of them
	require.InDelta(t, 1, -side/lift, 1e-4)
}

func TestMirrorImages(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	right := State{Alpha: 0.06, Beta: 0.07, RollRate: 0.03, PitchRate: 0.004, YawRate: -0.02, Controls: map[string]float64{"aileron": 0.1, "rudder": -0.2, "elevator": 0.05, "flap": 0.03}}
	left := State{Alpha: 0.06, Beta: -0.07, RollRate: -0.03, PitchRate: 0.004, YawRate: 0.02, Controls: map[string]float64{"aileron": -0.1, "rudder": 0.2, "elevator": 0.05, "flap": 0.03}}
	r, l := s.Coefficients(right, point), s.Coefficients(left, point)
	want := aero.Coefficients{Lift: r.Lift, Drag: r.Drag, Side: -r.Side, Roll: -r.Roll, Pitch: r.Pitch, Yaw: -r.Yaw}
	requireClose(t, want, l, 1e-12)
}

func requireClose(t *testing.T, want, got aero.Coefficients, tolerance float64) {
	t.Helper()
	require.InDelta(t, want.Lift, got.Lift, tolerance)
	require.InDelta(t, want.Drag, got.Drag, tolerance)
	require.InDelta(t, want.Side, got.Side, tolerance)
	require.InDelta(t, want.Roll, got.Roll, tolerance)
	require.InDelta(t, want.Pitch, got.Pitch, tolerance)
	require.InDelta(t, want.Yaw, got.Yaw, tolerance)
}

func TestMirroredStripsSumToCoefficients(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	state := State{Alpha: 0.06, Beta: 0.07, RollRate: 0.03, YawRate: -0.02, Controls: map[string]float64{"aileron": 0.1, "elevator": 0.05}}
	mirrored := State{Alpha: 0.06, Beta: -0.07, RollRate: -0.03, YawRate: 0.02, Controls: map[string]float64{"aileron": -0.1, "elevator": 0.05}}
	var force, moment r3.Vec
	sum := func(strips []aero.StripLoad, side float64) {
		for _, st := range strips {
			f, m := st.Force, r3.Add(st.Moment, r3.Cross(r3.Sub(st.Centre, r3.Vec{X: point.X, Z: point.Z}), st.Force))
			force = r3.Add(force, r3.Vec{X: f.X, Y: side * f.Y, Z: f.Z})
			moment = r3.Add(moment, r3.Vec{X: side * m.X, Y: m.Y, Z: side * m.Z})
		}
	}
	sum(s.StripsAbout(state, point), 1)
	sum(s.StripsAbout(mirrored, point), -1)
	c, r := s.Coefficients(state, point), s.Reference()
	sin, cos := math.Sincos(state.Alpha)
	require.InDelta(t, c.Lift, (force.Z*cos-force.X*sin)/r.Area, 1e-12)
	require.InDelta(t, c.Side, force.Y/r.Area, 1e-12)
	require.InDelta(t, c.Roll, -moment.X/(r.Area*r.Span), 1e-12)
	require.InDelta(t, c.Pitch, moment.Y/(r.Area*r.MeanChord), 1e-12)
	require.InDelta(t, c.Yaw, -moment.Z/(r.Area*r.Span), 1e-12)
}

func TestDerivativesAgainstDifferences(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	at := State{Alpha: 0.08, Beta: 0.03, RollRate: 0.01, PitchRate: 0.002, YawRate: 0.01, Controls: map[string]float64{"elevator": 0.1, "rudder": 0.05}}
	d := s.Derivatives(at, point)
	const h = 1e-5
	difference := func(change func(*State, float64)) aero.Coefficients {
		plus, minus := at, at
		plus.Controls, minus.Controls = map[string]float64{}, map[string]float64{}
		for k, v := range at.Controls {
			plus.Controls[k], minus.Controls[k] = v, v
		}
		change(&plus, h)
		change(&minus, -h)
		return s.Coefficients(plus, point).Plus(s.Coefficients(minus, point).Times(-1)).Times(1 / (2 * h))
	}
	const tolerance = 1e-7
	requireClose(t, difference(func(s *State, h float64) { s.Alpha += h }), d.ByAlpha, tolerance)
	requireClose(t, difference(func(s *State, h float64) { s.Beta += h }), d.ByBeta, tolerance)
	requireClose(t, difference(func(s *State, h float64) { s.RollRate += h }), d.ByRollRate, tolerance)
	requireClose(t, difference(func(s *State, h float64) { s.PitchRate += h }), d.ByPitchRate, tolerance)
	requireClose(t, difference(func(s *State, h float64) { s.YawRate += h }), d.ByYawRate, tolerance)
	for _, name := range s.Controls() {
		requireClose(t, difference(func(s *State, h float64) { s.Controls[name] += h }), d.ByControl[name], tolerance)
	}
}

func TestControlAgainstTurnedGeometry(t *testing.T) {
	// A hinge at the leading edge turns the whole foreplane: the same as solving it at another incidence.
	var c caseFile
	readJSON(t, "canard-case.json", &c)
	a := c.airframe("1.00", "1.00")
	const h = 1e-4
	turned := func(by float64) aero.Airframe {
		out := a
		out.Surfaces = append([]aero.Surface(nil), a.Surfaces...)
		stations := append([]aero.Station(nil), a.Surfaces[2].Stations...)
		for i := range stations {
			sin, cos := math.Sincos(2*math.Pi/180 + by)
			chord := stations[i].Chord()
			stations[i].TrailingEdge = r3.Add(stations[i].LeadingEdge, r3.Vec{X: chord * cos, Z: -chord * sin})
		}
		out.Surfaces[2].Stations = stations
		return out
	}
	state := State{Alpha: 0.07}
	plus, minus := solved(t, turned(h)), solved(t, turned(-h))
	want := plus.Coefficients(state, c.momentPoint()).Plus(minus.Coefficients(state, c.momentPoint()).Times(-1)).Times(1 / (2 * h))
	got := solved(t, a).Derivatives(state, c.momentPoint()).ByControl["foreplane"]
	require.InDelta(t, 1, got.Lift/want.Lift, 0.01)
	require.InDelta(t, 1, got.Pitch/want.Pitch, 0.002)
}

func TestMovedMomentPoint(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	state := State{Alpha: 0.05, Beta: 0.02, Controls: map[string]float64{"elevator": 0.1}}
	moved := r3.Add(point, r3.Vec{X: 0.3, Z: 0.1})
	here, there := s.Coefficients(state, point), s.Coefficients(state, moved)
	r := s.Reference()
	sin, cos := math.Sincos(state.Alpha)
	w := s.weights(state, point)
	force := s.loads.at(w, w).force
	normal, axial := force.Z/r.Area, force.X/r.Area
	require.InDelta(t, here.Lift, normal*cos-axial*sin, 1e-12)
	require.InDelta(t, here.Pitch+(0.3*normal-0.1*axial)/r.MeanChord, there.Pitch, 1e-12)
	require.InDelta(t, here.Roll-(-0.1)*here.Side*-1/r.Span, there.Roll, 1e-12)
	require.InDelta(t, here.Yaw+0.3*here.Side/r.Span, there.Yaw, 1e-12)
}
