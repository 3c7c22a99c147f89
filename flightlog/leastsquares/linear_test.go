package leastsquares

import (
	"math"
	"testing"

	"wingproof/flightlog/statistic"

	"github.com/stretchr/testify/require"
)

// Certified values: NIST/ITL Statistical Reference Datasets, linear least squares. Nine digits are asked; the
// data are rounded to the last printed digit, so ill-conditioned Longley loses some of the fifteen.
func TestLinearAgainstCertifiedSets(t *testing.T) {
	cases := []struct {
		file       string
		polynomial int // degree in the only predictor; 0 takes the columns as they stand
		want, sd   []float64
		residualSS float64
		residualSD float64
	}{
		{"nist-norris.csv", 1, []float64{-0.262323073774029, 1.00211681802045}, []float64{0.232818234301152, 0.429796848199937e-03},
			26.6173985294224, 0.884796396144373},
		{"nist-pontius.csv", 2, []float64{0.673565789473684e-03, 0.732059160401003e-06, -0.316081871345029e-14},
			[]float64{0.107938612033077e-03, 0.157817399981659e-09, 0.486652849992036e-16}, 0.155761768796992e-05, 0},
		{"nist-longley.csv", 0, []float64{-3482258.63459582, 15.0618722713733, -0.358191792925910e-01, -2.02022980381683,
			-1.03322686717359, -0.511041056535807e-01, 1829.15146461355},
			[]float64{890420.383607373, 84.9149257747669, 0.334910077722432e-01, 0.488399681651699, 0.214274163161675,
				0.226073200069370, 455.478499142212}, 836424.055505915, 304.854073561965},
	}
	for _, c := range cases {
		t.Run(c.file, func(t *testing.T) {
			var rows [][]float64
			var y []float64
			for _, r := range readTable(t, c.file) {
				row := append([]float64{1}, r[1:]...)
				for k := 2; k <= c.polynomial; k++ {
					row = append(row, math.Pow(r[1], float64(k)))
				}
				rows, y = append(rows, row), append(y, r[0])
			}
			fit, err := Linear(rows, y, nil)
			require.NoError(t, err)
			least := 16.0
			for j := range c.want {
				atLeastDigits(t, fit.Coefficients[j], c.want[j], 9, "coefficient")
				atLeastDigits(t, math.Sqrt(fit.Covariance[j][j]), c.sd[j], 9, "standard deviation")
				least = math.Min(least, math.Min(digits(fit.Coefficients[j], c.want[j]), digits(math.Sqrt(fit.Covariance[j][j]), c.sd[j])))
			}
			atLeastDigits(t, fit.ResidualSS, c.residualSS, 9, "residual sum of squares")
			if c.residualSD != 0 {
				atLeastDigits(t, fit.ResidualSD, c.residualSD, 9, "residual standard deviation")
			}
			t.Logf("at least %.1f digits", least)
		})
	}
}

// Weighted line through five points; the exact fractions follow from the normal equations by hand.
func TestLinearWeighted(t *testing.T) {
	var rows [][]float64
	for x := 1.0; x <= 5; x++ {
		rows = append(rows, []float64{1, x})
	}
	fit, err := Linear(rows, []float64{2.1, 3.9, 6.2, 7.8, 10.1}, []float64{4, 1, 2, 1, 4})
	require.NoError(t, err)
	const source = "normal equations solved by hand"
	near(t, fit.Coefficients[0], 57.0/680, 1e-12, source)
	near(t, fit.Coefficients[1], 679.0/340, 1e-12, source)
	near(t, fit.ResidualSS, 0.142205882, 5e-10, source)
	near(t, fit.ResidualSD, 0.217719914, 5e-10, source)
	near(t, math.Sqrt(fit.Covariance[0][0]), 0.128443533, 5e-10, source)
	near(t, math.Sqrt(fit.Covariance[1][1]), 0.037338657, 5e-10, source)
	require.Equal(t, 3, fit.Degrees)
}

func TestLinearRefusesWhatIsNotDetermined(t *testing.T) {
	_, err := Linear(nil, nil, nil)
	require.ErrorIs(t, err, ErrUndetermined)
	_, err = Linear([][]float64{{1, 2}}, []float64{1}, nil)
	require.ErrorIs(t, err, ErrUndetermined)
	_, err = Linear([][]float64{{1, 2}, {2, 4}, {3, 6}}, []float64{1, 2, 3}, nil)
	require.ErrorIs(t, err, ErrUndetermined)
	_, err = Linear([][]float64{{1, 0}, {2, 0}, {3, 0}}, []float64{1, 2, 3}, nil)
	require.ErrorIs(t, err, ErrUndetermined)
	_, err = Linear([][]float64{{1}, {math.NaN()}}, []float64{1, 2}, nil)
	require.ErrorContains(t, err, "row 1")
	_, err = Linear([][]float64{{1}, {1}}, []float64{1, 2}, []float64{1, -1})
	require.ErrorContains(t, err, "weight of 0 or more")
}

// A row of weight 0 is no row, in the covariance by clusters too.
func TestClusterCovarianceLeavesAbsentRowsOut(t *testing.T) {
	rows := [][]float64{{1, 0}, {1, 1}, {1, 2}, {1, 3}, {1, 9}}
	y, cluster := []float64{1, 2, 4, 9, 77}, []string{"a", "b", "c", "d", "e"}
	short, err := Linear(rows[:4], y[:4], nil)
	require.NoError(t, err)
	want, err := ClusterCovariance(short, rows[:4], nil, cluster[:4])
	require.NoError(t, err)
	weight := []float64{1, 1, 1, 1, 0}
	long, err := Linear(rows, y, weight)
	require.NoError(t, err)
	require.Equal(t, short.Degrees, long.Degrees)
	got, err := ClusterCovariance(long, rows, weight, cluster)
	require.NoError(t, err)
	for j := range want {
		require.InDeltaSlice(t, want[j], got[j], 1e-12)
	}
}

// Two roads: with one row a cluster and no factor the sandwich is White's HC0, which the
// mean of a sample turns into Σr²/n². The factor G/(G−1)·(n−1)/(n−p) is n/(n−1) here.
func TestClusterCovarianceOfAMean(t *testing.T) {
	y := []float64{1, 2, 4, 9}
	rows := [][]float64{{1}, {1}, {1}, {1}}
	fit, err := Linear(rows, y, nil)
	require.NoError(t, err)
	v, err := ClusterCovariance(fit, rows, nil, []string{"a", "b", "c", "d"})
	require.NoError(t, err)
	near(t, v[0][0], fit.ResidualSS/4/3, 1e-14, "variance of a mean")
	v, err = ClusterCovariance(fit, rows, nil, []string{"a", "b", "b", "a"})
	require.NoError(t, err)
	// scores of the two clusters are (−3 + 5) and (−2 + 0); factor 2·3/3 = 2
	near(t, v[0][0], 2*(4.0+4.0)/16, 1e-14, "by hand")
	_, err = ClusterCovariance(fit, rows, nil, []string{"a", "a", "a", "a"})
	require.ErrorIs(t, err, ErrUndetermined)
}

// Student's t at 97.5 %, from any table of it.
func TestStudentQuantile(t *testing.T) {
	want := map[float64]float64{1: 12.706205, 2: 4.302653, 3: 3.182446, 4: 2.776445, 5: 2.570582, 6: 2.446912, 8: 2.306004, 10: 2.228139, 20: 2.085963, 30: 2.042272}
	for _, d := range []float64{1, 2, 3, 4, 5, 6, 8, 10, 20, 30} {
		near(t, statistic.StudentQuantile(d), want[d], 5e-7, "table of Student's t")
	}
	near(t, statistic.StudentQuantile(math.Inf(1)), statistic.Normal975, 0, "normal distribution")
	require.True(t, math.IsInf(statistic.StudentQuantile(0), 1))
}
