package decide

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// Every belief that a limit can rest on has a default error with its source; the neutral point's are
// stated in percent of the chord, so 2 % of 1.5 m is 0.03 m.
func TestDefaultErrors(t *testing.T) {
	choices := []Choice{{Name: "winglet size"}, {Name: "Foreplane"}, {Name: "nose"}}
	byName := map[string]TheoryError{}
	for _, e := range DefaultErrors(1.5, choices) {
		require.NoError(t, checkTheoryError(e))
		require.Contains(t, e.Source, "common practice, no source: ")
		byName[e.Quantity] = e
	}
	np := byName[evidence.NeutralPoint]
	require.False(t, np.Relative)
	near(t, np.Bias, 0.03, 1e-12, "2 % of 1.5 m")
	near(t, np.Level["Foreplane"], 0.012, 1e-12, "0.8 % of 1.5 m")
	near(t, np.Level["winglet size"], 0.0045, 1e-12, "0.3 % of 1.5 m")
	near(t, np.Level["nose"], 0.0075, 1e-12, "0.5 % of 1.5 m")
	near(t, np.FullSize["power"], 0.015, 1e-12, "1 % of 1.5 m")
	for _, quantity := range []string{evidence.ElevatorTrimRate, evidence.DirectionalStiffness, evidence.LiftCurveSlope, evidence.ZeroLiftDrag, evidence.RootBendingMoment} {
		require.True(t, byName[quantity].Relative, quantity)
		require.Positive(t, byName[quantity].Bias, quantity)
	}
}
