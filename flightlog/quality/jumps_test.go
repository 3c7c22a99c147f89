package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// A compass that steps by 60° is told as a jump, and neither the yaw rate nor anything else is accused for it, wherever it steps
// and whichever way.
func TestHeadingJumps(t *testing.T) {
	for _, by := range []float64{60, -60, 35, 170} {
		for _, at := range []float64{60, 150, 300} {
			rec := changed(t, within(at, 400, func(v float64) float64 { return math.Mod(v+by*degree+2*math.Pi, 2*math.Pi) }), flightlog.Heading)
			got := Inspect(rec)
			require.Len(t, got, 1, "%g° at %g s: %v", by, at, got)
			require.Equal(t, flightlog.Loss, got[0].Severity)
			require.Equal(t, flightlog.Heading, got[0].Channel)
			require.InDelta(t, at, got[0].Start, 0.1)
			require.Greater(t, got[0].End, 340.0)
		}
	}
	there := changed(t, within(100, 200, func(v float64) float64 { return math.Mod(v+math.Pi/3, 2*math.Pi) }), flightlog.Heading)
	got := Inspect(there)
	require.Len(t, got, 2, "there and back: %v", got)
	require.InDelta(t, 200, got[0].End, 0.1)
	onGround := changed(t, within(0.5, 400, func(v float64) float64 { return math.Mod(v+math.Pi/3, 2*math.Pi) }), flightlog.Heading)
	require.Empty(t, Inspect(onGround), "an alignment before the flight")
}
