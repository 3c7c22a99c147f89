package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// horseshoe looks at both nodes from p.
func horseshoe(p, a, b r3.Vec, core4 float64) r3.Vec {
	inner, outer, v := make([]node, 1), make([]node, 1), newVelocities(1)
	look(inner, p, []r3.Vec{a}, core4)
	look(outer, p, []r3.Vec{b}, core4)
	v.between(inner, outer, 1)
	return v.at(0)
}

// TestFourPanelExample is the flat, untapered wing of aspect ratio 5 swept by 45°, four horseshoes a
// side: J. J. Bertin & M. L. Smith, Aerodynamics for Engineers (figures from memory, recomputed).
func TestFourPanelExample(t *testing.T) {
	const source = "Bertin & Smith, Aerodynamics for Engineers, four-panel example (from memory)"
	const chord = 0.2 // in spans
	panels := make([]panel, 4)
	for i := range panels {
		y1, y2 := float64(i)/8, float64(i+1)/8
		panels[i].a = r3.Vec{X: y1 + chord/4, Y: y1}
		panels[i].b = r3.Vec{X: y2 + chord/4, Y: y2}
		panels[i].control = r3.Vec{X: (y1+y2)/2 + 0.75*chord, Y: (y1 + y2) / 2}
	}
	starboard := [][]float64{{-71.5187, 11.2933, 1.0757, 0.3775}, {20.2174, -71.5187, 11.2933, 1.0757}}
	port := [][]float64{{18.5150, 2.0504, 0.5887, 0.2658}, {3.6144, 1.1742, 0.4903, 0.2503}}
	matrix, right := mat.NewDense(4, 4, nil), mat.NewVecDense(4, []float64{-1, -1, -1, -1})
	for i := range panels {
		for j := range panels {
			own := horseshoe(panels[i].control, panels[j].a, panels[j].b, 0)
			image := mirrored(horseshoe(leftOf(panels[i].control), panels[j].a, panels[j].b, 0))
			if i < 2 {
				near(t, starboard[i][j], fourPi*own.Z, 6e-5, source)
				near(t, port[i][j], fourPi*image.Z, 6e-5, source)
			}
			matrix.Set(i, j, own.Z+image.Z)
		}
	}
	var gamma mat.VecDense
	require.NoError(t, gamma.SolveVec(matrix, right))
	lift := 0.0
	for i, want := range []float64{0.0273, 0.0287, 0.0286, 0.0250} {
		near(t, want, gamma.AtVec(i)/fourPi, 5e-5, source)
		lift += gamma.AtVec(i) / 8
	}
	near(t, 3.443, 4*lift/chord, 2e-3, source) // 2·2ΣΓΔy/(U² c b)
	// own recomputation of the same example, all figures: rows of the matrix and the centroid of the bound vortices
	rows := [][]float64{
		{-53.00369, 13.34369, 1.66435, 0.64336}, {23.83175, -70.34449, 11.78361, 1.32594},
		{5.42716, 20.94010, -71.14110, 11.51112}, {2.49422, 4.36257, 20.50694, -71.33509},
	}
	moment, sum := 0.0, 0.0
	for i := range panels {
		for j := range panels {
			near(t, rows[i][j], fourPi*matrix.At(i, j), 5.1e-6, "both halves, own recomputation")
		}
		moment += gamma.AtVec(i) * (panels[i].a.X + panels[i].b.X) / 2
		sum += gamma.AtVec(i)
	}
	near(t, 3.444224, 4*lift/chord, 5.1e-7, "own recomputation")
	near(t, 0.295943, moment/sum, 5.1e-7, "own recomputation")
}

// TestHorseshoeAgainstIntegration sums the law of Biot and Savart over short pieces of the filament.
func TestHorseshoeAgainstIntegration(t *testing.T) {
	a, b := r3.Vec{X: 0.3, Y: 0.2, Z: 0.1}, r3.Vec{X: 0.8, Y: 1.4, Z: 0.3}
	for _, p := range []r3.Vec{{X: 0.9, Y: 0.7, Z: 0.4}, {X: -2, Y: 3, Z: -1}, {X: 3, Y: 0.9, Z: 0.2}, {X: 0.2, Y: 0.2, Z: 0.5}} {
		var sum r3.Vec
		piece := func(from, to r3.Vec, n int) {
			step := r3.Scale(1/float64(n), r3.Sub(to, from))
			for i := range n {
				r := r3.Sub(p, r3.Add(from, r3.Scale(float64(i)+0.5, step)))
				sum = r3.Add(sum, r3.Scale(1/(fourPi*math.Pow(r3.Norm(r), 3)), r3.Cross(step, r)))
			}
		}
		far := 400.0
		piece(aft(a, far), a, 400000)
		piece(a, b, 20000)
		piece(b, aft(b, far), 400000)
		got := horseshoe(p, a, b, 0)
		require.InDelta(t, 0, r3.Norm(r3.Sub(got, sum)), 2e-6)
	}
}

func TestFilamentsDoNotMoveThemselves(t *testing.T) {
	a, b := r3.Vec{X: 1, Y: 0.2, Z: 0.1}, r3.Vec{X: 1, Y: 1.2, Z: 0.1}
	onBound := horseshoe(r3.Vec{X: 1, Y: 0.5, Z: 0.1}, a, b, 0)
	require.Less(t, math.Abs(onBound.X)+math.Abs(onBound.Y), 1e-12) // only the legs' downwash is left
	onLeg := horseshoe(r3.Vec{X: 3, Y: 1.2, Z: 0.1}, a, b, 0)
	require.False(t, math.IsNaN(r3.Norm(onLeg)) || math.IsInf(r3.Norm(onLeg), 0))
	require.Less(t, r3.Norm(onLeg), 1.0)
}

func TestCoreLeavesThePanelWidthAlone(t *testing.T) {
	a, b := r3.Vec{}, r3.Vec{Y: 1}
	core := math.Pow(coreFraction, 4)
	for _, p := range []r3.Vec{{X: 2, Y: 0.5}, {X: 2, Y: 1.5, Z: 0.2}} {
		plain, cored := horseshoe(p, a, b, 0), horseshoe(p, a, b, core)
		require.InDelta(t, 1, r3.Norm(cored)/r3.Norm(plain), 1.5e-4)
	}
	grazed := horseshoe(r3.Vec{X: 5, Y: 1, Z: 1e-4}, a, b, core)
	require.Less(t, r3.Norm(grazed), 1.0)
}
