package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Another kind of processor rounds the last bits otherwise. That must move a probability by what the numbers moved, not draw anew; what is
// measured twice under one name draws twice all the same.
func TestALastBitDrawsNothingAnew(t *testing.T) {
	shares := func(p Problem) []float64 {
		var out []float64
		for _, c := range mustJudge(t, p).Configurations {
			for _, l := range c.Limits {
				out = append(out, l.Probability)
			}
		}
		return out
	}
	p := testProblem()
	p.Draws = 4000
	p.TrimSlopes = []TrimSlopes{
		slopesAt(levelsOf("winglet=mid foreplane=long"), 4.17, testRate, 0.01, []float64{3.9, 4.0, 4.1}, "a", "b"),
		slopesAt(levelsOf("winglet=tall foreplane=long"), 4.18, testRate, 0.01, []float64{3.9, 4.1}, "c"),
	}
	before := shares(p)
	for k := range p.TrimSlopes {
		for i, v := range p.TrimSlopes[k].Slope {
			p.TrimSlopes[k].Slope[i] = math.Nextafter(v, 10)
		}
	}
	require.Equal(t, before, shares(p))

	o := observations{records: []record{{key: "b", rank: "2"}, {key: "a", rank: "9"}, {key: "b", rank: "1"}}}
	o.arrange()
	require.Equal(t, []record{{key: "a\x001", rank: "9"}, {key: "b\x001", rank: "1"}, {key: "b\x002", rank: "2"}}, o.records)
}
