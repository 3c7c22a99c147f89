package manoeuvre_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

func TestMissing(t *testing.T) {
	full := level().with(flightlog.Elevator, 40, []float64{4 * degree}, []float64{1})
	plain := manoeuvre.Missing(full.recording(25))
	require.Len(t, plain, 1, "the made flight holds no accelerations")
	require.Contains(t, plain[0].Consequence, "pull-ups are not looked for")
	for _, c := range []struct {
		without           []flightlog.Quantity
		severity          flightlog.Severity
		what, consequence string
	}{
		{[]flightlog.Quantity{flightlog.Airspeed}, flightlog.Loss, "neither airspeed nor ground speed was recorded", "decelerations are not looked for"},
		{[]flightlog.Quantity{flightlog.ClimbRate}, flightlog.Loss, "neither altitude, climb rate nor static pressure", "level runs and climbs are not looked for"},
		{[]flightlog.Quantity{flightlog.Throttle}, flightlog.Loss, "throttle was not recorded", "glides are not looked for"},
		{[]flightlog.Quantity{flightlog.RollAngle}, flightlog.Note, "bank angle was not recorded", "worked out from the rate of turn"},
		{[]flightlog.Quantity{flightlog.Heading}, flightlog.Note, "neither heading nor track", "worked out from bank and speed"},
		{[]flightlog.Quantity{flightlog.PitchRate}, flightlog.Loss, "pitch rate or elevator", "a stall break"},
		{[]flightlog.Quantity{flightlog.Aileron}, flightlog.Loss, "aileron was not recorded", "doublets and multisteps on it are not looked for"},
		{[]flightlog.Quantity{flightlog.RudderLeft, flightlog.RudderRight}, flightlog.Loss, "no rudder was recorded", "sideslips are not looked for"},
	} {
		rec := full.recording(25)
		for _, q := range c.without {
			delete(rec.Channels, q)
		}
		rec.Channels[flightlog.DownAcceleration] = rec.Channels[flightlog.Altitude]
		got := slices.DeleteFunc(manoeuvre.Missing(rec), func(f flightlog.Finding) bool { return f.Channel == flightlog.DownAcceleration })
		require.Len(t, got, 1, "without %v", c.without)
		require.Equal(t, c.severity, got[0].Severity)
		require.Contains(t, got[0].What, c.what)
		require.Contains(t, got[0].Consequence, c.consequence)
		require.InDelta(t, madeLength, got[0].End, 0.1)
	}
}

func TestMissingByRateAndTime(t *testing.T) {
	slow := manoeuvre.Missing(level().recording(4))
	require.Len(t, slow, 4, "elevator, aileron, rudder, and accelerations, which the made flight does not hold")
	require.Equal(t, "steps of an input shorter than 0.5 s are not seen, and widths are no finer than that sample", slow[0].Consequence)

	still := level().recording(25)
	c := still.Channels[flightlog.Aileron]
	for i := range c.Value {
		c.Value[i] = 0
	}
	require.Contains(t, manoeuvre.Missing(still)[0].What, "aileron never moves")

	long := level().recording(25)
	for _, c := range long.Channels {
		for i := range c.Time {
			c.Time[i] *= 1000 // milliseconds taken for seconds
		}
	}
	require.Empty(t, manoeuvre.Find(long))
	require.Contains(t, manoeuvre.Missing(long)[0].What, "longer than any model flies")

	require.Empty(t, manoeuvre.Find(&flightlog.Recording{}))
	require.Len(t, manoeuvre.Missing(&flightlog.Recording{}), 1)
}
