package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// bookSlopes are ∂C_h/∂α and ∂C_h/∂δ of a plain flap with the share E of the chord in thin-aerofoil theory, cos φ = 2E − 1.
//
// The second is b2 of Houghton & Carpenter, Aerodynamics for Engineering Students, section on the hinged flap,
// −(1/4πE²){(1−cos 2φ) − 2(π−φ)²(1−2cos φ) + 4(π−φ) sin φ}, both signs derived anew here by parts.
func bookSlopes(share float64) (b1, b2 float64) {
	phi := math.Acos(2*share - 1)
	rest := math.Pi - phi
	b1 = -(rest*(math.Cos(phi)-0.5) + math.Sin(phi)*(1-math.Cos(phi)/2)) / (share * share)
	b2 = -((1 - math.Cos(2*phi)) - 2*rest*rest*(1-2*math.Cos(phi)) + 4*rest*math.Sin(phi)) / (4 * math.Pi * share * share)
	return b1, b2
}

// byQuadrature integrates a sheet's moment about the hinge numerically, free of any closed form.
func byQuadrature(hinge float64, sheet func(theta float64) float64) float64 {
	const steps = 400000
	start := math.Acos(1 - 2*hinge)
	sum := 0.0
	for i := range steps {
		theta := start + (math.Pi-start)*(float64(i)+0.5)/steps
		x := (1 - math.Cos(theta)) / 2
		sum += sheet(theta) * (x - hinge) * math.Sin(theta) / 2
	}
	return sum * (math.Pi - start) / steps
}

// sheetOf is γ/V of a unit deflection about a hinge at φ.
func sheetOf(phi float64) func(float64) float64 {
	return func(theta float64) float64 {
		logarithm := math.Log(math.Abs(math.Sin((theta+phi)/2) / math.Sin((theta-phi)/2)))
		return 2 * ((1-phi/math.Pi)*(1+math.Cos(theta))/math.Sin(theta) + logarithm/math.Pi)
	}
}

func TestFlapMomentsInClosedForm(t *testing.T) {
	l := newChordLattice(6)
	for _, at := range []float64{0.6, 0.7, 0.85} {
		f := newFlap(l, at)
		_, b2 := bookSlopes(1 - at)
		require.InDelta(t, -b2*(1-at)*(1-at), 2*f.momentOf(f), 1e-12, "hinge %.2f", at)
		for _, source := range []float64{0.5, 0.7, 0.9} {
			other := newFlap(l, source)
			require.InDelta(t, byQuadrature(at, sheetOf(other.angle)), f.momentOf(other), 2e-6, "measured at %.2f, turned at %.2f", at, source)
		}
	}
}

// TestSeriesOfTheLatticeIsExact takes a flat plate and a parabolic arc at a few panels: two-dimensional hinge moments to round-off.
func TestSeriesOfTheLatticeIsExact(t *testing.T) {
	for _, n := range []int{4, 8, 16} {
		l := newChordLattice(n)
		matrix := mat.NewDense(n, n, nil)
		for i, x := range l.control {
			for j, v := range l.vortex {
				matrix.Set(i, j, 1/(2*math.Pi*(x-v)))
			}
		}
		solve := func(turn func(x float64) float64) []float64 {
			right, out := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
			for i, x := range l.control {
				right.SetVec(i, turn(x))
			}
			require.NoError(t, out.SolveVec(matrix, right))
			return out.RawVector().Data
		}
		for _, hinge := range []float64{0.55, 0.7, 0.8} {
			f := newFlap(l, hinge)
			b1, _ := bookSlopes(1 - hinge)
			plate := f.momentOfSeries(solve(func(float64) float64 { return 1 }))
			require.InDelta(t, -b1*(1-hinge)*(1-hinge), 2*plate, 1e-11, "flat plate, %d panels, hinge %.2f", n, hinge)
			// parabolic arc z = 4x(1−x): γ/V = 8 sin θ (Glauert, The Elements of Aerofoil and Airscrew Theory)
			arc := f.momentOfSeries(solve(func(x float64) float64 { return -4 * (1 - 2*x) }))
			require.InDelta(t, byQuadrature(hinge, func(theta float64) float64 { return 8 * math.Sin(theta) }), arc, 1e-9)
		}
	}
}

// flapShares are the flaps that flappedWing carries, one over the other.
var flapShares = map[string]float64{"short flap": 0.2, "flap": 0.3, "long flap": 0.45}

// flappedWing is an untapered wing of chord 0.4 with three flaps along its whole span.
func flappedWing(aspect, sweep float64) aero.Airframe {
	const chord = 0.4
	x, y := aspect/2*chord*math.Tan(sweep), aspect/2*chord
	wing := aero.Surface{
		Name: "wing", Role: aero.RoleWing, Mirrored: true,
		Stations: []aero.Station{{TrailingEdge: r3.Vec{X: chord}}, {LeadingEdge: r3.Vec{X: x, Y: y}, TrailingEdge: r3.Vec{X: chord + x, Y: y}}},
	}
	for _, name := range []string{"long flap", "flap", "short flap"} {
		wing.Hinges = append(wing.Hinges, aero.Hinge{Control: name, FromStation: 1, ToStation: 2, HingeFraction: 1 - flapShares[name], Effectiveness: 1})
	}
	return aero.Airframe{Surfaces: []aero.Surface{wing}}
}

func TestHingeMomentsOfALongWing(t *testing.T) {
	// An infinite wing swept by Λ has cos Λ times the section's loading; Prandtl and Glauert's rule multiplies it by
	// 1/√(1 − M² cos² Λ). Tips and the kink at the root take their share in proportion to 1/aspect ratio.
	const degree = math.Pi / 180
	for _, c := range []struct{ sweep, mach float64 }{{0, 0}, {30 * degree, 0}, {0, 0.6}, {30 * degree, 0.6}} {
		cos := math.Cos(c.sweep)
		scale := cos / math.Sqrt(1-c.mach*c.mach*cos*cos)
		for _, chord := range []float64{0.5, 1, 2} { // 4, 8, 16 panels
			s, err := Solve(flappedWing(4000, c.sweep), Options{Mach: c.mach, coarse: [2]float64{chord, 0.5}})
			require.NoError(t, err)
			all := s.HingeDerivatives(State{}, r3.Vec{})
			require.Len(t, all, len(flapShares))
			for _, d := range all {
				share := flapShares[d.Control]
				b1, b2 := bookSlopes(share)
				require.InDelta(t, 1, d.ByAlpha/(b1*scale), 4e-3, "b1 of %s, sweep %.1f, Mach %.1f, %.0f panels", d.Control, c.sweep, c.mach, 8*chord)
				require.InDelta(t, 1, d.ByControl[d.Control]/(b2*scale), 4e-3, "b2")
				require.InDelta(t, share*0.16*4000/2, d.Area, 1e-9)
				require.InDelta(t, share*0.4*cos, d.Chord, 1e-12)
			}
		}
	}
}

// hingeSlopes are b1 (by sideslip on a rudder) and b2 of every control at one state.
func hingeSlopes(t *testing.T, a aero.Airframe, point r3.Vec, coarse [2]float64) map[string][2]float64 {
	t.Helper()
	s, err := Solve(a, Options{coarse: coarse})
	require.NoError(t, err)
	out := make(map[string][2]float64)
	for _, h := range s.HingeDerivatives(State{Alpha: 0.05, Controls: map[string]float64{"elevator": 0.1}}, point) {
		out[h.Control] = [2]float64{h.ByAlpha, h.ByControl[h.Control]}
		if h.Control == "rudder" {
			out[h.Control] = [2]float64{h.ByBeta, h.ByControl[h.Control]}
		}
	}
	return out
}

func TestHingeMomentsConverge(t *testing.T) {
	// Tolerances at 4 and 8 panels along the chord against 16, and at the default along the span against half as many again.
	// What stands beside a winglet's root converges slowly along the span, loads there do (see corner).
	along := map[string][2]float64{"elevator": {0.003, 0.001}, "flap": {0.02, 0.005}, "aileron": {0.005, 0.002}, "rudder": {0.02, 0.012}}
	span := map[string]float64{"elevator": 0.001, "flap": 0.006, "aileron": 0.025, "rudder": 0.025}
	a, point := controlled(t)
	fine := hingeSlopes(t, a, point, [2]float64{2, 1})
	default8 := hingeSlopes(t, a, point, [2]float64{1, 1})
	few := hingeSlopes(t, a, point, [2]float64{0.5, 1})
	wide := hingeSlopes(t, a, point, [2]float64{1, 1.5})
	require.Len(t, fine, 4)
	for name, want := range fine {
		for k, slope := range []string{"b1", "b2"} {
			t.Logf("%-9s %s %8.4f: 4 panels %+.2f %%, 8 panels %+.2f %%, half as many again along the span %+.2f %%", name, slope, want[k],
				100*(few[name][k]/want[k]-1), 100*(default8[name][k]/want[k]-1), 100*(wide[name][k]/default8[name][k]-1))
			require.InDelta(t, 1, few[name][k]/want[k], along[name][0], "%s of the %s at 4 panels", slope, name)
			require.InDelta(t, 1, default8[name][k]/want[k], along[name][1], "%s of the %s at 8 panels", slope, name)
			require.InDelta(t, 1, wide[name][k]/default8[name][k], span[name], "%s of the %s along the span", slope, name)
		}
	}
}

func TestHingeDerivativesAreThoseOfTheMoments(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	base := State{Alpha: 0.06, Beta: 0.03, RollRate: 0.02, PitchRate: 0.004, YawRate: -0.01, Controls: map[string]float64{"elevator": 0.1, "rudder": -0.05}}
	const h = 1e-5
	slope := func(i int, change func(*State, float64)) float64 {
		var c [2]float64
		for k, step := range []float64{-h, h} {
			moved := base
			moved.Controls = map[string]float64{"elevator": 0.1, "rudder": -0.05}
			change(&moved, step)
			c[k] = s.HingeMoments(moved, point)[i].Coefficient
		}
		return (c[1] - c[0]) / (2 * h)
	}
	for i, d := range s.HingeDerivatives(base, point) {
		require.Equal(t, s.HingeMoments(base, point)[i], d.HingeMoment)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.Alpha += x }), d.ByAlpha, 1e-8)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.Beta += x }), d.ByBeta, 1e-8)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.RollRate += x }), d.ByRollRate, 1e-8)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.PitchRate += x }), d.ByPitchRate, 1e-8)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.YawRate += x }), d.ByYawRate, 1e-8)
		require.InDelta(t, slope(i, func(s *State, x float64) { s.Controls["aileron"] += x }), d.ByControl["aileron"], 1e-8)
	}
}

func TestSignsOfHingeMoments(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	by := make(map[string]HingeDerivatives)
	for _, d := range s.HingeDerivatives(State{Alpha: 0.05}, point) {
		by[d.Control] = d
		require.Negative(t, d.ByControl[d.Control], "the air drives a deflected %s back", d.Control)
	}
	require.Negative(t, by["elevator"].ByAlpha, "lift on the flap drives its trailing edge up")
	require.Negative(t, by["flap"].ByAlpha)
	require.Positive(t, by["aileron"].ByAlpha, "up on the right is an aileron's positive sense")
	require.Positive(t, by["rudder"].ByBeta, "wind from the right drives the trailing edge left")
}

func TestHingeAtTheLeadingEdgeTakesTheWholeMoment(t *testing.T) {
	// Two roads: the loads of the strips, moved to the leading edge.
	a := flappedWing(6, 0)
	a.Surfaces[0].Hinges = []aero.Hinge{{Control: "whole", FromStation: 1, ToStation: 2, HingeFraction: 0, Effectiveness: 1}}
	s := solved(t, a)
	state := State{Alpha: 0.1, Controls: map[string]float64{"whole": 0.05}}
	want := 0.0
	for _, strip := range s.Strips(state) {
		want += strip.Moment.Y - strip.Centre.X*strip.Force.Z
	}
	h := s.HingeMoments(state, r3.Vec{})
	require.Len(t, h, 1)
	require.InDelta(t, 1, h[0].Moment/want, 1e-3)
	require.InDelta(t, h[0].Moment, h[0].Coefficient*h[0].Area*h[0].Chord, 1e-12)
}

func TestHingeMomentsInTrim(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	ahead := r3.Vec{X: s.NeutralPoint(State{}) - 0.2, Z: point.Z}
	all, err := s.TrimmedHinges(Balance{Control: "elevator", MomentPoint: ahead}, "foreplane", []float64{0.3, 0.6, 0.9})
	require.NoError(t, err)
	require.Len(t, all, 3)
	for i, h := range all {
		state, err := s.Trim(h.Lift, "elevator", ahead)
		require.NoError(t, err)
		require.Equal(t, state.Alpha, h.Alpha)
		require.Equal(t, state.Controls["elevator"], h.Deflection)
		require.InDelta(t, h.Coefficient*h.PerWeight, math.Abs(h.Coefficient*h.PerWeight), 1e-12)
		if i > 0 {
			require.Less(t, h.Coefficient, all[i-1].Coefficient, "slower: more load on the elevator against nose-up stick")
		}
	}
	_, err = s.TrimmedHinges(Balance{Control: "elevator", MomentPoint: ahead}, "wing", []float64{0.5})
	require.ErrorContains(t, err, `surface "wing" has no control "elevator"`)
	_, err = s.TrimmedHinges(Balance{Control: "aileron", MomentPoint: ahead}, "wing", []float64{0.5})
	require.ErrorContains(t, err, "hinge moments in trim")
}
