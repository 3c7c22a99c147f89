package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// What two sizes share cancels: a shared bias of 0.05 m and level errors of 0.01 m each leave the difference a standard deviation of
// √2·0.01 = 0.01414 m, and its mean is that of the predictions.
func TestContrastCancelsWhatIsShared(t *testing.T) {
	p := Problem{Seed: 3, Draws: 40000, Choices: []Choice{{Name: "winglet", Baseline: "mid", Levels: []string{"mid", "tall"}}},
		Errors: []TheoryError{{Quantity: evidence.NeutralPoint, Bias: 0.05, Level: map[string]float64{"winglet": 0.01}, FullSize: map[string]float64{"power": 0.03}}}}
	for level, np := range map[string]float64{"mid": 4.0, "tall": 4.02} {
		p.Predictions = append(p.Predictions, Prediction{Levels: map[string]string{"winglet": level}, Values: map[string]float64{evidence.NeutralPoint: np}})
	}
	list, err := contrastsOf(p, "winglet", nil)
	require.NoError(t, err)
	require.Len(t, list, 2)
	require.Nil(t, list[0].Difference, "the baseline has none")
	wide := math.Sqrt(0.05*0.05 + 0.01*0.01 + 0.03*0.03)
	near(t, (list[0].Value.High-list[0].Value.Low)/2, 1.96*wide, 0.02*1.96*wide, "√(0.05² + 0.01² + 0.03²)")
	d := list[1].Difference
	near(t, d.Median, 0.02, 3e-4, "difference of the predictions")
	near(t, (d.High-d.Low)/2, 1.96*0.0141421, 6e-4, "√2 × 0.01")
}

// Every limit of the board is set against the baseline, with the probability that the board states.
func TestContrastsFollowTheBoard(t *testing.T) {
	p := testProblem()
	p.Draws = 2000
	list, err := contrastsOf(p, "winglet", map[string]string{"foreplane": "long"})
	require.NoError(t, err)
	v := mustJudge(t, p)
	seen := map[string]bool{}
	for _, x := range list {
		if x.Limit == "" {
			require.Nil(t, x.Probability)
			continue
		}
		seen[x.Level] = true
		require.Equal(t, limitOf(t, v, x.Configuration, x.Limit).Probability, *x.Probability)
		if x.Quantity == evidence.TipBackAngle && x.Difference != nil {
			require.Zero(t, x.Difference.Median, "no winglet moves the wheels")
		}
	}
	require.Len(t, seen, 3)
}
