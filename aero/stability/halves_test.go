package stability

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// Two roads: the roots make the characteristic polynomial vanish whose coefficients are sums of principal minors.
func TestRootsSolveTheCharacteristicPolynomial(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, b, c := lightSingle()
		vary := func(x *float64, name string) { *x *= rapid.Float64Range(0.3, 2).Draw(t, name) }
		vary(&d.ByAlpha.Pitch, "Cm_α")
		vary(&d.ByBeta.Yaw, "Cn_β")
		vary(&d.ByBeta.Roll, "Cl_β")
		vary(&d.ByRollRate.Roll, "Cl_p")
		vary(&d.ByYawRate.Yaw, "Cn_r")
		vary(&c.Speed, "V")
		b.Ixz = rapid.Float64Range(-300, 300).Draw(t, "Ixz")
		c.SpeedRatio = aero.Coefficients{Lift: 0.1, Drag: 0.02, Pitch: rapid.Float64Range(-0.1, 0.1).Draw(t, "Cm_u")}
		m, err := FindModes(d, b, c)
		require.NoError(t, err)
		along, err := Longitudinal(d, b, c)
		require.NoError(t, err)
		across, err := Lateral(d, b, c)
		require.NoError(t, err)
		for _, half := range []struct {
			matrix *mat.Dense
			roots  []complex128
		}{{along, m.LongitudinalRoots}, {across, m.LateralRoots}} {
			k := characteristic(half.matrix)
			for _, r := range half.roots {
				value, size := complex(1, 0), 1.0
				for i := 3; i >= 0; i-- {
					value = value*r + complex(k[i], 0)
					size = size*cmplx.Abs(r) + math.Abs(k[i])
				}
				require.Less(t, cmplx.Abs(value), 1e-11*size)
			}
		}
	})
}

// characteristic gives k with λ⁴ + k₃λ³ + k₂λ² + k₁λ + k₀.
func characteristic(a *mat.Dense) [4]float64 {
	var k [4]float64
	for mask := 1; mask < 16; mask++ {
		var rows []int
		for i := range 4 {
			if mask&(1<<i) != 0 {
				rows = append(rows, i)
			}
		}
		n := len(rows)
		minor := mat.NewDense(n, n, nil)
		for i, r := range rows {
			for j, c := range rows {
				minor.Set(i, j, a.At(r, c))
			}
		}
		sign := 1.0
		if n%2 == 1 {
			sign = -1
		}
		k[4-n] += sign * mat.Det(minor)
	}
	return k
}

// A derivative by speed must do what the change of dynamic pressure does when it is given the same size: forces that
// grow with V² have ∂C/∂(V/V0) = 2C at constant pressure.
func TestSpeedRatioActsLikeDynamicPressure(t *testing.T) {
	d, b, c := lightSingle()
	plain, err := Longitudinal(d, b, c)
	require.NoError(t, err)
	c.SpeedRatio = aero.Coefficients{Lift: 2 * d.At.Lift, Drag: 2 * d.At.Drag}
	twice, err := Longitudinal(d, b, c)
	require.NoError(t, err)
	require.InEpsilon(t, 2*plain.At(0, 0), twice.At(0, 0), 1e-12)
	require.InEpsilon(t, 2*plain.At(1, 0), twice.At(1, 0), 1e-12)
	c.SpeedRatio = aero.Coefficients{Pitch: 0.05} // a nose that rises with speed makes the phugoid stiffer
	m, err := LongitudinalModes(d, b, c)
	require.NoError(t, err)
	without, err := LongitudinalModes(d, b, Condition{Density: c.Density, Speed: c.Speed})
	require.NoError(t, err)
	require.Greater(t, m.Phugoid.Frequency, without.Phugoid.Frequency)
}

// Each half of the motion asks for its own inertias only.
func TestHalvesAskForTheirOwnInertias(t *testing.T) {
	d, b, c := lightSingle()
	_, err := LongitudinalModes(d, Body{Mass: b.Mass, Iy: b.Iy}, c)
	require.NoError(t, err)
	_, err = LateralModes(d, Body{Mass: b.Mass, Ix: b.Ix, Iz: b.Iz}, c)
	require.NoError(t, err)
	_, err = LongitudinalModes(d, Body{Mass: b.Mass, Ix: b.Ix, Iz: b.Iz}, c)
	require.ErrorContains(t, err, "pitch inertia")
	_, err = LateralModes(d, Body{Mass: b.Mass, Iy: b.Iy}, c)
	require.ErrorContains(t, err, "roll and yaw inertia")
}
