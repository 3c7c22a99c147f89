package study

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// A number from input manoeuvres is weak where a stabiliser worked, and names the flights; steady flight stays as it is.
func TestNumbersFromStabilisedInputsAreWeak(t *testing.T) {
	f := Fit{Stabilised: []string{"flight F02: an active stabiliser"}}
	for _, r := range []estimate.Result{
		{Quantity: identify.PitchDamping}, {Quantity: identify.DirectionalStiff}, {Quantity: estimate.DutchRollFrequency},
		{Quantity: evidence.NeutralPoint, Method: "stiffness over lift slope of manoeuvres: mean of flights"},
	} {
		r.State = estimate.Determined
		got := f.resting(r)
		require.Equal(t, estimate.Weak, got.State, r.Quantity)
		require.Equal(t, "flight F02: an active stabiliser", got.Warnings[0])
		require.Equal(t, r, Fit{}.resting(r), r.Quantity)
	}
	for _, r := range []estimate.Result{
		{Quantity: evidence.NeutralPoint, Method: trimRoad + ": flight trim slopes"}, {Quantity: evidence.ZeroLiftDrag}, {Quantity: "manoeuvre_point"},
	} {
		r.State = estimate.Determined
		require.Equal(t, r, f.resting(r), r.Quantity)
	}
	undetermined := estimate.Result{Quantity: identify.PitchDamping, State: estimate.NotDetermined}
	require.Equal(t, undetermined, f.resting(undetermined))
}

// A difference of rudder power between levels is that of one rudder, as rudder power itself is, and halved once.
func TestDifferencesAreOfOneRudder(t *testing.T) {
	value := func(v float64) *float64 { return &v }
	result := estimate.Result{Quantity: identify.RudderPower, State: estimate.Determined, Value: value(-0.02), SD: value(0.002), SDOwn: value(0.002), Low: value(-0.024), High: value(-0.016)}
	s := &Study{Between: []Between{{identify.RudderPower, estimate.Overview{Differences: []estimate.LevelDifference{{Choice: "winglet", One: "tall", Other: "mid", Result: result}}}}}}
	differences := s.LevelDifferences()
	require.Len(t, differences, 1)
	require.InDelta(t, -0.01, *differences[0].Estimate.Value, 1e-15)
	require.InDelta(t, 0.001, *differences[0].Estimate.SD, 1e-15)
	require.Equal(t, evidence.Determined, differences[0].Estimate.State)
}
