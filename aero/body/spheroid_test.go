package body

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r3"
)

// The table of inertia factors of airships, k1 along and k2 across, from memory, so that the band is loose
// (a unit of the third decimal in each factor).
func TestSlenderFactorAgainstAirshipTable(t *testing.T) {
	for _, row := range []struct{ fineness, along, across float64 }{
		{3.99, 0.082, 0.860}, {4.99, 0.059, 0.895},
		{6.01, 0.045, 0.918}, {6.97, 0.036, 0.933}, {8.01, 0.029, 0.945}, {9.97, 0.021, 0.960},
	} {
		require.InDelta(t, row.across-row.along, SlenderFactor(row.fineness), 2e-3, "fineness %g, from memory", row.fineness)
	}
}

// Two roads: the closed form with the logarithm, and Carlson's integral of the general ellipsoid.
func TestClosedFormIsTheRoundEllipsoid(t *testing.T) {
	for _, fineness := range []float64{1.0001, 1.01, 1.025, 1.026, 1.03, 1.1, 2, 4, 7.3, 10, 50, 1000} {
		pitch, yaw := EllipsoidFactors(fineness, 1, 1)
		require.InDelta(t, pitch, SlenderFactor(fineness), 1e-12, "fineness %g", fineness)
		require.InDelta(t, pitch, yaw, 1e-13, "fineness %g", fineness)
	}
}

func TestSlenderFactorLimits(t *testing.T) {
	require.Zero(t, SlenderFactor(1))
	require.Zero(t, SlenderFactor(0.5))
	require.Equal(t, 1.0, SlenderFactor(math.Inf(1)))
	require.True(t, math.IsNaN(SlenderFactor(math.NaN())))
	// Nearly a sphere, fineness 1 + ε: α0 = 2/3 − 8ε/15, so that k2 − k1 = (9/16)·(4/15 + 8/15)·2·ε = 0.9 ε (derived).
	require.InEpsilon(t, 0.9e-5, SlenderFactor(1+1e-5), 1e-4)
	// Very long, with L = ln(2·fineness): k1 → (L − 1)/fineness², k2 → 1 − 2(L − 1)/fineness² (derived).
	f := 1000.0
	require.InEpsilon(t, 3*(math.Log(2*f)-1)/(f*f), 1-SlenderFactor(f), 1e-4)
	before := 0.0
	for f := 1.05; f < 40; f *= 1.05 {
		require.Greater(t, SlenderFactor(f), before)
		before = SlenderFactor(f)
	}
}

func TestEllipsoidFactorsSwapAndStayBelowOne(t *testing.T) {
	for _, size := range [][3]float64{{5, 1, 1.5}, {5, 1.5, 1}, {8, 0.4, 1.2}, {3, 2, 0.5}} {
		pitch, yaw := EllipsoidFactors(size[0], size[1], size[2])
		swappedPitch, swappedYaw := EllipsoidFactors(size[0], size[2], size[1])
		require.InDelta(t, pitch, swappedYaw, 1e-13)
		require.InDelta(t, yaw, swappedPitch, 1e-13)
		for _, f := range []float64{pitch, yaw} {
			require.Greater(t, f, 0.0)
			require.Less(t, f, 1.0)
		}
	}
	pitch, yaw := EllipsoidFactors(1e4, 1, 2)
	require.InDelta(t, 1, pitch, 1e-6)
	require.InDelta(t, 1, yaw, 1e-6)
	pitch, yaw = EllipsoidFactors(5, 0, 1)
	require.True(t, math.IsNaN(pitch) && math.IsNaN(yaw))
}

// ellipsoidMoment integrates the pressure of the potential flow over the surface of an ellipsoid with half-axes a (along x), b, c in
// a stream of unit speed, datum axes; the result is the moment over ½ρV², m³, about its middle.
// On an ellipsoid the surface velocity is the tangential part of ((1+k_x)·U_x, (1+k_y)·U_y, (1+k_z)·U_z) (H. Lamb, Hydrodynamics, art. 114).
func ellipsoidMoment(a, b, c float64, stream r3.Vec) r3.Vec {
	third := 2.0 / 3 * a * b * c
	k := func(x, y, z float64) float64 { return inertia(third * mathext.EllipticRD(x*x, y*y, z*z)) }
	u := r3.Vec{X: (1 + k(b, c, a)) * stream.X, Y: (1 + k(c, a, b)) * stream.Y, Z: (1 + k(a, b, c)) * stream.Z}
	const n, turns = 60, 80
	at, weight := make([]float64, n), make([]float64, n)
	quad.Legendre{}.FixedLocations(at, weight, -1, 1)
	var sum r3.Vec
	for i, s := range at {
		ring := math.Sqrt(1 - s*s)
		for j := range turns {
			sin, cos := math.Sincos(2 * math.Pi * (float64(j) + 0.5) / turns)
			place := r3.Vec{X: a * s, Y: b * ring * cos, Z: c * ring * sin}
			patch := r3.Vec{X: b * c * s, Y: a * c * ring * cos, Z: a * b * ring * sin} // normal times area over solid angle
			normal := r3.Unit(patch)
			v := r3.Sub(u, r3.Scale(r3.Dot(u, normal), normal))
			pressure := 1 - r3.Norm2(v)
			sum = r3.Add(sum, r3.Scale(-pressure*weight[i]*2*math.Pi/turns, r3.Cross(place, patch)))
		}
	}
	return sum
}

// The independent road to sign and size: pressures on the surface against strips times factor.
func TestEffectIsThePressureMomentOfAnEllipsoid(t *testing.T) {
	const angle = 1e-4
	for _, size := range [][3]float64{{4, 1, 1}, {6, 0.9, 1.3}, {5, 1.4, 0.8}, {2, 1, 1}} {
		b := ellipsoid(t, size[0], size[1], size[2], 2000)
		e := b.Effect(nil, nil)
		up := ellipsoidMoment(size[0]/2, size[1]/2, size[2]/2, r3.Vec{X: math.Cos(angle), Z: math.Sin(angle)})
		require.InEpsilon(t, up.Y/angle, e.Pitch, 2e-5, "nose up in a stream from below, size %v", size)
		fromRight := ellipsoidMoment(size[0]/2, size[1]/2, size[2]/2, r3.Vec{X: math.Cos(angle), Y: -math.Sin(angle)})
		require.InEpsilon(t, -fromRight.Z/angle, e.Yaw, 2e-5, "nose left in a stream from the right, size %v", size)
	}
}
