package leastsquares

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// integerPowers are rows 1, x, …, x^degree for x = 0 … 20.
func integerPowers(degree int) (rows [][]float64, sums []float64) {
	for x := range 21 {
		row, sum := []float64{1}, 1.0
		for k := range degree {
			row = append(row, row[k]*float64(x))
			sum += row[k+1]
		}
		rows, sums = append(rows, row), append(sums, sum)
	}
	return rows, sums
}

// Published sets of NIST/ITL Statistical Reference Datasets, linear least squares, with data and certified values from memory: lines
// without a constant, and degree 5 through integers, exact or buried in noise. The fractions, which do
// not come from memory, agree with every one.
func TestLinearRememberedSets(t *testing.T) {
	rows, sums := integerPowers(5)
	noise := []float64{759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 759}
	noisy := func(amplitude float64) (y []float64) {
		for i := range sums {
			y = append(y, sums[i]+amplitude*noise[i])
		}
		return y
	}
	var decimals []float64
	for x := range 21 {
		v, p := 0.0, 1.0
		for range 6 {
			v, p = v+p, p*0.1*float64(x)
		}
		decimals = append(decimals, math.Round(v*1e5)/1e5)
	}
	ones := []float64{1, 1, 1, 1, 1, 1}
	wampler := []float64{2152.32624678170, 2363.55173469681, 779.343524331583, 101.475507550350, 5.64566512170752, 0.112324854679312}
	times := func(k float64) (out []float64) {
		for _, v := range wampler {
			out = append(out, k*v)
		}
		return out
	}
	var line, response [][]float64
	for x := 60.0; x <= 70; x++ {
		line, response = append(line, []float64{x}), append(response, []float64{x + 70})
	}
	cases := []struct {
		name       string
		rows       [][]float64
		y          []float64
		want, sd   []float64
		residualSD float64
	}{
		{"Wampler1", rows, sums, ones, make([]float64, 6), 0},
		{"Wampler2", rows, decimals, []float64{1, 0.1, 0.01, 0.001, 0.0001, 0.00001}, make([]float64, 6), 0},
		{"Wampler3", rows, noisy(1), ones, wampler, 2360.14502379268},
		{"Wampler4", rows, noisy(100), ones, times(100), 236014.502379268},
		{"Wampler5", rows, noisy(10000), ones, times(10000), 23601450.2379268},
		{"NoInt1", line, column(response), []float64{2.07438016528926}, []float64{0.0165289256198347}, 3.56753034006338},
		{"NoInt2", [][]float64{{4}, {5}, {6}}, []float64{3, 4, 4}, []float64{0.727272727272727}, []float64{0.0420827318078432}, 0.369274472937998},
	}
	for _, c := range cases {
		fit, err := Linear(c.rows, c.y, nil)
		require.NoError(t, err, c.name)
		b, sd := 16.0, 16.0
		for j := range c.want {
			b = min(b, digits(fit.Coefficients[j], c.want[j]))
			sd = min(sd, digits(math.Sqrt(fit.Covariance[j][j]), c.sd[j]))
		}
		t.Logf("%-8s condition %7.1e: coefficients %.1f, standard deviations %.1f, residual SD %.1f digits", c.name, fit.Condition, b, sd, digits(fit.ResidualSD, c.residualSD))
		require.GreaterOrEqual(t, min(b, sd, digits(fit.ResidualSD, c.residualSD)), 12.0, c.name)
		exact := solveRationally(fractions(c.rows), c.y, nil)
		b, sd = leastDigits(fit, exact)
		require.GreaterOrEqual(t, b, 12.0, "%s against fractions", c.name)
		if c.residualSD > 0 {
			require.GreaterOrEqual(t, sd, 12.0, "%s against fractions", c.name)
		}
	}
}

func column(rows [][]float64) (out []float64) {
	for _, row := range rows {
		out = append(out, row[0])
	}
	return out
}

// A closed form: (−1)^x·C(20, x) on x = 0 … 20 is at right angles to every polynomial of a degree below 20, since it takes
// a 20th difference. However much of it is added, all coefficients stay 1 and the residual sum is A²·C(40, 20).
func TestLinearBuriedInNoiseAtRightAngles(t *testing.T) {
	for _, degree := range []int{3, 5, 8, 10} {
		for _, amplitude := range []float64{0, 1, 1e4, 1e8} {
			rows, y := integerPowers(degree)
			term := amplitude
			for x := range y {
				y[x] += term
				term = -term * float64(20-x) / float64(x+1)
			}
			fit, err := Linear(rows, y, nil)
			require.NoError(t, err)
			least := 16.0
			for _, b := range fit.Coefficients {
				least = min(least, digits(b, 1))
			}
			t.Logf("degree %2d, noise %.0e, condition %.1e: %.1f digits", degree, amplitude, fit.Condition, least)
			require.GreaterOrEqual(t, least, 11.0)
			require.GreaterOrEqual(t, digits(fit.ResidualSS, amplitude*amplitude*137846528820), 14.0)
		}
	}
}
