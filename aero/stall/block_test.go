package stall

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// The plain road: the rows and columns of the strips taken out, solved by gonum's LU. Sets of strips follow one another in the
// same storage.
func TestBlockSolvesLikePlainLU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(15).Draw(t, "problem")
		n := len(p.attached)
		room := rapid.SliceOfN(rapid.Float64Range(-2, 2), n, n).Draw(t, "room")
		var b block
		for range 3 {
			var held []int
			for i := range n {
				if rapid.Bool().Draw(t, "held") {
					held = append(held, i)
				}
			}
			turn := make([]float64, n)
			b.factor(p.response, held)
			require.False(t, b.singular)
			b.solve(turn, room)
			if len(held) == 0 {
				require.Equal(t, make([]float64, n), turn)
				continue
			}
			system, right, want := mat.NewDense(len(held), len(held), nil), mat.NewVecDense(len(held), nil), &mat.VecDense{}
			for k, i := range held {
				right.SetVec(k, -room[i])
				for l, j := range held {
					system.Set(k, l, p.response.At(i, j))
				}
			}
			require.NoError(t, want.SolveVec(system, right))
			for k, i := range held {
				require.InDelta(t, want.AtVec(k), turn[i], 1e-9)
				turn[i] = 0
			}
			require.Equal(t, make([]float64, n), turn, "strips that are not held are not turned")
		}
	})
}
