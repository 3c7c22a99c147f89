package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

// pitchFit is one flight's stiffness and lift slope with correlated errors; a CG reported one standard deviation aft makes Cm_α about
// the reported point larger by CL_α·sd/c, and airspeed scales both alike.
func pitchFit(flight string, stiffness, slope, sdM, sdL, rho float64) identify.Fit {
	const airspeed, cg = 0.02, 0.01 // relative, of the chord
	return identify.Fit{Axis: identify.Longitudinal, Method: "output error", Flights: []string{flight}, Segments: 4, Power: "idle", MomentX: 0.58, LiftCoefficient: 0.5,
		Derivatives: []identify.Derivative{
			{Quantity: identify.LiftCurveSlope, Value: slope, SD: sdL, Determined: true, Common: map[string]float64{SourceAirspeedScale: -2 * airspeed * slope}},
			{Quantity: identify.PitchStiffness, Value: stiffness, SD: sdM, Determined: true, Common: map[string]float64{SourceAirspeedScale: -2 * airspeed * stiffness, SourceCG: -slope * cg}},
		},
		Covariance: [][]float64{{sdL * sdL, rho * sdL * sdM}, {rho * sdL * sdM, sdM * sdM}}}
}

// Worked by hand: −(−0.6)/5 = 0.12 chords of 0.9 m aft of 0.58 m/0.25. Airspeed cancels in a ratio, the CG does not.
func TestMarginOfOneFlight(t *testing.T) {
	r := MarginFromDerivatives([]identify.Fit{pitchFit("A", -0.6, 5, 0.03, 0.1, 0.5)}, 0.25, 0.9, nil)[0]
	require.Equal(t, "neutral_point", r.Quantity)
	require.InDelta(t, 2.32+0.9*0.12, *r.Value, 1e-12)
	variance := square(0.03/5) + square(0.6*0.1/25) + 2*(-1.0/5)*(-0.6/25)*0.5*0.03*0.1
	require.InDelta(t, 0.9*math.Sqrt(variance), *r.SDOwn, 1e-12)
	require.NotContains(t, r.Common, SourceAirspeedScale)
	require.InDelta(t, 0.9*0.01, r.Common[SourceCG], 1e-12, "a CG reported 9 mm aft puts the neutral point 9 mm aft")
	require.Equal(t, Weak, r.State)
	margin := StaticMargin(r, 2.32, 0.9)
	require.InDelta(t, 12, *margin.Value, 1e-9)
}

func TestMarginSaysWhatIsMissing(t *testing.T) {
	fit := pitchFit("A", -0.6, 5, 0.03, 0.1, 0)
	fit.Derivatives[1].Determined, fit.Derivatives[1].Why = false, "the aircraft hardly pitched"
	r := MarginFromDerivatives([]identify.Fit{fit}, 0.25, 0.9, nil)[0]
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, r.Warnings[0], "the aircraft hardly pitched")
	require.Contains(t, r.Warnings[1], "fly elevator doublets")
	vague := pitchFit("A", -0.6, 5, 0.03, 2, 0)
	require.Contains(t, MarginFromDerivatives([]identify.Fit{vague}, 0.25, 0.9, nil)[0].Warnings[0], "not known well enough to divide by")
	require.Equal(t, NotDetermined, MarginFromDerivatives([]identify.Fit{pitchFit("A", -0.6, 5, 0.03, 0.1, 0)}, 0, 0.9, nil)[0].State)
	require.Empty(t, MarginFromDerivatives([]identify.Fit{fitOf("A", identify.RudderPower, 1, 1, nil)}, 0.25, 0.9, nil), "a lateral fit says nothing of it")
}

// Three configurations of three flights, with shared CG and airspeed errors.
func TestMarginCovers(t *testing.T) {
	programmes := trials(400)
	random := rand.New(rand.NewPCG(41, 1))
	var r rate
	for range programmes {
		airspeed, cg := 1-2*0.02*random.NormFloat64(), 0.01*random.NormFloat64()
		var programme [][]identify.Fit
		for c := range 3 {
			var fits []identify.Fit
			for f := range 3 {
				e := random.NormFloat64()
				slope := 5 + 0.1*e + 0.05*random.NormFloat64()
				stiffness := -0.6 + 0.03*(0.5*e+math.Sqrt(0.75)*random.NormFloat64()) + 0.02*random.NormFloat64() - slope*cg
				fits = append(fits, pitchFit(fmt.Sprintf("%d-%d", c, f), stiffness*airspeed, slope*airspeed, 0.03, 0.1, 0.5))
			}
			programme = append(programme, fits)
		}
		pooled := PoolDerivatives(programme)
		for _, fits := range programme {
			r.count(MarginFromDerivatives(fits, 0.25, 0.9, pooled)[0], 2.32+0.9*0.12)
		}
	}
	t.Logf("%.1f %% of %d, width %.4f m", 100*r.share(), r.all, r.width/float64(r.all))
	require.True(t, r.meets())
}
