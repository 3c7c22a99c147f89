package rehearse

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// flownOnce is a flight to spoil, shared by all tests.
var flownOnce = sync.OnceValues(func() (Log, error) {
	ac := model(3.9)
	return Fly(ac, ManoeuvreCards(ac.StallSpeed(atmosphere.SeaLevelDensity))[2], DefaultWeather(), DefaultInstruments(), seeded(1))
})

func clean(t *testing.T) Log {
	log, err := flownOnce()
	require.NoError(t, err)
	return log
}

// bitsOf copies everything in a log that can be compared to the last bit.
func bitsOf(l Log) [][]uint64 {
	all := append([][]float64{l.Time}, l.Columns...)
	for _, slice := range l.Truth.slices() {
		all = append(all, *slice)
	}
	out := make([][]uint64, len(all))
	for i, c := range all {
		for _, v := range c {
			out[i] = append(out[i], math.Float64bits(v))
		}
	}
	return out
}

// Every fault leaves the log it was given alone, changes only what it says, only when it says, and is the same for equal draws.
func TestFaultsTouchNothingElse(t *testing.T) {
	log := clean(t)
	before := bitsOf(log)
	for _, kind := range FaultKinds() {
		for seed := range uint64(5) {
			spoiled, fault, err := Spoil(log, kind, seeded(seed))
			require.NoError(t, err)
			require.Equal(t, kind, fault.Kind)
			require.NotEmpty(t, fault.Text)
			require.LessOrEqual(t, fault.Start, fault.End)
			again, same, err := Spoil(log, kind, seeded(seed))
			require.NoError(t, err)
			require.Equal(t, fault, same)
			after := bitsOf(spoiled)
			require.Equal(t, after, bitsOf(again))
			require.NotEqual(t, before, after)
			if kind == Gap {
				continue // has a test of its own
			}
			for i, q := range append([]flightlog.Quantity{"time"}, Quantities()...) {
				if kind == StalledClock || kind == BackwardTime {
					require.True(t, q == "time" || slices.Equal(before[i], after[i]))
					continue
				}
				if !slices.Contains(fault.Channels, q) {
					require.True(t, slices.Equal(before[i], after[i]), "%s: %s", kind, q)
					continue
				}
				for row, time := range log.Time {
					if (time < fault.Start || time > fault.End) && before[i][row] != after[i][row] {
						require.Failf(t, "changed", "%s: %s at %g s", kind, q, time)
					}
				}
			}
		}
	}
	require.Equal(t, before, bitsOf(log))
}

// spoils gives twenty faults of one kind.
func spoils(t *testing.T, kind FaultKind, look func(l Log, f Fault)) {
	for seed := range uint64(20) {
		l, f, err := Spoil(clean(t), kind, seeded(seed))
		require.NoError(t, err)
		look(l, f)
	}
}

func columnOf(t *testing.T, q flightlog.Quantity) int {
	i := slices.Index(Quantities(), q)
	require.GreaterOrEqual(t, i, 0)
	return i
}

func TestFaultsOfTheClock(t *testing.T) {
	log := clean(t)
	spoils(t, Gap, func(l Log, f Fault) {
		missing := len(log.Time) - len(l.Time)
		require.True(t, missing >= 24 && missing <= 251, "%d rows of 25 a second", missing)
		require.InDelta(t, float64(missing+1)/25, f.End-f.Start, 1e-9)
		i, _ := within(l, f.End-0.001, f.End)
		require.InDelta(t, f.End, l.Time[i], 1e-9)
		require.InDelta(t, f.Start, l.Time[i-1], 1e-9)
		for _, slice := range append(l.Columns, l.Truth.Alpha, l.Truth.Rudder) {
			require.Len(t, slice, len(l.Time))
		}
		require.Equal(t, log.Truth.Height[i+missing], l.Truth.Height[i])
	})
	spoils(t, StalledClock, func(l Log, f Fault) {
		same := 0
		for i := 1; i < len(l.Time); i++ {
			if l.Time[i] == l.Time[i-1] {
				same++
				require.InDelta(t, f.Start, l.Time[i], 1e-9)
			}
		}
		require.True(t, same >= 1 && same <= 19)
	})
	spoils(t, BackwardTime, func(l Log, f Fault) {
		steps := 0
		for i := 1; i < len(l.Time); i++ {
			if l.Time[i] < l.Time[i-1] {
				steps++
				require.InDelta(t, f.Start, l.Time[i-1], 1e-9)
				back := l.Time[i-1] - l.Time[i]
				require.True(t, back > 0.25 && back < 5)
				require.InDelta(t, f.Start+back+0.08, f.End, 1e-9)
			}
		}
		require.Equal(t, 1, steps)
	})
}

func TestFaultsOfOneChannel(t *testing.T) {
	log := clean(t)
	samples := func(column int, l Log, f Fault) (out []float64) {
		first, end := within(l, f.Start, f.End)
		for _, v := range l.Columns[column][first:end] {
			if !math.IsNaN(v) {
				out = append(out, v)
			}
		}
		return out
	}
	spoils(t, ChannelGap, func(l Log, f Fault) {
		require.Empty(t, samples(columnOf(t, f.Channel), l, f))
		require.True(t, f.End-f.Start >= 3 && f.End-f.Start <= 20)
	})
	spoils(t, Frozen, func(l Log, f Fault) {
		v := samples(columnOf(t, f.Channel), l, f)
		require.Greater(t, len(v), 15)
		require.Equal(t, slices.Min(v), slices.Max(v))
		first, _ := within(l, f.Start, f.End)
		require.Equal(t, v[0], lastBefore(l.Columns[columnOf(t, f.Channel)], first), "the last value before")
	})
	spoils(t, Spiked, func(l Log, f Fault) {
		at, n := columnOf(t, f.Channel), 0
		for i, v := range l.Columns[at] {
			if !math.IsNaN(v) && v != log.Columns[at][i] {
				require.Equal(t, f.Times[n], l.Time[i])
				least, most := spikeSize(at)
				size := math.Abs(v - log.Columns[at][i])
				require.True(t, size >= least-1e-6 && size <= most+1e-6 || v == 0, "%s by %g", f.Channel, size)
				n++
			}
		}
		require.True(t, n >= 3 && n <= 12 && n == len(f.Times))
	})
	spoils(t, Saturated, func(l Log, f Fault) {
		at := columnOf(t, f.Channel)
		limit := 0.0
		for _, v := range l.Columns[at] {
			limit = math.Max(limit, math.Abs(v))
		}
		n := 0
		for i, v := range l.Columns[at] {
			if math.Abs(log.Columns[at][i]) > limit {
				require.Equal(t, math.Copysign(limit, log.Columns[at][i]), v)
				n++
			}
		}
		require.Len(t, f.Times, n)
		require.True(t, float64(n) > 0.008*float64(len(l.Time)) && float64(n) < 0.05*float64(len(l.Time)), "%d", n)
	})
	spoils(t, ClippedServo, func(l Log, f Fault) {
		for _, q := range f.Channels {
			v := samples(columnOf(t, q), l, f)
			require.Equal(t, slices.Min(v), slices.Max(v))
			for _, other := range log.Columns[columnOf(t, q)] {
				require.Less(t, math.Abs(other), math.Abs(v[0]))
			}
		}
	})
	spoils(t, WrongSign, func(l Log, f Fault) {
		at := columnOf(t, f.Channel)
		for i, v := range l.Columns[at] {
			require.True(t, v == -log.Columns[at][i] || math.IsNaN(v) && math.IsNaN(log.Columns[at][i]))
		}
	})
}

func TestHeavierFlies(t *testing.T) {
	for seed := range uint64(5) {
		ac := ExampleAircraft()
		heavy, f := Heavier(ac, seeded(seed))
		require.Equal(t, HeavyAircraft, f.Kind)
		require.True(t, heavy.Body.Mass >= 1.4*ac.Body.Mass && heavy.Body.Mass <= 1.8*ac.Body.Mass)
		stall := heavy.StallSpeed(atmosphere.SeaLevelDensity)
		require.InEpsilon(t, ac.StallSpeed(atmosphere.SeaLevelDensity)*math.Sqrt(heavy.Body.Mass/15), stall, 1e-9)
		_, err := Fly(heavy, TrimCards(stall), DefaultWeather(), DefaultInstruments(), seeded(seed))
		require.NoError(t, err)
	}
}

func TestSpoilRefuses(t *testing.T) {
	_, _, err := Spoil(clean(t), "rust", seeded(1))
	require.ErrorContains(t, err, "rust")
	_, _, err = Spoil(shortLog(t), Gap, seeded(1))
	require.ErrorContains(t, err, "too short")
	_, _, err = Spoil(Log{}, Gap, seeded(1))
	require.ErrorContains(t, err, "0 columns")
	_, _, err = SpoilFile([]byte("a,b\n"), Dialect{}, TornRows, seeded(1))
	require.ErrorContains(t, err, "too short")
	_, _, err = SpoilFile([]byte(strings.Repeat("a,b\n", 200)), Dialect{}, TornRows, seeded(1))
	require.ErrorContains(t, err, "not a number")
	_, _, err = SpoilFile([]byte(strings.Repeat("1,2\n", 200)), Dialect{}, Gap, seeded(1))
	require.ErrorContains(t, err, "FileFaultKinds")
}
