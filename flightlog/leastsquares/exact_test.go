package leastsquares

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// rational is the second road: the normal equations of the very same float64 numbers, solved in fractions.
type rational struct {
	coefficients, unscaled []float64 // unscaled: the diagonal of (XᵀWX)⁻¹
	residualSS             float64
}

func exactly(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }

func nearest(v *big.Rat) float64 { f, _ := v.Float64(); return f }

func solveRationally(rows [][]*big.Rat, response, weight []float64) rational {
	p := len(rows[0])
	table := make([][]*big.Rat, p) // [XᵀWX, XᵀWy, I]
	squares := new(big.Rat)
	for i := range table {
		table[i] = make([]*big.Rat, 2*p+1)
		for j := range table[i] {
			table[i][j] = new(big.Rat)
		}
		table[i][p+1+i].SetInt64(1)
	}
	moment := make([]*big.Rat, p)
	for i, row := range rows {
		w, y := exactly(weightAt(weight, i)), exactly(response[i])
		squares.Add(squares, times(w, times(y, y)))
		for a := range p {
			wx := times(w, row[a])
			for b := range p {
				table[a][b].Add(table[a][b], times(wx, row[b]))
			}
			table[a][p].Add(table[a][p], times(wx, y))
		}
	}
	for a := range moment {
		moment[a] = new(big.Rat).Set(table[a][p])
	}
	eliminate(table)
	var out rational
	for a := range p {
		out.coefficients = append(out.coefficients, nearest(table[a][p]))
		out.unscaled = append(out.unscaled, nearest(table[a][p+1+a]))
		squares.Sub(squares, times(moment[a], table[a][p]))
	}
	out.residualSS = nearest(squares)
	return out
}

func times(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

// eliminate is Gauss and Jordan's; the matrix is positive definite, so pivots stand on the diagonal.
func eliminate(table [][]*big.Rat) {
	for k := range table {
		inverse := new(big.Rat).Inv(table[k][k])
		for j := range table[k] {
			table[k][j] = times(table[k][j], inverse)
		}
		for i := range table {
			if i == k || table[i][k].Sign() == 0 {
				continue
			}
			factor := table[i][k]
			for j := range table[i] {
				table[i][j] = new(big.Rat).Sub(table[i][j], times(factor, table[k][j]))
			}
		}
	}
}

func fractions(rows [][]float64) [][]*big.Rat {
	out := make([][]*big.Rat, len(rows))
	for i, row := range rows {
		for _, v := range row {
			out[i] = append(out[i], exactly(v))
		}
	}
	return out
}

// leastDigits counts the digits in which a fit agrees with the fractions, over coefficients and over standard deviations.
func leastDigits(fit Fit, want rational) (coefficients, deviations float64) {
	coefficients, deviations = 16, 16
	sd := math.Sqrt(want.residualSS / float64(max(1, fit.Degrees)))
	for j := range want.coefficients {
		coefficients = min(coefficients, digits(fit.Coefficients[j], want.coefficients[j]))
		deviations = min(deviations, digits(math.Sqrt(fit.Covariance[j][j]), sd*math.Sqrt(want.unscaled[j])))
	}
	return coefficients, deviations
}

// Polynomials of degree 1 to 10 through decimal abscissae of one sign, where powers look alike, with values that no
// polynomial fits. The fractions take the exact powers of the abscissae, Linear gets them rounded.
func TestLinearPolynomialsAgainstFractions(t *testing.T) {
	for degree := 1; degree <= 10; degree++ {
		t.Run(fmt.Sprintf("degree=%d", degree), func(t *testing.T) {
			random := rand.New(rand.NewPCG(uint64(degree), 5))
			var rows [][]float64
			var powers [][]*big.Rat
			var y []float64
			for i := range 40 {
				x := -3 - 6*float64(i)/39
				row, exact := []float64{1}, []*big.Rat{exactly(1)}
				for k := range degree {
					row, exact = append(row, math.Pow(x, float64(k+1))), append(exact, times(exact[k], exactly(x)))
				}
				rows, powers = append(rows, row), append(powers, exact)
				y = append(y, 0.8+0.1*math.Sin(x)+0.003*random.NormFloat64())
			}
			fit, err := Linear(rows, y, nil)
			require.NoError(t, err)
			want := solveRationally(powers, y, nil)
			b, sd := leastDigits(fit, want)
			t.Logf("condition %.1e: coefficients %.1f, standard deviations %.1f digits", fit.Condition, b, sd)
			require.GreaterOrEqual(t, min(b, sd), 12.0)
		})
	}
}

// Designs of a chosen condition: two columns that differ by less and less. noise is the scatter over the response.
func TestLinearConditionsAgainstFractions(t *testing.T) {
	for _, weighted := range []bool{false, true} {
		for _, noise := range []float64{1e-6, 1, 1e6} {
			for exponent := 0; exponent <= 14; exponent++ {
				rows, y, w := nearlyCollinear(math.Pow(10, -float64(exponent)), noise, uint64(exponent))
				if !weighted {
					w = nil
				}
				fit, err := Linear(rows, y, w)
				require.NoError(t, err)
				want := solveRationally(fractions(rows), y, w)
				b, sd := leastDigits(fit, want)
				t.Logf("weights %-5v noise %5.0e condition %.1e: coefficients %.1f, standard deviations %.1f, SS %.1f digits", weighted, noise, fit.Condition, b, sd, digits(fit.ResidualSS, want.residualSS))
				require.GreaterOrEqual(t, min(b, sd, digits(fit.ResidualSS, want.residualSS)), 12.0)
			}
		}
	}
}

func nearlyCollinear(apart, noise float64, seed uint64) (rows [][]float64, y, w []float64) {
	random := rand.New(rand.NewPCG(seed, 6))
	for range 25 {
		common := 1 + random.Float64()
		row := []float64{common, common + apart*random.NormFloat64(), random.NormFloat64(), 1}
		rows = append(rows, row)
		y = append(y, row[0]-2*row[1]+3*row[2]+noise*random.NormFloat64())
		w = append(w, 0.1+random.Float64())
	}
	return rows, y, w
}

// A column that was computed from the others, and so differs from a combination of them by rounding only, is
// refused whatever the combination; one that differs by a thousand times as much is not.
func TestLinearRefusesColumnsThatOnlyRoundingTellsApart(t *testing.T) {
	for seed := range uint64(200) {
		random := rand.New(rand.NewPCG(seed, 7))
		a, b := random.NormFloat64(), random.NormFloat64()
		var rows, apart [][]float64
		var y []float64
		for range 30 {
			x, z := random.NormFloat64(), random.NormFloat64()
			combined := a*x + b*z + 0.3
			rows = append(rows, []float64{x, 1, combined, z})
			apart = append(apart, []float64{x, 1, combined + 1e-12*random.NormFloat64(), z})
			y = append(y, random.NormFloat64())
		}
		_, err := Linear(rows, y, nil)
		require.ErrorIs(t, err, ErrUndetermined, "seed %d", seed)
		require.ErrorContains(t, err, "follows from the others")
		_, err = Linear(apart, y, nil)
		require.NoError(t, err, "seed %d", seed)
	}
}
