package loads

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestRollAccelerationOfAnEvenRod(t *testing.T) {
	// A rod of λ kg/m from the CG to l: with the right wing speeding down at ṗ its inertia pulls up,
	// shear λṗ(l² − y²)/2, bending λṗ(l − y)²(2l + y)/6 (∫ of the moments). Each of n pieces is even about
	// its middle, which leaves out λṗ·l³/(12n²) of bending.
	const l, lambda, change, n = 4.0, 12.0, 3.0, 200
	strips := evenWing(n, l, func(float64) float64 { return 0 })
	rod, err := SpreadByChord(lambda*l, strips, []string{"wing"}, 0.25)
	require.NoError(t, err)
	at := []Section{{Y: 0}, {Y: 1.111}, {Y: 3.5}}
	for _, s := range AddInertia(at, rod, Motion{RateChanges: Rotation{Roll: change}}) {
		require.InDelta(t, lambda*change*(l*l-s.Y*s.Y)/2, s.Shear, 1e-9)
		require.InDelta(t, lambda*change*(l-s.Y)*(l-s.Y)*(2*l+s.Y)/6, s.Bending, 1.01*lambda*change*l*l*l/(12*n*n))
	}
}

func TestSteadyRollThrowsAWingletOut(t *testing.T) {
	// 6 kg at y = 4 and 0.5 m above the CG, p = 2 rad/s: m·p²·y = 96 N outboard, m·p²·0.5 = 12 N up, whichever way it rolls.
	mass := []PointMass{{At: r3.Vec{Y: 4, Z: 0.5}, Mass: 6}}
	foot := Section{Point: r3.Vec{Y: 4}, Along: r3.Vec{Z: 1}}
	for _, p := range []float64{2, -2} {
		winglet := AddInertia([]Section{foot}, mass, Motion{Rates: Rotation{Roll: p}})[0]
		require.InDelta(t, -96, winglet.Shear, 1e-9) // inboard is positive
		require.InDelta(t, -96*0.5, winglet.Bending, 1e-9)
		wing := AddInertia([]Section{{Y: 1}}, mass, Motion{Rates: Rotation{Roll: p}})[0]
		require.InDelta(t, 12, wing.Shear, 1e-9)
		require.InDelta(t, 12*3-96*0.5, wing.Bending, 1e-9)
	}
}

func TestSignsOfBodyRates(t *testing.T) {
	// Each change of rate pushes a point the way its name says; the specific force there follows.
	felt := func(r Rotation, at r3.Vec) r3.Vec { return Motion{RateChanges: r}.feltAt(at) }
	require.Equal(t, -1.0, felt(Rotation{Roll: 1}, r3.Vec{Y: 1}).Z, "right wing down")
	require.Equal(t, 1.0, felt(Rotation{Pitch: 1}, r3.Vec{X: -1}).Z, "nose up")
	require.Equal(t, 1.0, felt(Rotation{Yaw: 1}, r3.Vec{X: -1}).Y, "nose right")
}

func TestMirroredMotionFeelsMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		vec := func(name string) r3.Vec {
			g := rapid.Float64Range(-3, 3)
			return r3.Vec{X: g.Draw(t, name), Y: g.Draw(t, name), Z: g.Draw(t, name)}
		}
		turn := func(v r3.Vec) Rotation { return Rotation{v.X, v.Y, v.Z} }
		m := Motion{vec("force"), vec("cg"), turn(vec("rates")), turn(vec("changes"))}
		at := vec("at")
		want := m.feltAt(at)
		at.Y, want.Y = -at.Y, -want.Y
		require.InDelta(t, 0, r3.Norm(r3.Sub(want, m.Mirrored().feltAt(at))), 1e-9)
		require.Equal(t, m, m.Mirrored().Mirrored())
	})
}

func TestCarriedLoadFactors(t *testing.T) {
	strips := evenWing(10, 4, func(float64) float64 { return 1 })
	q := 3.8 * 900 * gravity / 8
	up, side := CarriedLoadFactors(strips, nil, q, 900)
	require.InDelta(t, 3.8, up, 1e-12)
	require.Zero(t, side)
	// A winglet that pulls inboard on the right alone pushes the aircraft to the left: 2·q/(m·g).
	up, side = CarriedLoadFactors(inboardWinglet(), strips, q, 900)
	require.InDelta(t, 1.9, up, 1e-12)
	require.InDelta(t, -2*q/(900*gravity), side, 1e-12)
	// On both halves the two pulls meet.
	_, side = CarriedLoadFactors(inboardWinglet(), inboardWinglet(), q, 900)
	require.InDelta(t, 0, side, 1e-12)
	_, side = CarriedLoadFactors(strips, inboardWinglet(), q, 900)
	require.InDelta(t, 2*q/(900*gravity), side, 1e-12)
}

func TestSteadyRollRate(t *testing.T) {
	rate, err := SteadyRollRate(0.2, -0.45, 0.35)
	require.NoError(t, err)
	require.InDelta(t, 0.2*0.35/0.45, rate, 1e-15)
	require.InDelta(t, 0, 0.2*0.35-0.45*rate, 1e-15)
	_, err = SteadyRollRate(0.2, 0, 0.35)
	require.ErrorContains(t, err, "only a negative one holds a steady roll")
}
