package quality

import (
	"maps"
	"math"
	"testing"

	"wingproof/flightlog"

	"github.com/stretchr/testify/require"
)

// climbsAndGlides is four minutes at 25 Hz in which the model climbs on throttle and glides without, in a wind of 6 m/s that
// it meets on all headings. Everything follows from height and airspeed, so that the channels agree.
func climbsAndGlides() *flightlog.Recording {
	rec := &flightlog.Recording{Source: "made.csv", Channels: map[flightlog.Quantity]flightlog.Channel{}, Rows: 6000}
	put := func(q flightlog.Quantity, value func(t float64) float64) {
		var c flightlog.Channel
		for i := range 6000 {
			t := float64(i) * 0.04
			c.Time, c.Value = append(c.Time, t), append(c.Value, value(t)+1e-3*math.Sin(float64(i)*2.1))
		}
		rec.Channels[q] = c
	}
	const omega = 2 * math.Pi / 60 // a climb and a glide a minute
	height := func(t float64) float64 { return 80 - 30*math.Cos(omega*t) }
	climb := func(t float64) float64 { return 30 * omega * math.Sin(omega*t) }
	speed := func(t float64) float64 { return 20 - 3*math.Sin(omega*t) }
	slope := func(t float64) float64 { return math.Asin(climb(t) / speed(t)) }
	put(flightlog.Altitude, height)
	put(flightlog.StaticPressure, func(t float64) float64 { return 98000 * math.Exp(-height(t)/8434) })
	put(flightlog.Airspeed, speed)
	put(flightlog.GroundSpeed, func(t float64) float64 { return speed(t) + 6*math.Sin(0.9*omega*t) })
	put(flightlog.PitchAngle, func(t float64) float64 { return slope(t) + 0.08 })
	put(flightlog.PitchRate, func(t float64) float64 { return (slope(t+0.01) - slope(t-0.01)) / 0.02 })
	put(flightlog.DownAcceleration, func(t float64) float64 { return -9.81 * math.Cos(slope(t)) })
	put(flightlog.RightAcceleration, func(t float64) float64 { return 0.2 * math.Sin(3*t) })
	put(flightlog.ForwardAcceleration, func(t float64) float64 { return 9.81*math.Sin(slope(t)+0.08) - 3*omega*math.Cos(omega*t) })
	put(flightlog.Throttle, func(t float64) float64 {
		if climb(t) > 0 {
			return 0.8
		}
		return 0
	})
	return rec
}

// swapped exchanges two channels.
func swapped(rec *flightlog.Recording, a, b flightlog.Quantity) {
	rec.Channels[a], rec.Channels[b] = rec.Channels[b], rec.Channels[a]
}

func TestChannelsThatAgree(t *testing.T) {
	require.Empty(t, Inspect(climbsAndGlides()))
}

// Each mistake of a logger map is refused, by the channel and with what it seems to be.
func TestChannelsThatDisagree(t *testing.T) {
	retimed := func(rec *flightlog.Recording, by float64) {
		for q, c := range rec.Channels {
			moved := flightlog.Channel{Value: c.Value}
			for _, s := range c.Time {
				moved.Time = append(moved.Time, s*by)
			}
			rec.Channels[q] = moved
		}
	}
	for name, c := range map[string]struct {
		spoil       func(*flightlog.Recording)
		channel     flightlog.Quantity
		what, right string
	}{
		"milliseconds as seconds":      {func(r *flightlog.Recording) { retimed(r, 1000) }, "", "the recording lasts 2.4e+05 s with 40 s between samples", "such as ms for s"},
		"milliseconds as microseconds": {func(r *flightlog.Recording) { retimed(r, 0.001) }, "", "with 4e-05 s between samples", "such as ms for us"},
		"a clock that jumps": {func(r *flightlog.Recording) {
			for _, channel := range r.Channels {
				channel.Time[len(channel.Time)-1] = 1e12
			}
		}, "", "the recording lasts 1e+12 s", "last rows are no glitch"},
		"airspeed m/s as km/h": {func(r *flightlog.Recording) { scaled(r, flightlog.Airspeed, 1/3.6) }, flightlog.Airspeed, "times the ground speed over the whole flight", "the column seems to be in m/s, not in km/h"},
		"airspeed km/h as m/s": {func(r *flightlog.Recording) { scaled(r, flightlog.Airspeed, 3.6) }, flightlog.Airspeed, "times the ground speed over the whole flight", "the column seems to be in km/h, not in m/s"},
		"forward axis turned":  {func(r *flightlog.Recording) { scaled(r, flightlog.ForwardAcceleration, -1) }, flightlog.ForwardAcceleration, "runs against the", "raise the nose"},
		"forward and right":    {func(r *flightlog.Recording) { swapped(r, flightlog.ForwardAcceleration, flightlog.RightAcceleration) }, flightlog.ForwardAcceleration, "does not follow the gravity along the pitch angle, so that it seems to be exchanged", "raise the nose"},
		"altitude counts down": {func(r *flightlog.Recording) { scaled(r, flightlog.Altitude, -1) }, flightlog.Altitude, "the altitude runs against the height that the static pressure shows", "altitude and climb rate count up"},
		"altitude m as ft":     {func(r *flightlog.Recording) { scaled(r, flightlog.Altitude, 0.3048) }, flightlog.Altitude, "the altitude is 0.305 times the height that the static pressure shows", "the column seems to be in m, not in ft"},
		"altitude ft as m":     {func(r *flightlog.Recording) { scaled(r, flightlog.Altitude, 1/0.3048) }, flightlog.Altitude, "the altitude is 3.28 times the height that the static pressure shows", "the column seems to be in ft, not in m"},
		"pressure hPa as Pa":   {func(r *flightlog.Recording) { scaled(r, flightlog.StaticPressure, 0.01) }, flightlog.StaticPressure, "the static pressure is 97", "the column seems to be in hPa, not in Pa"},
		"pressure Pa as hPa":   {func(r *flightlog.Recording) { scaled(r, flightlog.StaticPressure, 100) }, flightlog.StaticPressure, "the static pressure is", "the column seems to be in Pa, not in hPa"},
		"throttle percent":     {func(r *flightlog.Recording) { scaled(r, flightlog.Throttle, 100) }, flightlog.Throttle, "the throttle reaches 80", "the column seems to be in percent"},
		"throttle turned round": {func(r *flightlog.Recording) {
			for i, v := range r.Channels[flightlog.Throttle].Value {
				r.Channels[flightlog.Throttle].Value[i] = 1 - v
			}
		}, flightlog.Throttle, "the model gains energy where the throttle is closed", "turn the calibration"},
	} {
		rec := climbsAndGlides()
		c.spoil(rec)
		got := about(Inspect(rec), c.channel, flightlog.Refusal)
		require.Len(t, got, 1, name)
		require.Contains(t, got[0].What, c.what, name)
		require.Contains(t, got[0].Consequence, c.right, name)
	}
}

// What a recording does not hold is not compared, and a short or quiet one says nothing.
func TestAgreementNeedsEvidence(t *testing.T) {
	full := climbsAndGlides()
	for _, q := range flightlog.Quantities() {
		if _, ok := full.Channels[q]; !ok {
			continue
		}
		rec := &flightlog.Recording{Channels: maps.Clone(full.Channels)}
		delete(rec.Channels, q)
		require.Empty(t, Inspect(rec), q)
	}
	short := climbsAndGlides()
	for q, c := range short.Channels {
		short.Channels[q] = flightlog.Channel{Time: c.Time[:300], Value: c.Value[:300]}
	}
	scaled(short, flightlog.ForwardAcceleration, -1)
	require.Empty(t, Inspect(short))
}
