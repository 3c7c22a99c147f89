package reconstruct

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// Still air, flown with every default error of the instruments: the angles are within half a degree and one degree.
func TestStillAir(t *testing.T) {
	all := trials(t, 10, rehearse.Weather{})
	alpha, beta := absolute(t, all)
	t.Logf("all: α %.3f° (wanted 0.5), β %.3f° (wanted 1.0)", alpha.degrees(), beta.degrees())
	require.Less(t, alpha.degrees(), 0.5)
	require.Less(t, beta.degrees(), 1.0)
	for i := range all {
		wind, _ := all[i].windAfterCircle()
		require.Less(t, wind, 0.5, "seed %d", i+1)
		require.InDelta(t, all[i].scale, all[i].path.AirspeedScale, 0.015, "seed %d", i+1)
	}
	c := count(t, all)
	c.requireNotBold(t)
}

// Still air that rises or sinks: one draw a flight, as Setup believes.
func TestSteadyVerticalAir(t *testing.T) {
	all := trials(t, 10, rehearse.Weather{VerticalSD: 0.2})
	alpha, beta := absolute(t, all)
	t.Logf("all: α %.3f°, β %.3f°", alpha.degrees(), beta.degrees())
	require.Less(t, alpha.degrees(), 0.6, "0.2 m/s at 24 m/s is 0.5°, mounting 0.2°")
	c := count(t, all)
	c.requireNotBold(t)
	require.Greater(t, c.sum["α"], 3.25, "the standard deviation of α must not be far too large: lower 2.5 % point of χ² with 10 degrees of freedom")
}

// Light gusts: changes within a manoeuvre are as good as gusts across the flight path leave them; the filter adds next to nothing.
func TestLightGusts(t *testing.T) {
	all := trials(t, 10, rehearse.Weather{WindSpeed: 5, WindFrom: 1, Turbulence: 0.1, VerticalSD: 0.2})
	kinds := []rehearse.Kind{rehearse.Doublet, rehearse.Sideslip, rehearse.Level, rehearse.Glide, rehearse.Circle}
	var alpha, beta, alphaGust, betaGust pool
	for _, kind := range kinds {
		var a, b, ga, gb pool
		for i := range all {
			for _, s := range all[i].log.Stretches {
				if s.Card.Kind != kind || s.To-s.From < 1 {
					continue
				}
				ea, eb := all[i].errors(s.From, s.To)
				va, vb := all[i].gustAngles(s.From, s.To)
				for _, add := range []struct {
					to []*pool
					v  []float64
				}{{[]*pool{&a, &alpha}, ea}, {[]*pool{&b, &beta}, eb}, {[]*pool{&ga, &alphaGust}, va}, {[]*pool{&gb, &betaGust}, vb}} {
					for _, p := range add.to {
						p.add(meanSquare(add.v, true), len(add.v))
					}
				}
			}
		}
		t.Logf("%-9s α %.2f°  β %.2f°; gusts across the path alone %.2f° and %.2f°", kind, a.degrees(), b.degrees(), ga.degrees(), gb.degrees())
	}
	t.Logf("all: α %.3f° (wanted 0.5), β %.3f° (wanted 0.8); gusts across the path alone %.3f° and %.3f°",
		alpha.degrees(), beta.degrees(), alphaGust.degrees(), betaGust.degrees())
	require.Less(t, alpha.degrees(), 1.06*alphaGust.degrees())
	require.Less(t, beta.degrees(), 1.06*betaGust.degrees())
	for i := range all {
		wind, _ := all[i].windAfterCircle()
		require.Less(t, wind, 0.5, "seed %d", i+1)
		require.InDelta(t, all[i].scale, all[i].path.AirspeedScale, 0.015, "seed %d", i+1)
		require.InEpsilon(t, 0.5, all[i].path.GustLevel, 0.25, "seed %d", i+1)
	}
	c := count(t, all)
	c.requireNotBold(t)
	require.Greater(t, c.sum["wind"], 9.59, "lower 2.5 % point of χ² with 20 degrees of freedom")
	require.Greater(t, c.sum["β"], 3.25, "lower 2.5 % point of χ² with 10 degrees of freedom")
}
