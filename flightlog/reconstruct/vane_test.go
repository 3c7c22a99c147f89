package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// Vanes narrow sideslip down below what gusts leave without them, although the upwash of the vanes (1.08 and 1.04) is not known.
func TestVanes(t *testing.T) {
	w := rehearse.Weather{WindSpeed: 5, Turbulence: 0.1, VerticalSD: 0.2}
	places := flightlog.Sensors{Vanes: &flightlog.Place{X: 0.1, Y: -0.5}}
	log := flown(t, 3, w, func(i *rehearse.Instruments) { i.Vanes, i.Sensors = rehearse.DefaultVanes(), places })
	rec := log.Recording("with vanes")
	s := Setup{CG: flightlog.Place{X: 0.975, Z: 0.0125}}
	p, _ := Run(&rec, s)
	require.True(t, p.Enough)
	f := flightTrial{log: log, path: p}
	a, b := f.errors(0, math.Inf(1))
	t.Logf("changes: α %.2f°, β %.2f°", math.Sqrt(variance(a))/degree, math.Sqrt(variance(b))/degree)
	require.Less(t, math.Sqrt(variance(a)), 0.3*degree)
	require.Less(t, math.Sqrt(variance(b)), 0.4*degree)
	delete(rec.Channels, flightlog.AngleOfAttack)
	delete(rec.Channels, flightlog.Sideslip)
	p, _ = Run(&rec, s)
	f = flightTrial{log: log, path: p}
	_, without := f.errors(0, math.Inf(1))
	require.Greater(t, variance(without), 4*variance(b))
}

// In still air the flight itself tells the upwash: 8 % and 4 % as rehearsed.
func TestUpwashInStillAir(t *testing.T) {
	log := flown(t, 4, rehearse.Weather{VerticalSD: 0.2}, func(i *rehearse.Instruments) { i.Vanes = rehearse.DefaultVanes() })
	rec := log.Recording("with vanes")
	f := prepared(t, &rec, Setup{})
	require.Zero(t, f.noise.upwashForgets)
	f.finish()
	require.InDelta(t, 0.08, usualUpwash+f.belief.x[atUpwash], 0.025)
	require.InDelta(t, 0.04, usualUpwash+f.belief.x[atUpwash+1], 0.01)
}
