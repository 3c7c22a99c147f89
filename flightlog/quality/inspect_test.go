package quality

import (
	"math"
	"testing"

	"wingproof/flightlog"

	"github.com/stretchr/testify/require"
)

func about(findings []flightlog.Finding, q flightlog.Quantity, s flightlog.Severity) []flightlog.Finding {
	var out []flightlog.Finding
	for _, f := range findings {
		if f.Channel == q && f.Severity == s {
			out = append(out, f)
		}
	}
	return out
}

// gentle is a minute of good recording at 50 Hz: the model nods and rolls.
func gentle() *flightlog.Recording {
	rec := &flightlog.Recording{Source: "made.csv", Channels: map[flightlog.Quantity]flightlog.Channel{}, Rows: 3000}
	put := func(q flightlog.Quantity, value func(t float64) float64) {
		var c flightlog.Channel
		for i := range 3000 {
			t := float64(i) * 0.02
			c.Time, c.Value = append(c.Time, t), append(c.Value, value(t)+1e-3*math.Sin(float64(i)*2.1))
		}
		rec.Channels[q] = c
	}
	put(flightlog.PitchAngle, func(t float64) float64 { return 0.2 * math.Sin(t) })
	put(flightlog.PitchRate, func(t float64) float64 { return 0.2 * math.Cos(t) })
	put(flightlog.RollAngle, func(t float64) float64 { return 0.1 * math.Sin(0.7*t) })
	put(flightlog.RollRate, func(t float64) float64 { return 0.07 * math.Cos(0.7*t) })
	put(flightlog.DownAcceleration, func(t float64) float64 { return -9.8 - math.Sin(2*t) })
	put(flightlog.ForwardAcceleration, func(t float64) float64 { return 9.8*math.Sin(0.2*math.Sin(t)) + math.Cos(t/3)/3 })
	put(flightlog.Airspeed, func(t float64) float64 { return 20 + math.Sin(t/3) })
	return rec
}

func scaled(rec *flightlog.Recording, q flightlog.Quantity, by float64) {
	for i := range rec.Channels[q].Value {
		rec.Channels[q].Value[i] *= by
	}
}

func TestInspectGood(t *testing.T) {
	require.Empty(t, Inspect(gentle()))
	require.Empty(t, Inspect(&flightlog.Recording{}))
}

func TestInspectGaps(t *testing.T) {
	rec := gentle()
	for q, c := range rec.Channels {
		rec.Channels[q] = flightlog.Channel{Time: append(append([]float64{}, c.Time[:1000]...), c.Time[1100:]...), Value: append(append([]float64{}, c.Value[:1000]...), c.Value[1100:]...)}
	}
	speed := rec.Channels[flightlog.Airspeed]
	rec.Channels[flightlog.Airspeed] = flightlog.Channel{Time: append(append([]float64{}, speed.Time[:200]...), speed.Time[220:]...), Value: append(append([]float64{}, speed.Value[:200]...), speed.Value[220:]...)}
	got := Inspect(rec)
	require.Len(t, got, 2)
	require.Equal(t, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Airspeed, Start: 3.98, End: 4.4, What: "no samples of the airspeed for 0.42 s",
		Consequence: "no lift, drag, test point or wind from 4.0 to 4.4 s; test points and manoeuvres across it are left out"}, got[0])
	require.Equal(t, "no samples of 7 channels for 2.02 s", got[1].What)
	require.Equal(t, "no result of any kind from 20.0 to 22.0 s; test points and manoeuvres across it are left out", got[1].Consequence)
	require.InDelta(t, 19.98, got[1].Start, 1e-9)
	require.InDelta(t, 22.0, got[1].End, 1e-9)
}

func TestInspectFrozen(t *testing.T) {
	rec := gentle()
	for i := 500; i < 600; i++ {
		rec.Channels[flightlog.Airspeed].Value[i] = 21
	}
	got := Inspect(rec)
	require.Len(t, got, 1)
	require.Equal(t, "the airspeed repeats 21 for 2.0 s, so that it is frozen, as by a blocked tube or a sensor that hangs", got[0].What)
	require.Equal(t, "no lift, drag, test point or wind from 10.0 to 12.0 s", got[0].Consequence)
	require.Equal(t, flightlog.Airspeed, got[0].Channel)
	require.InDelta(t, 10, got[0].Start, 1e-9)
	require.InDelta(t, 11.98, got[0].End, 1e-9)
}

// Coarse steps are no freeze: an airspeed that is logged in whole metres a second at 50 Hz repeats itself for long.
func TestInspectCoarseIsNotFrozen(t *testing.T) {
	rec := gentle()
	for i, v := range rec.Channels[flightlog.Airspeed].Value {
		rec.Channels[flightlog.Airspeed].Value[i] = math.Round(v)
	}
	rate := rec.Channels[flightlog.PitchRate]
	for i := range rate.Value { // a sensor read at 10 Hz, logged at 50
		rate.Value[i] = rate.Value[i-i%5]
	}
	require.Empty(t, about(Inspect(rec), flightlog.PitchRate, flightlog.Loss))
}

func TestInspectSpikes(t *testing.T) {
	rec := gentle()
	rec.Channels[flightlog.DownAcceleration].Value[700] = 80
	rec.Channels[flightlog.Airspeed].Value[1500] = 60
	got := Inspect(rec)
	require.Len(t, got, 2)
	require.Equal(t, "one sample of the down acceleration stands off the neighbours further than the model can move (first: 80)", got[0].What)
	require.InDelta(t, 14, got[0].Start, 1e-9)
	require.Equal(t, flightlog.Airspeed, got[1].Channel)
	require.Equal(t, []int{1500}, Spikes(flightlog.Airspeed, rec.Channels[flightlog.Airspeed]))
	clean := rec.Channels[flightlog.Airspeed].Without([]int{1500})
	require.Len(t, clean.Time, 2999)
	require.Empty(t, Spikes(flightlog.Airspeed, clean))
}

func TestInspectGravity(t *testing.T) {
	for _, c := range []struct {
		by   float64
		hint string
	}{
		{1 / 9.80665, "seems to be in g, not in m/s²"},
		{9.80665, "seems to be in m/s², not in g"},
		{1000 / 9.80665, "thousandths of g"},
		{-1, "set sign = -1"},
		{2, "check the unit and the scale"},
		{1 / 0.3048, "seems to be in ft/s², not in m/s²"},
	} {
		rec := gentle()
		scaled(rec, flightlog.DownAcceleration, c.by)
		got := about(Inspect(rec), flightlog.DownAcceleration, flightlog.Refusal)
		require.Len(t, got, 1, c.hint)
		require.Contains(t, got[0].Consequence, c.hint)
		require.InDelta(t, 59.98, got[0].End, 1e-9)
	}
}

func TestInspectRateSigns(t *testing.T) {
	rec := gentle()
	scaled(rec, flightlog.PitchRate, -1)
	scaled(rec, flightlog.RollRate, 180/math.Pi)
	got := Inspect(rec)
	require.Len(t, about(got, flightlog.PitchRate, flightlog.Refusal), 1)
	require.Contains(t, about(got, flightlog.PitchRate, flightlog.Refusal)[0].What, "the pitch rate runs against the change of the pitch angle")
	require.Contains(t, about(got, flightlog.RollRate, flightlog.Loss)[0].What, "times the change of the roll angle")
	require.Contains(t, about(got, flightlog.RollRate, flightlog.Loss)[0].Consequence, "one of the two has the wrong unit; if it is the roll rate, the column seems to be in degrees a second, not in radians a second")
}

func TestInspectAngleInDegrees(t *testing.T) {
	rec := gentle()
	scaled(rec, flightlog.PitchAngle, 180/math.Pi)
	require.Contains(t, about(Inspect(rec), flightlog.PitchAngle, flightlog.Refusal)[0].Consequence, "seems to be in degrees")
}
