package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

// pairFits draw stiffness and rudder power with correlated errors inside flights (stated by the fits) and between flights (not stated).
func pairFits(random *rand.Rand, flights int, inside, between float64) []identify.Fit {
	const sd, sdRudder = 0.01, 0.005
	var fits []identify.Fit
	draw := func(rho float64) (x, y float64) {
		x = random.NormFloat64()
		return x, rho*x + math.Sqrt(1-rho*rho)*random.NormFloat64()
	}
	for f := range flights {
		a, b := draw(inside)
		c, d := draw(between)
		fit := fitOf(string(rune('A'+f)), identify.DirectionalStiff, 0.12+sd*(a+c), sd, nil)
		fit.Derivatives = append(fit.Derivatives, identify.Derivative{Quantity: identify.RudderPower, Value: -0.06 + sdRudder*(b+d), SD: sdRudder, Determined: true})
		fit.Covariance = [][]float64{{sd * sd, inside * sd * sdRudder}, {inside * sd * sdRudder, sdRudder * sdRudder}}
		fits = append(fits, fit)
	}
	return fits
}

// The covariance of two pooled quantities agrees, on the average of 200 programs, with how their means really scatter together.
func TestCovarianceOfPooledDerivatives(t *testing.T) {
	for _, c := range []struct{ inside, between float64 }{{0.8, 0.8}, {0.8, 0}, {-0.6, 0.6}, {0, 0}} {
		random := rand.New(rand.NewPCG(3, 8))
		truly, stated := 0.0, 0.0
		const programmes = 200
		for range programmes {
			var configurations [][]identify.Fit
			for range 5 {
				configurations = append(configurations, pairFits(random, 4, c.inside, c.between))
			}
			pooled := PoolDerivatives(configurations)
			results := Derivatives(configurations[0], nil, 0, pooled)
			covariance := DerivativeCovariance(configurations[0], nil, results, pooled)
			require.InDelta(t, square(*results[0].SDOwn), covariance[0][0], 1e-15)
			require.InDelta(t, covariance[0][1], covariance[1][0], 0)
			truly += (*results[0].Value - 0.12) * (*results[1].Value + 0.06) / programmes
			stated += covariance[0][1] / programmes
		}
		unit := 0.01 * 0.005 * 2 / 4 // of fully correlated errors
		t.Logf("inside %.1f, between %.1f: correlation of the means %.2f, stated %.2f", c.inside, c.between, truly/unit, stated/unit)
		require.InDelta(t, truly/unit, stated/unit, 0.17)
	}
}

// A flight with one quantity alone ties nothing; all flights in one fit are tied as that fit says.
func TestCovarianceWhereFlightsDiffer(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	fits := pairFits(random, 4, 0.8, 0)
	for i := range fits {
		fits[i].Derivatives[i%2].Determined = false
	}
	results := Derivatives(fits, nil, 0, nil)
	require.Zero(t, DerivativeCovariance(fits, nil, results, nil)[0][1])
	joint := fits[:1]
	joint[0].Derivatives[0].Determined = true
	results = Derivatives(nil, joint, 0, nil)
	require.InDelta(t, 0.8*0.01*0.005, DerivativeCovariance(nil, joint, results, nil)[0][1], 1e-12)
	loan := DerivativeLoan(nil, joint, "idle", nil)
	require.Len(t, loan.Derivatives, 2)
	require.InDelta(t, 0.8*0.01*0.005, loan.Covariance[1][0], 1e-12)
}
