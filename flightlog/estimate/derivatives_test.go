package estimate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

func stiffnessFits(sd float64, values ...float64) []identify.Fit {
	var out []identify.Fit
	for i, v := range values {
		out = append(out, fitOf(string(rune('A'+i)), identify.DirectionalStiff, v, sd, map[string]float64{SourceAirspeedScale: -0.04 * v}))
	}
	return out
}

// Flights that are alike in sd: mean, standard error and Student's t as in any table, whatever the fits state as sd.
func TestLikeFlightsGiveStudentsInterval(t *testing.T) {
	for _, sd := range []float64{1e-4, 0.004, 1} {
		fits := stiffnessFits(sd, 0.11, 0.12, 0.13, 0.16)
		for i := range fits {
			fits[i].Derivatives[0].Common = nil
		}
		r := Derivatives(fits, nil, 0.25, nil)[0]
		require.InDelta(t, 0.13, *r.Value, 1e-12)
		require.InDelta(t, math.Sqrt(0.0014/3/4), *r.SDOwn, 1e-9, "√(Σr²/3/4) by hand")
		require.InDelta(t, 3, r.Degrees, 1e-6)
		require.InDelta(t, 0.13+3.182446305*math.Sqrt(0.0014/3/4), *r.High, 1e-6, "t of 3 degrees, 97.5 % (any table)")
		require.Equal(t, []string{"A", "B", "C", "D"}, r.Flights)
		require.Equal(t, 12, r.Points)
		require.Equal(t, Determined, r.State)
		require.InDelta(t, 0.58/0.25, r.CG, 1e-12, "moment point in full-size metres")
		require.InDelta(t, 0.5, r.Lift, 1e-12)
		require.Equal(t, "output error, mean of flights", r.Method)
	}
}

// What flights share is averaged, not divided by their number, and keeps its sign.
func TestSharedErrorsKeepTheirSign(t *testing.T) {
	r := Derivatives(stiffnessFits(0.01, 0.11, 0.12, 0.13), nil, 0, nil)[0]
	require.InDelta(t, -0.04*0.12, r.Common[SourceAirspeedScale], 1e-12)
	require.InDelta(t, math.Hypot(*r.SDOwn, 0.0048), *r.SD, 1e-12)
	require.False(t, r.HasCG)
}

// Two flights are 12.7 standard errors wide; with five like configurations in the pool it is 2.45 of six degrees.
func TestPooledScatterNarrows(t *testing.T) {
	configurations := [][]identify.Fit{stiffnessFits(0.01, 0.11, 0.13), stiffnessFits(0.01, 0.21, 0.23), stiffnessFits(0.01, 0.3, 0.31),
		stiffnessFits(0.01, 0.4, 0.42), stiffnessFits(0.01, 0.14, 0.13), stiffnessFits(0.01, 0.1, 0.1)}
	pooled := PoolDerivatives(configurations)
	_, _, degrees := pooled.Between(identify.DirectionalStiff)
	require.InDelta(t, 6, degrees, 1e-12)
	alone, together := Derivatives(configurations[0], nil, 0, nil)[0], Derivatives(configurations[0], nil, 0, pooled)[0]
	require.InDelta(t, 1, alone.Degrees, 1e-6)
	require.Equal(t, Weak, alone.State)
	require.Equal(t, Determined, together.State)
	require.InDelta(t, 6, together.Degrees, 1e-6)
	scatter := (4*0.01*0.01*2 - 2*0.01*0.01 + 2*0.005*0.005*2) / 6
	require.InDelta(t, math.Sqrt(scatter/2), *together.SDOwn, 1e-9, "Σr² of six pairs by hand")
}

// Five times the scatter of twenty other flights is not chance: the configuration is judged by itself.
func TestConfigurationThatScattersMore(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	var configurations [][]identify.Fit
	for range 5 {
		var values []float64
		for range 5 {
			values = append(values, 0.12+0.002*random.NormFloat64())
		}
		configurations = append(configurations, stiffnessFits(0.002, values...))
	}
	configurations = append(configurations, stiffnessFits(0.002, 0.1, 0.13, 0.115, 0.145))
	r := Derivatives(configurations[5], nil, 0, PoolDerivatives(configurations))[0]
	require.InDelta(t, 3, r.Degrees, 0.2, "one of the four counts a little less")
	require.Contains(t, strings.Join(r.Warnings, "\n"), "their own scatter is used")
}

// A flight that lies far off is played down and named, never dropped; the mean stays with the others.
func TestWildFlight(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 6))
	var configurations [][]identify.Fit
	for range 4 {
		var values []float64
		for range 4 {
			values = append(values, 0.12+0.003*random.NormFloat64())
		}
		configurations = append(configurations, stiffnessFits(0.003, values...))
	}
	before := Derivatives(configurations[0], nil, 0, PoolDerivatives(configurations))[0]
	configurations[0][2].Derivatives[0].Value = 0.30
	after := Derivatives(configurations[0], nil, 0, PoolDerivatives(configurations))[0]
	require.InDelta(t, *before.Value, *after.Value, 0.003, "one standard deviation of one flight")
	require.Contains(t, after.Warnings[0], "flight C lies")
	require.Contains(t, after.Flights, "C")
	alone := Derivatives(stiffnessFits(0.003, 0.12, 0.121, 0.119, 0.1205, 0.1195, 0.3), nil, 0, nil)[0]
	require.InDelta(t, 0.12, *alone.Value, 0.003)
	require.Contains(t, alone.Warnings[0], "flight F lies")
	two := Derivatives(stiffnessFits(0.003, 0.12, 0.3), nil, 0, nil)[0]
	require.InDelta(t, 0.21, *two.Value, 1e-9, "two flights cannot tell which of them is off")
}

func TestFlightsThatDoNotDetermine(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12, 0.13)
	for _, i := range []int{0, 2} {
		fits[i].Derivatives[0].Determined = false
		fits[i].Derivatives[0].Why = "the rudder moved less than one degree"
	}
	r := Derivatives(fits, nil, 0, nil)[0]
	require.Equal(t, "left out of directional stiffness: flights A and C: the rudder moved less than one degree", r.Warnings[0])
	require.Equal(t, []string{"B"}, r.Flights)
	require.Equal(t, Weak, r.State)
	require.Contains(t, r.Warnings[1], "one flight: what directional stiffness differs by from day to day is not in its interval")
	require.InDelta(t, 0.12+4.30265273*0.01, *r.High, 2e-3, "t of three manoeuvres less one, with the shared error")
	fits[1].Segments = 1
	r = Derivatives(fits, nil, 0, nil)[0]
	require.Equal(t, NotDetermined, r.State)
	require.InDelta(t, 0.12, *r.Value, 0)
	require.Contains(t, r.Warnings[1], "one manoeuvre in one flight")
	fits[1].Derivatives[0].Value = math.NaN()
	r = Derivatives(fits, nil, 0, nil)[0]
	require.Equal(t, NotDetermined, r.State)
	require.Nil(t, r.Value)
	require.Contains(t, r.Warnings[2], "no flight determines directional stiffness; fly rudder doublets")
}

// Where the bench owes the figure, more flights of the same kind would change nothing.
func TestWhatTheBenchOwesIsNotAskedOfFlights(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12)
	for i := range fits {
		fits[i].Derivatives[0].Determined = false
		fits[i].Derivatives[0].Why = "the moment of inertia in yaw was not measured: " + identify.SwingModel
	}
	r := Derivatives(fits, nil, 0, nil)[0]
	require.Equal(t, "no flight determines directional stiffness: the moment of inertia in yaw was not measured: swing the model; until then more flights do not help", r.Warnings[1])
	fits[1].Derivatives[0].Why = "the rudder moved less than one degree"
	r = Derivatives(fits, nil, 0, nil)[0]
	require.Contains(t, r.Warnings[2], "fly rudder doublets")
}

// Together the flights say what none of them says alone.
func TestJointFitStandsIn(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12, 0.13)
	for i := range fits {
		fits[i].Derivatives[0].Determined = false
	}
	all := stiffnessFits(0.006, 0.125)[0]
	all.Flights, all.Segments = []string{"A", "B", "C"}, 9
	r := Derivatives(fits, []identify.Fit{all}, 0, nil)[0]
	require.Equal(t, Weak, r.State)
	require.InDelta(t, 0.125, *r.Value, 0)
	require.InDelta(t, 0.006, *r.SDOwn, 1e-12)
	require.InDelta(t, 2, r.Degrees, 0, "flights less one")
	require.Equal(t, "output error, all flights in one fit", r.Method)
	require.Contains(t, r.Warnings[1], "no flight alone determines it, all in one fit do; what flights differ by is not in the interval")
}

func TestOtherPowerStandsApart(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12, 0.13, 0.2, 0.21)
	fits[3].Power, fits[4].Power = "full", "full"
	out := Derivatives(fits, nil, 0, nil)
	require.Len(t, out, 2)
	require.Equal(t, "full", out[0].Power)
	require.InDelta(t, 0.205, *out[0].Value, 1e-12)
	require.InDelta(t, 0.12, *out[1].Value, 1e-12)
}

func TestMomentPointsMustAgree(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12, 0.13)
	fits[1].MomentX += 0.02
	r := Derivatives(fits, nil, 0, nil)[0]
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, r.Warnings[0], "20 mm apart")
}

func TestCollinearInputIsSaid(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.12, 0.13, 0.12, 0.12)
	fits[1].Correlations = []identify.Pair{{One: identify.DirectionalStiff, Other: identify.YawDueToRoll, Correlation: -0.97}, {One: identify.RudderPower, Other: identify.DirectionalStiff, Correlation: 0.9}}
	r := Derivatives(fits, nil, 0, nil)[0]
	require.Len(t, r.Warnings, 1)
	require.Contains(t, r.Warnings[0], "the input of flight B hardly tells directional stiffness from yaw due to roll")
}

// Two fits of one flight are not two flights.
func TestOneFlightCountsOnce(t *testing.T) {
	fits := stiffnessFits(0.01, 0.11, 0.13, 0.14)
	fits[1].Flights = []string{"A"}
	r := Derivatives(fits, nil, 0, nil)[0]
	require.InDelta(t, 0.13, *r.Value, 0.001, "(0.12 + 0.14)/2, the first known a little better")
	require.Equal(t, []string{"A", "C"}, r.Flights)
	require.Equal(t, 9, r.Points)
	require.Less(t, r.Degrees, 1.01)
}
