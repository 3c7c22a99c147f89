package decide

import (
	"math"
	"testing"

	"wingproof/cmd/wingproof/internal/evidence"
)

// nineByTen is nine configurations, ten requirements, three flown configurations.
func nineByTen() Problem {
	p := testProblem()
	p.Choices[1].Levels = []string{"short", "middle", "long"}
	p.Predictions = testPredictions(p.Choices)
	p.TrimSlopes = []TrimSlopes{
		slopesAt(levelsOf("winglet=mid foreplane=long"), 4.17, -0.36, 0.005, []float64{3.95, 4.05}, "F1", "F2"),
		slopesAt(levelsOf("winglet=mid foreplane=short"), 4.26, -0.36, 0.005, []float64{3.95, 4.05}, "F3", "F4"),
		slopesAt(levelsOf("winglet=small foreplane=middle"), 4.21, -0.36, 0.005, []float64{3.95, 4.05}, "F5", "F6"),
	}
	p.Direct = []Direct{{Levels: levelsOf("winglet=mid foreplane=long"), Quantity: evidence.DirectionalStiffness, Value: 0.078, SDOwn: 0.004, Degrees: math.Inf(1), Flights: []string{"F1"}}}
	return p
}

func BenchmarkJudge(b *testing.B) {
	p := nineByTen()
	for b.Loop() {
		if _, err := Judge(p); err != nil {
			b.Fatal(err)
		}
	}
}
