package reconstruct

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// A vane of which every sample is wrong by far is told, with a row of its own.
func TestUselessChannelIsTold(t *testing.T) {
	log := flown(t, 4, rehearse.Weather{VerticalSD: 0.2}, func(i *rehearse.Instruments) { i.Vanes = rehearse.DefaultVanes() })
	rec := log.Recording("with vanes")
	change(rec, flightlog.AngleOfAttack, 0, math.Inf(1), func(v float64) float64 { return v + 1.2 })
	p, findings := Run(&rec, Setup{})
	require.True(t, p.Enough, findings)
	f, ok := told(findings, "no sample of the angle-of-attack vane fits")
	require.True(t, ok, findings)
	require.Greater(t, f.End, f.Start)
	require.Contains(t, f.Consequence, "offset")
	rows := 0
	for _, w := range p.Whiteness {
		if w.Channel == flightlog.AngleOfAttack {
			rows++
			require.Zero(t, w.Samples)
			require.Greater(t, w.LeftOut, 1000)
			require.NotEmpty(t, w.Sentence)
			require.False(t, w.White || w.Consistent)
			text, err := json.Marshal(w)
			require.NoError(t, err, "no NaN")
			require.Contains(t, string(text), `"mean_square_low"`)
			require.Contains(t, string(text), `"mean_square_high"`)
		}
	}
	require.Equal(t, 1, rows)
}

// A compass that steps at 150 s: the path lives on, as good before as after, and the lag of satellite navigation is not spoilt.
func TestCompassStep(t *testing.T) {
	for _, step := range []float64{60, -170} {
		log := calmFlight(t)
		rec := log.Recording("rehearsed")
		change(rec, flightlog.Heading, 150, math.Inf(1), func(v float64) float64 { return math.Mod(v+step*degree+2*math.Pi, 2*math.Pi) })
		p, findings := Run(&rec, Setup{})
		require.True(t, p.Enough, findings)
		f, ok := told(findings, "heading jumps away")
		require.True(t, ok, findings)
		require.Equal(t, flightlog.Note, f.Severity)
		require.InDelta(t, 150, f.Start, 0.1)
		_, lost := told(findings, "lost itself")
		require.False(t, lost)
		_, twice := told(findings, "heading is more than five")
		require.False(t, twice, "once is enough")
		require.InDelta(t, 0.2, p.SatelliteLag.Value, 0.02)
		require.InDelta(t, wrap(step*degree), wrap(p.AttitudeBias[2]), 3*degree)
		trial := flightTrial{log: log, path: p}
		for _, s := range [][2]float64{{20, 149}, {150, 205}} {
			a, b := trial.errors(s[0], s[1])
			require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.5*degree, "%v", s)
			require.Less(t, math.Sqrt(square(b)/float64(len(b))), 0.8*degree, "%v", s)
		}
	}
}

// Giving up is a loss, as a single restart is, and begins at the first of them.
func TestGivingUpIsALoss(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	change(rec, flightlog.PitchRate, 0, math.Inf(1), func(v float64) float64 { return -v })
	p, findings := Run(&rec, Setup{})
	require.False(t, p.Enough)
	f, ok := told(findings, "lost itself 6 times")
	require.True(t, ok, findings)
	require.Equal(t, flightlog.Loss, f.Severity)
	require.Greater(t, f.End, f.Start)
}

// What the caller tells is not told again, and what is about the whole recording says when that was.
func TestAssumedAirIsToldOnce(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	for _, q := range []flightlog.Quantity{flightlog.AirTemperature, flightlog.StaticPressure} {
		delete(rec.Channels, q)
	}
	_, findings := Run(&rec, Setup{})
	for _, words := range []string{"no air temperature", "no static pressure"} {
		f, ok := told(findings, words)
		require.True(t, ok, findings)
		require.Greater(t, f.End, f.Start+200)
	}
	_, findings = Run(&rec, Setup{AirTold: true})
	for _, words := range []string{"no air temperature", "no static pressure"} {
		_, ok := told(findings, words)
		require.False(t, ok, findings)
	}
	delete(rec.Channels, flightlog.PitchRate)
	_, findings = Run(&rec, Setup{})
	require.Len(t, findings, 1)
	require.Greater(t, findings[0].End, findings[0].Start+200)
}

// The scale's standard deviation is its two parts: 1.5 K of a logged temperature are 0.26 % whatever the flight shows.
func TestScaleDeviations(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	p, _ := Run(&rec, Setup{})
	require.InDelta(t, 1.5/(2*288.15), p.ScaleTemperatureSD, 1e-12)
	require.Greater(t, p.ScaleOwnSD, 0.0)
	require.InDelta(t, math.Hypot(p.ScaleOwnSD, p.ScaleTemperatureSD), p.ScaleSD, 1e-15)
	delete(rec.Channels, flightlog.AirTemperature)
	q, _ := Run(&rec, Setup{})
	require.InDelta(t, 7/(2*288.15), q.ScaleTemperatureSD, 1e-12)
	require.InEpsilon(t, p.ScaleOwnSD, q.ScaleOwnSD, 0.1, "the filter does not see the temperature's error")
}

// The smoother knows that nothing after the step tells the compass error before it: both come out, each on its side.
func TestSmoothedCompassError(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	plain := prepared(t, &rec, Setup{})
	between := 0
	bias := func(f *forward) (out [2][]float64) {
		f.finish()
		s := smoother{f: f}
		s.run(func(e *event, b *belief, a *adjoint) {
			v := smoothedEstimate(b, a).x[atAttitudeBias+2]
			if len(f.restarts) > 0 && e.time > 150.1 && e.time < 151.9 { // no heading is used here, and nothing later speaks of this one's error
				require.Zero(t, a.first[atAttitudeBias+2])
				require.Zero(t, *a.all.row(atAttitudeBias + 2))
				between++
			}
			switch {
			case e.time > 60 && e.time < 149:
				out[0] = append(out[0], v)
			case e.time > 153:
				out[1] = append(out[1], v)
			}
		})
		return out
	}
	whole := bias(plain)
	change(rec, flightlog.Heading, 150, math.Inf(1), func(v float64) float64 { return math.Mod(v+60*degree, 2*math.Pi) })
	stepped := bias(prepared(t, &rec, Setup{}))
	require.Greater(t, between, 30)
	for i, shift := range []float64{0, 60 * degree} {
		require.Len(t, stepped[i], len(whole[i]))
		for k := range whole[i] {
			require.InDelta(t, whole[i][k]+shift, stepped[i][k], 1.5*degree)
		}
	}
}
