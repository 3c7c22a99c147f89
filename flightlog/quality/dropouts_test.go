package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// What cannot be for a while is a dropout, told once, whatever the numbers do meanwhile; the rest of the channel is judged as ever.
func TestDropouts(t *testing.T) {
	for name, c := range map[string]struct {
		q      flightlog.Quantity
		change func(at, v float64) float64
	}{
		"pressure of zero":          {flightlog.StaticPressure, within(100, 120, func(float64) float64 { return 0 })},
		"pressure that flickers":    {flightlog.StaticPressure, within(100, 120, func(v float64) float64 { return 50 + math.Mod(v, 7) })},
		"altitude of 90 km":         {flightlog.Altitude, within(100, 120, func(v float64) float64 { return v + 90000 })},
		"airspeed of 655 m/s":       {flightlog.Airspeed, within(100, 120, func(float64) float64 { return 655.35 })},
		"temperature of no degrees": {flightlog.AirTemperature, within(100, 120, func(float64) float64 { return 0 })},
		"huge forces":               {flightlog.DownAcceleration, within(100, 120, func(v float64) float64 { return 1e300 * v })},
	} {
		got := Inspect(changed(t, c.change, c.q))
		require.Len(t, got, 1, "%s: %v", name, got)
		require.Equal(t, flightlog.Loss, got[0].Severity, name)
		require.Equal(t, c.q, got[0].Channel, name)
		require.InDelta(t, 100, got[0].Start, 0.2, name)
		require.InDelta(t, 120, got[0].End, 0.2, name)
		require.Contains(t, got[0].What, "drops out for", name)
	}
	one := changed(t, within(100, 100.05, func(float64) float64 { return 90000 }), flightlog.Altitude)
	got := about(Inspect(one), flightlog.Altitude, flightlog.Note)
	require.Len(t, got, 1, "single samples are spikes")
	require.Contains(t, got[0].What, "off the neighbours")
}

// The clock is judged by every sample that there is, also by the only one of a channel.
func TestOneLateSample(t *testing.T) {
	rec := gentle()
	require.False(t, ClockRefused(rec))
	rec.Channels[flightlog.AirTemperature] = flightlog.Channel{Time: []float64{1.7e9}, Value: []float64{288}}
	require.True(t, ClockRefused(rec))
	got := Inspect(rec)
	require.Len(t, got, 1)
	require.Equal(t, flightlog.Refusal, got[0].Severity)
}

// One call gives what two give.
func TestInspectIn(t *testing.T) {
	rec := changed(t, func(_, v float64) float64 { return math.Min(v, 0.3) }, flightlog.RollRate)
	a := modelAircraft()
	a.Mass = 30
	own, its := Inspect(rec), InAircraft(rec, a)
	require.NotEmpty(t, own)
	require.NotEmpty(t, its)
	require.Equal(t, append(own, its...), InspectIn(rec, a))
	late := gentle()
	late.Channels[flightlog.AirTemperature] = flightlog.Channel{Time: []float64{1.7e9}, Value: []float64{288}}
	require.Equal(t, Inspect(late), InspectIn(late, a), "nothing is said of an aircraft whose log has no time")
}
