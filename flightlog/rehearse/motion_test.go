package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// frame makes an airframe; drag and thrust stay as the caller sets them.
func frame(t *testing.T, ac Aircraft) *airframe {
	f, err := newAirframe(ac)
	require.NoError(t, err)
	return f
}

// launched is a state at 100 m in trim for a lift coefficient, at the true airspeed that carries the weight.
func launched(t *testing.T, f *airframe, lift, density, path float64) (state, controls) {
	alpha, elevator, err := stability.Trim(f.d, lift)
	require.NoError(t, err)
	speed := math.Sqrt(2 * f.Body.Mass * atmosphere.Gravity * math.Cos(path) / (density * f.area * lift))
	s := state{down: -100, u: speed * math.Cos(alpha), w: speed * math.Sin(alpha)}
	s.attitude(0, alpha+path, 0)
	return s, controls{elevator: elevator}
}

func energy(f *airframe, s state) float64 {
	speed := s.u*s.u + s.v*s.v + s.w*s.w
	turning := f.Body.Ix*s.p*s.p + f.Body.Iy*s.q*s.q + f.Body.Iz*s.r*s.r
	return f.Body.Mass*(speed/2-atmosphere.Gravity*s.down) + turning/2
}

// Without drag and thrust, lift does no work: in a violent phugoid of 30 s the energy stays but for the
// work of aerodynamic damping on the rotation, which is tiny.
func TestEnergyStaysWithoutDragAndThrust(t *testing.T) {
	ac := model(3.9)
	ac.Polar, ac.Propulsion.WindmillDrag = Polar{}, 0
	f := frame(t, ac)
	s, c := launched(t, f, 0.4, 1.225, 0)
	s.u *= 1.25
	start := energy(f, s)
	lowest, highest := 1e9, 0.0
	for range 3000 {
		s = f.step(s, c, surroundings{density: 1.225}, 0.01)
		speed := math.Hypot(s.u, s.w)
		lowest, highest = math.Min(lowest, speed), math.Max(highest, speed)
	}
	require.Greater(t, highest-lowest, 8.0, "the phugoid must exchange height and speed")
	require.InEpsilon(t, start, energy(f, s), 2e-4)
}

// A body without forces of the air keeps its angular momentum and falls freely.
func TestFreeFallAndSpin(t *testing.T) {
	ac := model(3.9)
	ac.Body.Ixz = 0.2
	f := frame(t, ac)
	s := state{p: 2, q: 0.5, r: -1}
	s.attitude(0.3, 0.2, 1)
	momentum := func(s state) [3]float64 {
		m := s.rotation()
		n, e, d := m.earth(f.Body.Ix*s.p-f.Body.Ixz*s.r, f.Body.Iy*s.q, f.Body.Iz*s.r-f.Body.Ixz*s.p)
		return [3]float64{n, e, d}
	}
	before := momentum(s)
	for range 200 {
		s = f.step(s, controls{}, surroundings{density: 0}, 0.01)
	}
	after := momentum(s)
	require.InDeltaSlice(t, before[:], after[:], 1e-6)
	require.InDelta(t, 0.5*atmosphere.Gravity*4, s.down, 1e-6)
}

// Steady glide: the path falls by CD/CL, to the tangent.
func TestGlideAngleIsDragOverLift(t *testing.T) {
	f := frame(t, model(3.9))
	const lift, density = 0.7, 1.225
	away := lift - f.Polar.LiftAtMin
	drag := f.Polar.Min + f.Polar.Factor*away*away + f.Propulsion.WindmillDrag
	s, c := launched(t, f, lift, density, -math.Atan(drag/lift))
	down, along := s.down, s.north
	for range 6000 { // a minute, long enough for what is left of the phugoid to average out
		s = f.step(s, c, surroundings{density: density}, 0.01)
	}
	require.InEpsilon(t, drag/lift, (s.down-down)/(s.north-along), 2e-3)
}

// The pitch response to a sudden angle of attack has the short period of the eigenvalues: frequency and
// damping come back from a second-order difference equation fitted to the pitch rate.
func TestPitchResponseHasShortPeriodRoots(t *testing.T) {
	ac := model(3.7) // a large margin, so that the short period oscillates
	f := frame(t, ac)
	const lift, density, dt = 0.6, 1.225, 0.005
	away := lift - f.Polar.LiftAtMin
	drag := f.Polar.Min + f.Polar.Factor*away*away + f.Propulsion.WindmillDrag
	s, c := launched(t, f, lift, density, 0)
	speed := math.Hypot(s.u, s.w)

	d, err := stability.Trimmed(f.d, lift, drag)
	require.NoError(t, err)
	d.ByAlpha.Drag = 2 * f.Polar.Factor * away * d.ByAlpha.Lift
	d.Reference.Area, d.Reference.Span, d.Reference.MeanChord = f.area, f.span, f.chord
	modes, err := stability.FindModes(d, f.Body, stability.Condition{Density: density, Speed: speed})
	require.NoError(t, err)
	require.NotNil(t, modes.ShortPeriod)
	require.Less(t, modes.ShortPeriod.Damping, 0.9)

	// the difference between a disturbed and an undisturbed flight, while the phugoid hardly moves
	disturbed := s
	disturbed.w += 0.02 * speed
	disturbed.u = math.Sqrt(speed*speed - disturbed.w*disturbed.w)
	var y []float64
	for range 120 {
		s = f.step(s, c, surroundings{density: density}, dt)
		disturbed = f.step(disturbed, c, surroundings{density: density}, dt)
		y = append(y, disturbed.q-s.q)
	}
	frequency, damping := secondOrder(y, dt)
	require.InEpsilon(t, modes.ShortPeriod.Frequency, frequency, 0.02)
	require.InEpsilon(t, modes.ShortPeriod.Damping, damping, 0.03)
}

// secondOrder fits y[k+2] = a·y[k+1] − b·y[k] and turns the roots into frequency and damping ratio.
func secondOrder(y []float64, dt float64) (frequency, damping float64) {
	var s11, s12, s22, t1, t2 float64
	for k := 0; k+2 < len(y); k++ {
		s11 += y[k+1] * y[k+1]
		s12 -= y[k+1] * y[k]
		s22 += y[k] * y[k]
		t1 += y[k+2] * y[k+1]
		t2 -= y[k+2] * y[k]
	}
	det := s11*s22 - s12*s12
	a, b := (t1*s22-t2*s12)/det, (t2*s11-t1*s12)/det
	decay := math.Log(b) / (2 * dt)
	turn := math.Acos(a/(2*math.Sqrt(b))) / dt
	frequency = math.Hypot(decay, turn)
	return frequency, -decay / frequency
}

// Slow flight with more and more elevator: lift stops rising near MaxLift and the moment turns the nose down.
func TestForeplaneLetsGoFirst(t *testing.T) {
	f := frame(t, model(3.9))
	alpha, elevator, err := stability.Trim(f.d, f.MaxLift)
	require.NoError(t, err)
	lift, _, pitch := f.along(alpha, 0, 0, controls{elevator: elevator})
	require.InDelta(t, f.MaxLift, lift, 0.03)
	require.Negative(t, pitch, "past the knee the nose drops")
	_, _, further := f.along(alpha+3*degree, 0, 0, controls{elevator: elevator})
	linear := pitch + f.d.ByAlpha.Pitch*3*degree
	require.Less(t, further, linear-0.01, "and drops faster than the linear moment")

	well := 0.7 * f.MaxLift // well below, nothing has bent
	alpha, elevator, err = stability.Trim(f.d, well)
	require.NoError(t, err)
	lift, _, pitch = f.along(alpha, 0, 0, controls{elevator: elevator})
	require.InDelta(t, well, lift, 1e-4)
	require.InDelta(t, 0, pitch, 1e-4)
}
