package estimate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog/identify"
)

// roadOf is a road with Student's interval.
func roadOf(name string, value, own, degrees float64, common map[string]float64, borrowed map[string]float64) Road {
	r := fillStudent(Result{Quantity: identify.DirectionalStiff, Unit: perRadian, Power: "idle", Degrees: degrees, Flights: []string{name}, Points: 1}, value, own, common)
	return Road{Name: name, Result: r, Borrowed: borrowed}
}

// Independent roads: weights go with one over the variance, and the variance is one over their sum.
func TestIndependentRoads(t *testing.T) {
	a := Roads(identify.DirectionalStiff, []Road{roadOf("manoeuvres", 0.12, 0.01, math.Inf(1), nil, nil), roadOf("sideslips", 0.13, 0.02, math.Inf(1), nil, nil)}, Loan{})
	require.True(t, a.Agree)
	require.Empty(t, a.Words)
	require.InDeltaSlice(t, []float64{0.8, 0.2}, a.Weights, 1e-9)
	require.InDelta(t, 0.122, *a.Pooled.Value, 1e-12)
	require.InDelta(t, 1/math.Sqrt(1/1e-4+1/4e-4), *a.Pooled.SD, 1e-9)
	require.InDelta(t, square(0.01)/(1e-4+4e-4), a.ChiSquare, 1e-9)
	require.InDelta(t, 3.841458820694124, a.Limit, 1e-6, "95 %% of χ² with one degree of freedom")
	require.Equal(t, []string{"manoeuvres", "sideslips"}, a.Pooled.Flights)
	require.Len(t, a.Roads, 2)
}

// A shared source adds in full whatever the weights are: 0.03 on both roads stays 0.03.
func TestSharedSourceIsNotAveragedAway(t *testing.T) {
	common := map[string]float64{SourceAirspeedScale: 0.03}
	a := Roads(identify.DirectionalStiff, []Road{roadOf("a", 0.12, 0.01, math.Inf(1), common, nil), roadOf("b", 0.12, 0.01, math.Inf(1), common, nil)}, Loan{})
	require.InDelta(t, 0.03, a.Pooled.Common[SourceAirspeedScale], 1e-12)
	require.InDelta(t, 0.01/math.Sqrt2, *a.Pooled.SDOwn, 1e-6)
}

// R. W. Peelle's puzzle (informal memorandum, Oak Ridge National Laboratory 1987, from memory): two measurements of one quantity, 1.5 and 1.0, each
// with 10 % of its own, and a normalisation that is known to 20 %. Least squares with each road's own number gives 0.88, below both.
// Taken relative to the same number, the normalisation moves nothing: the answer is the mean weighted by what each has of its own.
func TestPeellesPuzzle(t *testing.T) {
	first := roadOf("first", 1.5, 0.15, math.Inf(1), map[string]float64{SourceMass: 0.3}, nil)
	second := roadOf("second", 1.0, 0.10, math.Inf(1), map[string]float64{SourceMass: 0.2}, nil)
	j := jointErrors([]Road{first, second}, Loan{})
	naive := bestWeights(total(j.parts), []int{0, 1})
	require.InDelta(t, 0.88, naive[0]*1.5+naive[1]*1.0, 0.005, "the puzzle as published")
	a := Roads(identify.DirectionalStiff, []Road{first, second}, Loan{})
	own := 1 / square(0.15) / (1/square(0.15) + 1/square(0.10))
	require.InDelta(t, own, a.Weights[0], 1e-6)
	require.InDelta(t, 1.154, *a.Pooled.Value, 5e-4)
}

// A road whose error is twice the other's, and nearly the same error: least squares would extrapolate away from it. Bound weights use the better
// road alone. The price is small when the covariance is right; when the shared error is really 20 % larger on the worse
// road, extrapolating costs more than it promised.
func TestWeightsAreBound(t *testing.T) {
	good := roadOf("good", 1.0, math.Hypot(0.02, 0.1), math.Inf(1), nil, map[string]float64{"shared": 0.1})
	poor := roadOf("poor", 1.1, math.Hypot(0.04, 0.2), math.Inf(1), nil, map[string]float64{"shared": 0.2})
	j := jointErrors([]Road{good, poor}, Loan{})
	free := bestWeights(j.forWeights(), []int{0, 1})
	require.Greater(t, free[0], 1.5, "the free weights extrapolate")
	a := Roads(identify.DirectionalStiff, []Road{good, poor}, Loan{})
	require.Equal(t, []float64{1, 0}, a.Weights)
	require.InDelta(t, *good.Result.SD, *a.Pooled.SD, 1e-12)
	truly := func(w []float64, sharedOfPoor float64) float64 {
		return math.Sqrt(square(w[0]*0.02) + square(w[1]*0.04) + square(w[0]*0.1+w[1]*sharedOfPoor))
	}
	claimed := truly(free, 0.2)
	require.Less(t, claimed, 0.06, "what extrapolation promises")
	require.Greater(t, truly(free, 0.1), 2*claimed, "what it gives when the shared error of the poor road is half of what was said")
}

// With two roads on few degrees of freedom the test is Satterthwaite's t, squared.
func TestTwoRoadsAreComparedByStudent(t *testing.T) {
	a := Roads(identify.DirectionalStiff, []Road{roadOf("a", 0.12, 0.01, 4, nil, nil), roadOf("b", 0.12, 0.01, 4, nil, nil)}, Loan{})
	require.InDelta(t, square(2.306004135), a.Limit, 1e-6, "t of 8 degrees, 97.5 %% (any table)")
}

// Roads that contradict one another are pooled with a wider interval and printed apart.
func TestDisagreement(t *testing.T) {
	a := Roads(identify.DirectionalStiff, []Road{roadOf("manoeuvres", 0.12, 0.01, math.Inf(1), nil, nil), roadOf("sideslips", 0.20, 0.01, math.Inf(1), nil, nil)}, Loan{})
	require.False(t, a.Agree)
	require.InDelta(t, 32, a.ChiSquare, 1e-6)
	require.InDelta(t, math.Sqrt(32)*0.01/math.Sqrt2, *a.Pooled.SD, 1e-9)
	require.Equal(t, Weak, a.Pooled.State)
	require.Contains(t, a.Words, "manoeuvres 0.12 1/rad (95 % from 0.1004 to 0.1396); sideslips 0.2 1/rad")
	require.Contains(t, a.Words, "multiplied by 5.7")
	require.Contains(t, a.Pooled.Warnings, a.Words)
}

func TestOneRoadNoRoadOtherPower(t *testing.T) {
	one := roadOf("manoeuvres", 0.12, 0.01, 30, nil, nil)
	none := Road{Name: "sideslips", Result: undetermined(Result{}, "fly sideslips to both sides")}
	a := Roads(identify.DirectionalStiff, []Road{none, one}, Loan{})
	require.Equal(t, *one.Result.Low, *a.Pooled.Low)
	require.Equal(t, []float64{0, 1}, a.Weights)
	a = Roads(identify.DirectionalStiff, []Road{none}, Loan{})
	require.Equal(t, NotDetermined, a.Pooled.State)
	require.Contains(t, a.Pooled.Warnings[0], "sideslips: fly sideslips to both sides")
	require.Equal(t, NotDetermined, Roads(identify.DirectionalStiff, nil, Loan{}).Pooled.State)
	level := one
	level.Result.Power = "level"
	a = Roads(identify.DirectionalStiff, []Road{one, level}, Loan{})
	require.Equal(t, NotDetermined, a.Pooled.State)
	require.Contains(t, a.Pooled.Warnings[0], "idle and level")
}

// Nothing depends on the order of roads or on the unit of the quantity.
func TestRoadsAreInvariant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := math.Exp(rapid.Float64Range(-10, 10).Draw(t, "scale"))
		var roads, scaledRoads []Road
		for range rapid.IntRange(2, 5).Draw(t, "roads") {
			own, share, borrow := rapid.Float64Range(0.001, 0.1).Draw(t, "own"), rapid.Float64Range(-0.1, 0.1).Draw(t, "shared"), rapid.Float64Range(-0.1, 0.1).Draw(t, "borrowed")
			value, degrees := rapid.Float64Range(0.7, 1.3).Draw(t, "value"), rapid.Float64Range(1, 30).Draw(t, "degrees")
			make1 := func(s float64) Road {
				return roadOf("r", s*value, s*math.Hypot(own, borrow), degrees, map[string]float64{SourceMass: s * share}, map[string]float64{"b": s * borrow})
			}
			roads, scaledRoads = append(roads, make1(1)), append(scaledRoads, make1(scale))
		}
		a, b := Roads("x", roads, Loan{}), Roads("x", scaledRoads, Loan{})
		require.InEpsilon(t, *a.Pooled.Value*scale, *b.Pooled.Value, 1e-6)
		require.InEpsilon(t, *a.Pooled.SD*scale, *b.Pooled.SD, 1e-5)
		require.InDelta(t, a.ChiSquare, b.ChiSquare, 1e-5*(1+a.ChiSquare))
		low, high := math.Inf(1), math.Inf(-1)
		for _, r := range roads {
			low, high = math.Min(low, *r.Result.Value), math.Max(high, *r.Result.Value)
		}
		require.GreaterOrEqual(t, *a.Pooled.Value, low-1e-12, "between the roads")
		require.LessOrEqual(t, *a.Pooled.Value, high+1e-12)
		c := Roads("x", rapid.Permutation(roads).Draw(t, "order"), Loan{})
		require.InEpsilon(t, *a.Pooled.Value, *c.Pooled.Value, 1e-9)
		require.InEpsilon(t, *a.Pooled.SD, *c.Pooled.SD, 1e-7)
		require.Equal(t, a.Agree, c.Agree)
	})
}

// What one day was off by, all roads of that day share: two weak roads of one flight stay weak together, and two flights need not.
func TestWeakRoadsOfOneFlightStayWeak(t *testing.T) {
	weak := func(name, flight string) Road {
		r := roadOf(name, 0.12, 0.01, math.Inf(1), nil, nil)
		r.Result = weaken(r.Result, "one flight")
		r.Result.Flights = []string{flight}
		return r
	}
	a := Roads(identify.DirectionalStiff, []Road{weak("manoeuvres", "F01"), weak("free response", "F01")}, Loan{})
	require.Equal(t, Weak, a.Pooled.State)
	require.Contains(t, a.Pooled.Warnings[0], "all roads stand on one flight")
	require.Equal(t, Determined, Roads(identify.DirectionalStiff, []Road{weak("manoeuvres", "F01"), weak("free response", "F02")}, Loan{}).Pooled.State)
	sure := weak("sideslips", "F01")
	sure.Result.State = Determined
	require.Equal(t, Determined, Roads(identify.DirectionalStiff, []Road{weak("manoeuvres", "F01"), sure}, Loan{}).Pooled.State)
}
