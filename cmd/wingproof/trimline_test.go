package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
)

// Through two slopes the line passes exactly, so that its band there is the interval of each slope by itself, which study works out by
// another road.
func TestTrimLineMeetsTheIntervalsOfTwoSlopes(t *testing.T) {
	f := study.Fit{NeutralPoint: estimate.Result{Value: evidence.Pointer(4.0)}, TrimSlopes: estimate.TrimSlopes{
		CG: []float64{3.6, 3.8}, Slope: []float64{0.5, 0.25}, Covariance: [][]float64{{4e-4, 0}, {0, 9e-4}}, Degrees: 7,
		Common: map[string][]float64{"airspeed_scale": {0.01, 0.005}, "elevator_scale": {-0.02, 0.003}}}}
	line := trimLine(f)
	require.Len(t, line.X, 9)
	require.InDelta(t, 3.6, line.X[0], 1e-12)
	require.InDelta(t, 4.0, line.X[8], 1e-12)
	require.InDelta(t, 0.0, line.Y[8], 1e-12, "0.5 falls by 0.25 in 0.2 m")
	for i, at := range []int{0, 4} { // 3.6 m and 3.8 m
		low, high := study.SlopeInterval(f.TrimSlopes, i)
		require.InDelta(t, low, line.Low[at], 1e-12)
		require.InDelta(t, high, line.High[at], 1e-12)
	}
	require.Greater(t, line.High[8]-line.Low[8], line.High[4]-line.Low[4], "beyond the CGs flown the band widens")

	f.TrimSlopes.Slope, f.TrimSlopes.CG = f.TrimSlopes.Slope[:1], f.TrimSlopes.CG[:1]
	require.Empty(t, trimLine(f).X, "one slope has no line")
}
