package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// everyRow writes slow channels into every row of the gyros, as a logger does that repeats the last value.
func everyRow(rec flightlog.Recording, qs ...flightlog.Quantity) flightlog.Recording {
	rows := rec.Channels[flightlog.PitchRate].Time
	for _, q := range qs {
		c, k := rec.Channels[q], 0
		var out flightlog.Channel
		for _, t := range rows {
			for k+1 < len(c.Time) && c.Time[k+1] <= t {
				k++
			}
			if len(c.Time) > 0 && c.Time[k] <= t {
				out.Time, out.Value = append(out.Time, t), append(out.Value, c.Value[k])
			}
		}
		rec.Channels[q] = out
	}
	return rec
}

// A sensor of 7 Hz in rows of 100 Hz, at rest for the first ten seconds: its samples come back, each at the time of its first row, and at
// rest at the same distance.
func TestHeldRows(t *testing.T) {
	r := stream(3)
	var c flightlog.Channel
	value, sample := 0.0, -1.0
	var first []float64 // rows with a new sample
	for i := range 6000 {
		now := 0.01 * float64(i)
		if n := math.Floor(now*7 + 1e-9); n > sample {
			sample = n
			first = append(first, now)
			if now > 10 {
				value = math.Round(1000*r.NormFloat64()) / 100
			}
		}
		c.Time, c.Value = append(c.Time, now), append(c.Value, value)
	}
	got := pick(c, heldRows(c))
	require.Len(t, got.Time, len(first))
	for i, want := range first {
		if want > 10.2 {
			require.InDelta(t, want, got.Time[i], 0.011, "sample %d", i)
		} else {
			require.InDelta(t, want, got.Time[i], 0.15, "sample %d at rest", i)
		}
	}
}

// What is no held channel stays as it is: one that never moves, one that is new in every row, slow motion that is rounded, and few runs.
func TestNotHeld(t *testing.T) {
	r := stream(4)
	for name, value := range map[string]func(now float64) float64{
		"never moves":   func(float64) float64 { return 3 },
		"new every row": func(float64) float64 { return r.NormFloat64() },
		"rounded":       func(now float64) float64 { return math.Round(8*math.Sin(now)+4*math.Sin(0.37*now)) / 10 },
		"rounded noise": func(float64) float64 { return math.Round(0.6 * r.NormFloat64()) },
		"a few steps":   func(now float64) float64 { return math.Floor(now / 5) },
		"at rest, then moves": func(now float64) float64 {
			if now < 30 {
				return 0
			}
			return r.NormFloat64()
		},
	} {
		require.Nil(t, heldRows(sampled(6000, 0.01, value)), name)
	}
}

// slowChannels come from sensors slower than the gyros.
func slowChannels() []flightlog.Quantity {
	return []flightlog.Quantity{flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate, flightlog.Airspeed,
		flightlog.StaticPressure, flightlog.Altitude, flightlog.AirTemperature}
}

// Six clean logs of 100 Hz that repeat satellite values of 5 Hz and air data of 50 Hz in every row: the lag is right, there is nothing to note, and
// the filter takes in as many measurements as without repeats.
func TestHeldCells(t *testing.T) {
	type outcome struct {
		lag, wanted float64
		findings    []flightlog.Finding
		satellite   [2]int // samples without repeats and with
		samples     [2]int // of the triangle
		err         error
	}
	for i, o := range both(6, func(i int) (o outcome) {
		log, err := fly(uint64(i+1), rehearse.DefaultWeather(), func(ins *rehearse.Instruments) {
			ins.FastRate, ins.AirRate, ins.SatelliteLag = 100, 50, 0.1+0.05*float64(i)
		})
		if err != nil {
			return outcome{err: err}
		}
		rec := log.Recording("rehearsed")
		plain, _ := gather(&rec, Setup{})
		held := everyRow(rec, slowChannels()...)
		again, _ := gather(&held, Setup{})
		p, findings := Run(&held, Setup{})
		return outcome{p.SatelliteLag.Value, 0.1 + 0.05*float64(i), findings, [2]int{len(plain.measured[northSpeed].Time), len(again.measured[northSpeed].Time)},
			[2]int{len(triangleSamples(plain)), p.Triangle.Samples}, nil}
	}) {
		require.NoError(t, o.err)
		require.InDelta(t, o.wanted, o.lag, 0.03, "seed %d", i+1)
		require.Empty(t, o.findings, "seed %d", i+1)
		require.InEpsilon(t, o.satellite[0], o.satellite[1], 0.01, "seed %d", i+1)
		require.InEpsilon(t, o.samples[0], o.samples[1], 0.01, "seed %d", i+1)
	}
}

// Satellite speeds at 100 Hz of their own are thinned before the triangle and the search for the lag, whose cost would grow with their square.
func TestFastSatelliteIsThinned(t *testing.T) {
	in := triangleInput(0, 2*math.Pi, 3, -2, 0.03)
	for k := range kinds {
		c := in.measured[k]
		if len(c.Time) == 0 {
			continue
		}
		l := newLine(c)
		in.measured[k] = sampled(5980, 0.01, l.at)
	}
	tr := windTriangle(in)
	require.Equal(t, 5980/5, tr.Samples)
	require.InDelta(t, 3, tr.WindNorth, 0.01)
	require.InDelta(t, 0.03, tr.Scale, 0.001)
	for k := range 3 {
		in.forces[k] = sampled(5980, 0.01, math.Sin)
	}
	across, along := in.lagProblems()
	require.Len(t, across.velocity[0].Time, 5980/5)
	require.Len(t, along.velocity[0].Time, 5980/5)
}
