package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// What cannot be used is refused in words, and one bad segment does not spoil the others.
func TestEquationErrorRefuses(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	good := programme(t, ac, Longitudinal, rehearse.Weather{}, rehearse.DefaultInstruments(), 1)
	short := good[0]
	for _, c := range []*[]float64{&short.RollRate, &short.PitchRate, &short.YawRate, &short.ForwardForce, &short.RightForce, &short.DownForce,
		&short.Airspeed, &short.Alpha, &short.Beta, &short.Elevator, &short.Aileron, &short.Rudder} {
		*c = (*c)[:3]
	}
	_, err := EquationError([]Segment{short}, Longitudinal, setup)
	require.ErrorContains(t, err, "3 samples are too few")
	require.ErrorContains(t, err, "fly doublets")
	gap := good[0]
	gap.Alpha = append([]float64(nil), gap.Alpha...)
	gap.Alpha[50] = math.NaN()
	fit, err := EquationError([]Segment{gap, good[1], good[2]}, Longitudinal, setup)
	require.NoError(t, err)
	require.Equal(t, 2, fit.Segments)
	require.Contains(t, fit.Warnings[1], "angle of attack has gaps")
	idle := good[1]
	idle.Power = "idle"
	_, err = EquationError([]Segment{good[0], idle}, Longitudinal, setup)
	require.ErrorContains(t, err, "power level and idle")
	_, err = EquationError(good, "vertical", setup)
	require.ErrorContains(t, err, "write longitudinal or lateral")
	_, err = EquationError(good, Longitudinal, Setup{})
	require.ErrorContains(t, err, "must be positive")
	_, err = EquationError(nil, Longitudinal, setup)
	require.ErrorContains(t, err, "no input manoeuvre")
}

// What was not measured on the ground is not determined in flight: a moment without its inertia, a damping without the time of its servo.
func TestEquationErrorNamesWhatIsMissing(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	segments := programme(t, ac, Longitudinal, rehearse.Weather{}, rehearse.DefaultInstruments(), 1)
	setup.Servos = nil
	fit, err := EquationError(segments, Longitudinal, setup)
	require.NoError(t, err)
	for i, d := range fit.Derivatives {
		require.Equal(t, d.Quantity != PitchDamping, d.Determined, d.Quantity)
		if !d.Determined {
			require.Contains(t, d.Why, "by what time the elevator follows the command")
			require.Zero(t, fit.Covariance[i][i])
		}
	}
	for i := range segments {
		segments[i].Body.Iy = 0
	}
	fit, err = EquationError(segments, Longitudinal, setup)
	require.NoError(t, err)
	for _, d := range fit.Derivatives {
		lift := d.Quantity == LiftCurveSlope || d.Quantity == LiftByPitchRate || d.Quantity == ElevatorLift
		require.Equal(t, lift, d.Determined, d.Quantity)
		if !lift {
			require.Contains(t, d.Why, "swing the model")
		}
	}
	_, err = MarginByForce(segments, setup)
	require.NoError(t, err)
}
