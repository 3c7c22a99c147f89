package estimate

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog/identify"
)

// The order of flights changes nothing, the unit of the quantity nothing but the unit.
func TestDerivativesAreInvariant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		w := derivativeTrial{configurations: rapid.IntRange(1, 3).Draw(t, "configurations"), flights: rapid.IntRange(1, 6).Draw(t, "flights"), between: 1, factor: 1, spread: 0.5}
		_, programme := w.fly(random)
		scale := math.Exp(rapid.Float64Range(-8, 8).Draw(t, "scale"))
		var shuffled, scaled [][]identify.Fit
		for _, fits := range programme {
			shuffled = append(shuffled, rapid.Permutation(fits).Draw(t, "order"))
			var other []identify.Fit
			for _, f := range fits {
				d := f.Derivatives[0]
				other = append(other, fitOf(f.Flights[0], d.Quantity, scale*d.Value, scale*d.SD, map[string]float64{SourceAirspeedScale: scale * d.Common[SourceAirspeedScale]}))
			}
			scaled = append(scaled, other)
		}
		first := Derivatives(programme[0], nil, 0.2, PoolDerivatives(programme))
		require.Equal(t, text(t, first), text(t, Derivatives(shuffled[0], nil, 0.2, PoolDerivatives(shuffled))))
		other := Derivatives(scaled[0], nil, 0.2, PoolDerivatives(scaled))
		require.InEpsilon(t, *first[0].Value*scale, *other[0].Value, 1e-6)
		require.Equal(t, first[0].State, other[0].State)
		if first[0].SD != nil {
			require.InEpsilon(t, *first[0].SD*scale, *other[0].SD, 1e-6)
			require.InEpsilon(t, first[0].Degrees, other[0].Degrees, 1e-6)
		}
	})
}

func text(t require.TestingT, v any) string {
	out, err := json.Marshal(v)
	require.NoError(t, err, "every number is finite or nil")
	return string(out)
}

// Any numbers at all: no panic, and every number in a result is finite.
func TestDerivativesStandAnything(t *testing.T) {
	number := rapid.OneOf(rapid.Float64Range(-2, 2), rapid.SampledFrom([]float64{0, 1e-300, 1e300, math.NaN(), math.Inf(1), -1, 0.5, 0.5}))
	names := rapid.SampledFrom([]string{identify.PitchStiffness, identify.LiftCurveSlope, identify.RudderPower})
	fit := rapid.Custom(func(t *rapid.T) identify.Fit {
		f := identify.Fit{Axis: rapid.SampledFrom([]identify.Axis{identify.Longitudinal, identify.Lateral}).Draw(t, "axis"), Power: rapid.SampledFrom([]string{"idle", "full"}).Draw(t, "power"),
			Segments: rapid.IntRange(0, 3).Draw(t, "segments"), Flights: rapid.SliceOfN(rapid.SampledFrom([]string{"A", "B", "C", "D"}), 0, 2).Draw(t, "flights"), LiftCoefficient: number.Draw(t, "lift")}
		for range rapid.IntRange(0, 3).Draw(t, "derivatives") {
			f.Derivatives = append(f.Derivatives, identify.Derivative{Quantity: names.Draw(t, "name"), Value: number.Draw(t, "value"), SD: number.Draw(t, "sd"),
				Determined: rapid.Bool().Draw(t, "determined"), Common: map[string]float64{SourceMass: number.Draw(t, "mass")}})
			f.Covariance = append(f.Covariance, []float64{number.Draw(t, "covariance")})
		}
		return f
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.SliceOfN(fit, 0, 6).Draw(t, "a"), rapid.SliceOfN(fit, 0, 6).Draw(t, "b")
		pooled := PoolDerivatives([][]identify.Fit{a, b})
		results := Derivatives(a, b, number.Draw(t, "ratio"), pooled)
		covariance := DerivativeCovariance(a, b, results, pooled)
		margins := MarginFromDerivatives(a, 0.25, number.Draw(t, "chord"), pooled)
		text(t, []any{results, covariance, margins})
		var flown []Flown
		var roads []Road
		for i, r := range results {
			flown = append(flown, Flown{map[string]string{"x": string(rune('a' + i%2)), "y": string(rune('a' + i%3))}, r})
			roads = append(roads, Road{r.Quantity, r, map[string]float64{r.Quantity: 1}})
			text(t, Difference(r, results[0]))
		}
		text(t, Roads("q", roads, DerivativeLoan(a, b, "idle", pooled)).Pooled)
		o := OverConfigurations(flown, map[string]bool{"x": false}, nil)
		text(t, []any{o.Configurations, o.Effects, o.Differences})
	})
}
