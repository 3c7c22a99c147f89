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

// What may be about zero has errors in hundredths of the coefficient, whatever is predicted; the other derivatives in percent of it.
func TestDefaultErrorsOfDerivatives(t *testing.T) {
	byName := map[string]TheoryError{}
	for _, e := range DefaultErrors(1.5, []Choice{{Name: "winglet"}, {Name: "foreplane"}}) {
		require.NotContains(t, byName, e.Quantity)
		byName[e.Quantity] = e
	}
	for _, quantity := range []string{evidence.DihedralEffect, evidence.YawDueToRoll} {
		require.False(t, byName[quantity].Relative, quantity)
	}
	near(t, byName[evidence.YawDueToRoll].Bias, 0.02, 1e-15, "two hundredths, not of the chord")
	near(t, byName[evidence.YawDueToRoll].Level["winglet"], 0.004, 1e-15, "0.4 hundredths")
	for _, quantity := range []string{evidence.PitchDamping, evidence.SideForceSlope, evidence.RollDamping, evidence.YawDamping, evidence.RollDueToYaw} {
		e := byName[quantity]
		require.True(t, e.Relative, quantity)
		require.Greater(t, e.Bias, e.Interaction, quantity)
		require.Contains(t, e.FullSize, "power")
	}
	near(t, byName[evidence.PitchDamping].Bias, 0.18, 1e-15, "√(0.15² + 0.10²): damping in pitch, and what lags")
	for _, quantity := range []string{evidence.PitchDamping, evidence.DihedralEffect, evidence.YawDamping, evidence.RollDueToYaw} {
		require.True(t, readFromFlights(quantity), quantity)
	}
}
