package lattice

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// section solves the two-dimensional lattice for normals turned by turn(i) and returns lift and moment
// about the quarter chord.
func section(t *testing.T, n int, turn func(i int, x float64) float64) (lift, moment float64) {
	t.Helper()
	l := newChordLattice(n)
	matrix, right := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i, x := range l.control {
		right.SetVec(i, turn(i, x))
		for j, v := range l.vortex {
			matrix.Set(i, j, 1/(2*math.Pi*(x-v)))
		}
	}
	var gamma mat.VecDense
	require.NoError(t, gamma.SolveVec(matrix, right))
	for j, v := range l.vortex {
		lift += 2 * gamma.AtVec(j)
		moment -= 2 * gamma.AtVec(j) * (v - 0.25)
	}
	return lift, moment
}

func TestTwoDimensionalLatticeIsExact(t *testing.T) {
	for _, n := range []int{2, 3, 8, 13} {
		lift, moment := section(t, n, func(int, float64) float64 { return 1 })
		require.InDelta(t, 2*math.Pi, lift, 1e-11, "flat plate")
		require.InDelta(t, 0, moment, 1e-11, "flat plate")
		// parabolic arc z = 4h x(1−x): cl = 4πh, cm = −πh (Glauert, The Elements of Aerofoil and Airscrew Theory)
		lift, moment = section(t, n, func(_ int, x float64) float64 { return -4 * (1 - 2*x) })
		require.InDelta(t, 4*math.Pi, lift, 1e-11)
		require.InDelta(t, -math.Pi, moment, 1e-11)
	}
}

func TestHingeHasThinAerofoilEffect(t *testing.T) {
	// Houghton & Carpenter, Aerodynamics for Engineering Students, eqs (4.49) to (4.57), evaluated.
	for _, c := range []struct{ flap, lift, moment float64 }{
		{0.10, 2.487002, -0.540000}, {0.15, 3.019083, -0.607021}, {0.25, 3.826446, -0.649519},
		{0.35, 4.440086, -0.620060}, {0.50, 5.141593, -0.500000},
	} {
		for _, n := range []int{5, 8, 12} {
			turns := hingeTurns(n, 1-c.flap)
			lift, moment := section(t, n, func(i int, _ float64) float64 { return turns[i] })
			require.InDelta(t, c.lift, lift, 1e-6, "flap %.2f, %d panels", c.flap, n)
			require.InDelta(t, c.moment, moment, 1e-6, "flap %.2f, %d panels", c.flap, n)
		}
	}
	require.Equal(t, []float64{1, 1, 1}, round(hingeTurns(3, 0)), "the whole chord turns")
}

func round(list []float64) []float64 {
	for i := range list {
		list[i] = math.Round(1e12*list[i]) / 1e12
	}
	return list
}

func TestHingeFractionsStayMild(t *testing.T) {
	for n := 2; n <= 16; n++ {
		for hinge := 0.02; hinge < 0.99; hinge += 0.01 {
			for i, f := range hingeTurns(n, hinge) {
				require.True(t, f > -1.5 && f < 2.5, fmt.Sprintf("n %d hinge %.2f control point %d: %.3f", n, hinge, i, f))
			}
		}
	}
}
