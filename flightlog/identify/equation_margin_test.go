package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/stability"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/source"
)

// gusty is a breeze of five metres a second with a sixth of it in gusts.
func gusty() rehearse.Weather {
	w := rehearse.DefaultWeather()
	w.WindSpeed, w.Turbulence = 5, 1.0/6
	return w
}

// withoutVanes takes from the angle of attack what nothing on board feels without vanes: the vertical gusts.
func (f rehearsed) withoutVanes(segments []Segment) []Segment {
	l := f.log
	for i := range segments {
		s := &segments[i]
		first := 0
		for l.Time[first] < s.Start-1e-9 {
			first++
		}
		s.Alpha = append([]float64(nil), s.Alpha...)
		for k := range s.Alpha {
			s.Alpha[k] += l.Truth.WindDown[first+k] / l.Truth.Airspeed[first+k]
		}
	}
	return segments
}

// In gusts that no instrument on board shows, the static margin by force stays true and narrow, narrower than that over the angle of
// attack, whose gusts cancel in the ratio of Cm_α and CL_α for the most part, and narrower by far than either slope.
func TestMarginByForceInGusts(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	percent, err := stability.StaticMargin(ac.Derivatives, ac.CGX)
	require.NoError(t, err)
	var force, angle, lift tally
	for seed := range uint64(24) {
		f := flownCards(t, ac, inputCards(ac, "elevator", 0.05), gusty(), rehearse.DefaultInstruments(), 1+seed)
		segments := f.withoutVanes(f.segments())
		m, err := MarginByForce(segments, setup)
		require.NoError(t, err)
		require.True(t, m.Determined, m.Why)
		force.add(m.StaticMargin(), 100*m.SD, percent)
		fit, err := EquationError(segments, Longitudinal, setup)
		require.NoError(t, err)
		stiffness, slope := fit.Derivatives[3], fit.Derivatives[0]
		ratio, c := stiffness.Value/slope.Value, fit.Covariance
		variance := (c[3][3] - 2*ratio*c[0][3] + ratio*ratio*c[0][0]) / (slope.Value * slope.Value)
		angle.add(-100*ratio, 100*math.Sqrt(variance), percent)
		lift.add(slope.Value, slope.SD, ac.Derivatives.ByAlpha.Lift)
	}
	mean, sd, covered, bias, width := force.figures()
	t.Logf("by force: truth %.2f %%, bias %.2f, sd %.2f, (value − truth)/sd %.2f ± %.2f, covered %.0f %%", percent, bias, width, mean, sd, 100*covered)
	aMean, aSD, aCovered, aBias, aWidth := angle.figures()
	t.Logf("by angle: bias %.2f, sd %.2f, (value − truth)/sd %.2f ± %.2f, covered %.0f %%", aBias, aWidth, aMean, aSD, 100*aCovered)
	lMean, lSD, lCovered, lBias, lWidth := lift.figures()
	t.Logf("lift slope by angle: bias %.3f, sd %.3f, (value − truth)/sd %.2f ± %.2f, covered %.0f %%", lBias, lWidth, lMean, lSD, 100*lCovered)
	require.Less(t, math.Abs(bias), 0.2, "percent of the chord")
	require.Less(t, width, 0.5)
	require.GreaterOrEqual(t, covered, 0.85)
	require.Greater(t, aWidth, width)
}

// The shared errors of the margin: mass and inertia as they stand in the ratio, the CG as its distance in chords; airspeed cancels but
// for the part of the damping.
func TestSharedErrorsOfMargin(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	setup.Errors = Errors{Mass: 0.02, InertiaY: 0.03, CG: 0.002, AirspeedScale: 0.01}
	segments := programme(t, ac, Longitudinal, rehearse.Weather{}, perfect(), 1)
	m, err := MarginByForce(segments, setup)
	require.NoError(t, err)
	require.InEpsilon(t, (1/1.02-1)*m.Value, m.Common[source.Mass], 0.02)
	require.InEpsilon(t, 0.03*m.Value, m.Common[source.InertiaY], 0.01)
	require.InEpsilon(t, -0.002/setup.Reference.MeanChord, m.Common[source.CG], 0.05)
	require.Less(t, math.Abs(m.Common[source.AirspeedScale]), 0.002)
	for i := range segments {
		segments[i].Body.Iy = 0
	}
	m, err = MarginByForce(segments, setup)
	require.NoError(t, err)
	require.False(t, m.Determined)
	require.Contains(t, m.Why, "swing the model")
}
