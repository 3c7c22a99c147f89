package reconstruct

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime/debug"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// spoilt gives a recording of which one channel holds a bad value, or rubbish, over a share of the flight.
func spoilt(rec flightlog.Recording, q flightlog.Quantity, bad func(i int) float64, start, share float64) flightlog.Recording {
	out := rec
	out.Channels = map[flightlog.Quantity]flightlog.Channel{}
	for k, c := range rec.Channels {
		out.Channels[k] = c
	}
	c := rec.Channels[q]
	n := flightlog.Channel{Time: c.Time, Value: append([]float64{}, c.Value...)}
	for i := range n.Value {
		if at := float64(i) / float64(len(n.Value)); at >= start && at < start+share {
			n.Value[i] = bad(i)
		}
	}
	out.Channels[q] = n
	return out
}

// complaint runs a recording and says what is wrong with the outcome; empty when nothing is.
func complaint(rec flightlog.Recording) (words string) {
	defer func() {
		if e := recover(); e != nil {
			words = fmt.Sprintf("panic: %v\n%s", e, debug.Stack())
		}
	}()
	p, findings := Run(&rec, Setup{})
	for _, f := range findings {
		if math.IsNaN(f.Start) || math.IsNaN(f.End) || f.End < f.Start {
			return fmt.Sprintf("finding %q from %g to %g", f.What, f.Start, f.End)
		}
	}
	if !p.Enough {
		if len(findings) == 0 || len(p.Time) > 0 {
			return "no path, and no word why"
		}
		return ""
	}
	if math.IsNaN(p.AirspeedScale + p.ScaleSD + p.SatelliteLag.Value + p.GustLevel + p.GustLength) {
		return "scale, lag or gusts are no numbers"
	}
	for _, w := range p.Whiteness {
		if math.IsNaN(w.Correlation+w.MeanSquare+w.Bound+w.Low+w.High+w.Noise) || math.IsInf(w.MeanSquare, 0) {
			return fmt.Sprintf("whiteness %+v", w)
		}
	}
	for n, series := range p.series() {
		for i, v := range *series {
			if p.Airborne[i] && (math.IsNaN(v) || math.IsInf(v, 0)) {
				return fmt.Sprintf("series %d is %g at %g s, in the air", n, v, p.Time[i])
			}
		}
	}
	return ""
}

// Whatever stands in the cells, from a tenth of the flight to all of it, in one channel or in several, there is no panic, and what the path
// claims is a number.
func TestBadValues(t *testing.T) {
	log := flown(t, 3, rehearse.DefaultWeather(), func(i *rehearse.Instruments) { i.Vanes = rehearse.DefaultVanes() })
	rec := log.Recording("rehearsed")
	for q, c := range rec.Channels { // 75 s with climb and half a circle are enough
		n := 0
		for n < len(c.Time) && c.Time[n] < 75 {
			n++
		}
		rec.Channels[q] = flightlog.Channel{Time: c.Time[:n], Value: c.Value[:n]}
	}
	values := []float64{0, -1, 25, -1e5, 1e9, 1e300, -1e300, 273.15 - 330, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, 999999}
	type mix struct {
		words string
		rec   flightlog.Recording
	}
	var cases []mix
	rng := stream(17)
	for _, q := range flightlog.Quantities() {
		if len(rec.Channels[q].Time) == 0 {
			continue
		}
		for range 3 {
			out, words := rec, ""
			for range 1 + rng.IntN(2) {
				bad := values[rng.IntN(len(values))]
				start, share := 0.6*rng.Float64(), 0.1+0.9*rng.Float64()
				if rng.IntN(3) == 0 {
					start, share = 0, 1
				}
				words += fmt.Sprintf("%s: %g over %.2f from %.2f; ", q, bad, share, start)
				out = spoilt(out, q, func(int) float64 { return bad }, start, share)
				q = flightlog.Quantities()[rng.IntN(16)] // the second one is any that the filter uses
			}
			cases = append(cases, mix{words, out})
		}
	}
	for n := range uint64(10) { // rubbish of every size in three channels
		r, out, words := rand.New(rand.NewPCG(n, 5)), rec, ""
		for range 3 {
			q := flightlog.Quantities()[r.IntN(16)]
			words += string(q) + " rubbish; "
			out = spoilt(out, q, func(int) float64 { return r.NormFloat64() * math.Pow(10, 20*r.NormFloat64()) }, 0.5*r.Float64(), 0.1+r.Float64())
		}
		cases = append(cases, mix{words, out})
	}
	for i, wrong := range both(len(cases), func(i int) string { return complaint(cases[i].rec) }) {
		require.Empty(t, wrong, cases[i].words)
	}
}

// both does n jobs, two at a time, and gives the outcomes in their order; what fails is for the test's own goroutine to say.
func both[T any](n int, job func(i int) T) []T {
	out := make([]T, n)
	var group sync.WaitGroup
	free := make(chan struct{}, 2)
	for i := range n {
		group.Add(1)
		free <- struct{}{}
		go func() {
			defer func() { <-free; group.Done() }()
			out[i] = job(i)
		}()
	}
	group.Wait()
	return out
}

// No speed of the wind triangle comes from an airspeed that is no number, and no true airspeed from a pressure or temperature that cannot be.
func TestNoNumbersFromBadAir(t *testing.T) {
	in := triangleInput(0, 2*math.Pi, 3, -2, 0.03)
	for i := range 100 {
		in.measured[airspeed].Value[i] = math.NaN()
	}
	require.NotPanics(t, func() { require.Equal(t, 200, len(triangleSamples(in))) })

	good := sampled(100, 0.1, func(float64) float64 { return 20 })
	rec := flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{
		flightlog.StaticPressure: sampled(100, 0.1, func(now float64) float64 { return 1e5 * math.Floor(math.Mod(now, 3)-1) }), // −1e5, 0 and 1e5 Pa
		flightlog.AirTemperature: sampled(100, 0.1, func(now float64) float64 { return 288 - 330*math.Floor(math.Mod(now, 2)) }),
	}}
	air, _ := newAir(newTaker(&rec, Setup{}), Setup{})
	for _, p := range air.pressure.Value {
		require.Equal(t, 1e5, p)
	}
	v := air.trueAirspeed(good)
	require.Len(t, v.Value, 100)
	for _, speed := range v.Value {
		require.InDelta(t, 20*math.Sqrt(288/288.15*101325/1e5), speed, 0.02, "between good samples of pressure and temperature")
	}
	good.Value[7], good.Value[8] = 1e200, -1e200
	require.Len(t, air.trueAirspeed(good).Value, 98)
	require.Len(t, clean(flightlog.Channel{Time: []float64{0, 1, 2, math.Inf(1)}, Value: []float64{1, 1e300, -2e6, 1}}, Setup{}, flightlog.RollRate).Time, 1)
}
