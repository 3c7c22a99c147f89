package lattice

import (
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// benchmarkSizes are full-span panel counts and the densities of the invented aircraft that come nearest to them.
var benchmarkSizes = []struct {
	panels  int
	density float64
}{{1000, 0.96}, {2000, 1.36}, {4000, 1.92}}

// BenchmarkDerivatives solves one airframe and takes all derivatives of both symmetries about a trimmed state.
func BenchmarkDerivatives(b *testing.B) {
	a, point := controlled(b)
	for _, size := range benchmarkSizes {
		b.Run(fmt.Sprintf("panels=%d", size.panels), func(b *testing.B) {
			count := 0
			for b.Loop() {
				s, err := Solve(a, Options{Density: size.density})
				if err != nil {
					b.Fatal(err)
				}
				state, err := s.Trim(0.5, "elevator", point)
				if err != nil {
					b.Fatal(err)
				}
				s.Derivatives(state, point)
				count = 2 * s.Panels()
			}
			b.ReportMetric(float64(count), "panels")
		})
	}
}

// BenchmarkPlainLU is the measure of the others: gonum's LU with six right-hand sides on one core, of as many unknowns as the
// half models of BenchmarkDerivatives have panels.
func BenchmarkPlainLU(b *testing.B) {
	a, _ := controlled(b)
	for _, size := range benchmarkSizes {
		models, failed := newModels([]aero.Airframe{a}, Options{Density: size.density})
		require.NoError(b, failed[0])
		n := len(models[0].grid.panels)
		b.Run(fmt.Sprintf("unknowns=%d", n), func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
			a, right := mat.NewDense(n, n, nil), mat.NewDense(n, 6, nil)
			for i := range n {
				for j := range n {
					a.Set(i, j, 1/(1+math.Abs(float64(i-j))))
				}
				for j := range 6 {
					right.Set(i, j, float64(i%(j+2)))
				}
			}
			for b.Loop() {
				var lu mat.LU
				lu.Factorize(a)
				var x mat.Dense
				if err := lu.SolveTo(&x, false, right); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// sweepOf is the invented aircraft with several winglet heights and foreplane spans.
func sweepOf(t testing.TB, winglets, foreplanes int) ([]aero.Airframe, r3.Vec) {
	t.Helper()
	base, point := controlled(t)
	base.Surfaces[0].Hinges = base.Surfaces[0].Hinges[1:] // elevator, ailerons and rudders, no flap
	var out []aero.Airframe
	for i := range winglets {
		for j := range foreplanes {
			a, err := base.SetHeight("winglet", 0.8+0.05*float64(i))
			require.NoError(t, err)
			a, err = a.SetSpan("foreplane", 3.2+0.06*float64(j))
			require.NoError(t, err)
			out = append(out, a)
		}
	}
	return out, point
}

// BenchmarkSweep solves families of winglets and foreplanes at 1,000 panels, each trimmed, with its derivatives, span load,
// induced drag and neutral point.
func BenchmarkSweep(b *testing.B) {
	for _, size := range [][2]int{{1, 1}, {2, 1}, {9, 1}, {9, 9}} {
		b.Run(fmt.Sprintf("winglets=%d/foreplanes=%d", size[0], size[1]), func(b *testing.B) {
			airframes, point := sweepOf(b, size[0], size[1])
			for b.Loop() {
				all, err := SolveAll(airframes, Options{Density: benchmarkSizes[0].density})
				if err != nil {
					b.Fatal(err)
				}
				for _, s := range all {
					state, err := s.Trim(0.5, "elevator", point)
					if err != nil {
						b.Fatal(err)
					}
					s.Derivatives(state, point)
					s.StripsAbout(state, point)
					s.InducedDrag(state)
					s.NeutralPointAbout(state, point)
				}
			}
		})
	}
}
