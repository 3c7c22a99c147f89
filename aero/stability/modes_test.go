package stability

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// The Navion set is in feet, slugs and pounds; the formulas take any coherent system of units.
func navion() (aero.Derivatives, Body, Condition) {
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 184, Span: 33.4, MeanChord: 5.7},
		At:          aero.Coefficients{Lift: 0.41, Drag: 0.05},
		ByAlpha:     aero.Coefficients{Lift: 4.44, Drag: 0.33, Pitch: -0.683},
		ByPitchRate: aero.Coefficients{Pitch: -9.96}, // Nelson leaves CL_q = 3.8 out of the matrix
		ByBeta:      aero.Coefficients{Side: -0.564, Roll: -0.074, Yaw: 0.071},
		ByRollRate:  aero.Coefficients{Roll: -0.410, Yaw: -0.0575},
		ByYawRate:   aero.Coefficients{Roll: 0.107, Yaw: -0.125},
		ByControl:   map[string]aero.Coefficients{"elevator": {Lift: 0.355, Pitch: -0.923}},
	}
	b := Body{Mass: 2750 / 32.2, Ix: 1048, Iy: 3000, Iz: 3530}
	c := Condition{Density: 0.002378, Speed: 176, Gravity: 32.2, AlphaRate: aero.Coefficients{Pitch: -4.36}}
	return d, b, c
}

func TestNavionModes(t *testing.T) {
	const recomputed = "recomputed from the Navion set of Nelson, Flight Stability and Automatic Control, as transcribed in a public student script and listing"
	const nelson = "Nelson, Flight Stability and Automatic Control, printed roots, from memory"
	const second = "second public listing of the Navion example (phugoid printed to four digits)"
	d, b, c := navion()
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	require.Empty(t, m.Notes)

	near := func(want, got, tol float64, source string) {
		t.Helper()
		require.InDelta(t, want, got, tol, "%s: off by %.3g", source, got-want)
	}
	near(-2.510465, real(m.ShortPeriod.Root), 1e-5, recomputed)
	near(2.591781, imag(m.ShortPeriod.Root), 1e-5, recomputed)
	near(3.608291, m.ShortPeriod.Frequency, 1e-5, recomputed)
	near(0.695749, m.ShortPeriod.Damping, 1e-5, recomputed)
	near(2.4243, m.ShortPeriod.Period(), 1e-4, recomputed)
	near(-2.51, real(m.ShortPeriod.Root), 5e-3, nelson)
	near(2.59, imag(m.ShortPeriod.Root), 5e-3, nelson)

	near(0.213744, m.Phugoid.Frequency, 1e-5, recomputed)
	near(0.080099, m.Phugoid.Damping, 1e-5, recomputed)
	near(0.2137, m.Phugoid.Frequency, 1e-4, second)
	near(29.4923, m.Phugoid.Period(), 0.01, second)
	near(40.4857, m.Phugoid.TimeToHalf(), 1e-2, recomputed)

	near(-0.487019, real(m.DutchRoll.Root), 1e-5, recomputed)
	near(2.347238, imag(m.DutchRoll.Root), 1e-5, recomputed)
	near(2.335, imag(m.DutchRoll.Root), 0.02, nelson)
	near(-8.434858, m.Roll.Root, 1e-5, recomputed)
	near(0.118556, m.Roll.TimeConstant(), 1e-5, recomputed)
	near(-8.435, m.Roll.Root, 5e-4, nelson)
	near(-0.008198, m.Spiral.Root, 2e-5, recomputed)
	_, grows := m.Spiral.TimeToDouble()
	require.False(t, grows)
}

func TestNavionMatrices(t *testing.T) {
	const source = "dimensional derivatives recomputed from the Navion set, six decimals"
	d, b, c := navion()
	a, err := Longitudinal(d, b, c)
	require.NoError(t, err)
	want := []float64{-0.045085, 0.036068, 0, -32.2, -0.369700, -2.024333, 176, 0, 0.001910, -0.039511, -2.985753, 0, 0, 0, 1, 0}
	require.InDeltaSlice(t, want, a.RawMatrix().Data, 2e-6, source)
	a, err = Lateral(d, b, c)
	require.NoError(t, err)
	want = []float64{-0.254281, 0, -1, 0.182955, -15.982397, -8.402294, 2.192794, 0, 4.552554, -0.349839, -0.760520, 0, 0, 1, 0, 0}
	require.InDeltaSlice(t, want, a.RawMatrix().Data, 2e-6, source)
}

// Motion does not care in which body axes it is written: turning the body axes by the angle of attack,
// inertias and derivatives with them, leaves the lateral roots alone.
func TestLateralRootsDoNotDependOnBodyAxes(t *testing.T) {
	d, b, c := navion()
	straight, err := FindModes(d, b, c)
	require.NoError(t, err)
	turnedD, turnedB := turnBodyAxes(d, b, 0.2)
	turned, err := FindModes(turnedD, turnedB, c)
	require.NoError(t, err)
	for i := range straight.LateralRoots {
		require.InDelta(t, real(straight.LateralRoots[i]), real(turned.LateralRoots[i]), 1e-9)
		require.InDelta(t, imag(straight.LateralRoots[i]), imag(turned.LateralRoots[i]), 1e-9)
	}
}

func TestUnstableAircraftSaysSo(t *testing.T) {
	d, b, c := navion()
	d.ByAlpha.Pitch = 0.5
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	require.NotEmpty(t, m.Notes)
	require.Contains(t, m.Notes[len(m.Notes)-1], "statically unstable")

	d.ByBeta.Yaw = -0.3
	m, err = FindModes(d, b, c)
	require.NoError(t, err)
	require.Nil(t, m.DutchRoll)
}

func TestModesRefuse(t *testing.T) {
	d, b, c := navion()
	_, err := FindModes(aero.Derivatives{}, b, c)
	require.ErrorContains(t, err, "reference area")
	_, err = FindModes(d, Body{}, c)
	require.ErrorContains(t, err, "mass")
	_, err = FindModes(d, b, Condition{})
	require.ErrorContains(t, err, "density")
	b.Ixz = 1e5
	_, err = FindModes(d, b, c)
	require.ErrorContains(t, err, "product of inertia")
}
