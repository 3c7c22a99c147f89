package statistic

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand: deviations −1, 0, 1 against −1, −1, 2 give 3/√(2·6).
func TestCorrelation(t *testing.T) {
	require.InDelta(t, 3/math.Sqrt(12), Correlation([]float64{1, 2, 3}, []float64{5, 5, 8}), 1e-15)
	require.InDelta(t, -1.0, Correlation([]float64{1, 2, 3}, []float64{3, 2, 1}), 1e-15)
	require.Zero(t, Correlation([]float64{1, 1}, []float64{2, 3}))
	require.Zero(t, Correlation(nil, nil))
}

func TestMagnitudesAndFinite(t *testing.T) {
	require.Equal(t, []float64{1, 0, 2}, Magnitudes([]float64{-1, 0, 2}))
	require.True(t, Finite(-3))
	require.False(t, Finite(math.Inf(-1)) || Finite(math.NaN()))
}
