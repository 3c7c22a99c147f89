package estimate

import (
	"math"
	"testing"

	"wingproof/flightlog/leastsquares"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// inverseRegression is the set of x at which a straight line through (x, y) reads y0, for the mean of infinitely
// many readings (readings 0) or one new reading (1).
func inverseRegression(t *testing.T, x, y []float64, y0, readings, chance float64) Fieller {
	t.Helper()
	mean := 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	var rows [][]float64
	for _, v := range x {
		rows = append(rows, []float64{1, v - mean})
	}
	fit, err := leastsquares.Linear(rows, y, nil)
	require.NoError(t, err)
	q := distuv.StudentsT{Sigma: 1, Nu: float64(fit.Degrees)}.Quantile(1 - chance/2)
	v := fit.Covariance
	set := FiellerSet(y0-fit.Coefficients[0], fit.Coefficients[1], v[0][0]+readings*square(fit.ResidualSD), -v[0][1], v[1][1], q)
	set.Value, set.Low, set.High = set.Value+mean, set.Low+mean, set.High+mean
	return set
}

// F. A. Graybill and H. K. Iyer, Regression Analysis: Concepts and Applications, p. 431, thermometer example; the
// longer figures are the same computation in more digits.
func TestFiellerThermometer(t *testing.T) {
	const source = "Graybill and Iyer, p. 431"
	temperature := []float64{96, 98, 100, 102, 104, 106, 108, 110}
	reading := []float64{95.71, 98.16, 99.52, 102.09, 103.79, 106.18, 108.14, 110.21}
	at95 := inverseRegression(t, temperature, reading, 104, 1, 0.05)
	require.Equal(t, SetInterval, at95.Set)
	near(t, at95.Value, 103.995, 5e-4, source)
	near(t, at95.Low, 103.4, 5e-2, source)
	near(t, at95.High, 104.6, 5e-2, source)
	near(t, at95.Value, 103.994916, 5e-7, source)
	near(t, at95.Low, 103.404051, 5e-7, source)
	near(t, at95.High, 104.589459, 5e-7, source)
	at90 := inverseRegression(t, temperature, reading, 100, 1, 0.10)
	near(t, at90.Value, 100.1, 5e-2, source)
	near(t, at90.Low, 99.63, 5e-3, source)
	near(t, at90.High, 100.59, 5e-3, source)
}

// Where the NIST Norris line crosses zero; data NIST StRD, interval recomputed from the closed form of the calibration problem.
func TestFiellerNorris(t *testing.T) {
	var x, y []float64
	for _, r := range readTable(t, "nist-norris.csv") {
		y, x = append(y, r[0]), append(x, r[1])
	}
	set := inverseRegression(t, x, y, 0, 0, 0.05)
	const source = "NIST StRD Norris, closed form of the calibration interval"
	near(t, set.Value, 0.261768957, 5e-10, source)
	near(t, set.Low, -0.210517181, 5e-9, source)
	near(t, set.High, 0.733418594, 5e-9, source)
}

func TestFiellerShapes(t *testing.T) {
	require.Equal(t, SetInterval, FiellerSet(1, 1, 0.01, 0, 0.01, 2).Set)
	outside := FiellerSet(1, 0.1, 0.01, 0, 0.01, 2) // numerator clear of zero, denominator not
	require.Equal(t, SetOutside, outside.Set)
	require.Less(t, outside.Low, outside.High)
	require.GreaterOrEqual(t, outside.G, 1.0)
	require.Equal(t, SetAll, FiellerSet(0.1, 0.1, 1, 0, 1, 2).Set)
	require.Equal(t, SetAll, FiellerSet(math.NaN(), 1, 1, 0, 1, 2).Set)
	require.Equal(t, SetAll, FiellerSet(1, 0, 0, 0, 0, 2).Set)
}
