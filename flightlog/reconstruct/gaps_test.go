package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// clockJump moves everything after a time by some seconds, as a clock that is set in flight does.
func clockJump(rec flightlog.Recording, at, by float64) flightlog.Recording {
	for q, c := range rec.Channels {
		n := flightlog.Channel{Time: append([]float64{}, c.Time...), Value: c.Value}
		for i := range n.Time {
			if n.Time[i] >= at {
				n.Time[i] += by
			}
		}
		rec.Channels[q] = n
	}
	return rec
}

// A clock that jumps to the time of day in seconds since long ago is a sentence, not terabytes.
func TestClockOfAnotherEpoch(t *testing.T) {
	log := calmFlight(t)
	rec := clockJump(log.Recording("rehearsed"), 120, 1.7e9)
	p, findings := Run(&rec, Setup{})
	require.False(t, p.Enough)
	f, ok := told(findings, "longer than any model flies")
	require.True(t, ok, findings)
	require.Equal(t, flightlog.Loss, f.Severity)
	require.Contains(t, f.Consequence, "time column")
	require.Contains(t, WindTriangle(&rec, Setup{}).Why, "longer than any model flies")
}

// A clock that jumps by hours costs no steps: the path has both ends, says what lies between, and holds nothing there.
func TestClockJump(t *testing.T) {
	const at, by = 120.0, 20000.0
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	plain := prepared(t, &rec, Setup{})
	rec = clockJump(rec, at, by)
	f := prepared(t, &rec, Setup{})
	require.InDelta(t, len(plain.tl.events), len(f.tl.events), 50)

	p, findings := Run(&rec, Setup{})
	require.True(t, p.Enough, findings)
	loss, ok := told(findings, "nothing that can be used is recorded for 20000 s")
	require.True(t, ok, findings)
	require.Equal(t, flightlog.Loss, loss.Severity)
	require.InDelta(t, at, loss.Start, 0.5)
	require.InDelta(t, at+by, loss.End, 0.5)
	_, lost := told(findings, "lost itself")
	require.False(t, lost, findings)
	step, inside := p.Time[1]-p.Time[0], 0
	worst := [2]float64{}
	for i, now := range p.Time {
		require.InDelta(t, p.Time[0]+float64(i)*step, now, 1e-3)
		switch {
		case now > at+1 && now < at+by-1:
			require.False(t, p.Airborne[i])
			require.True(t, math.IsNaN(p.Alpha[i]) && math.IsNaN(p.Height[i]))
			inside++
		case p.Airborne[i] && now < at-5:
			worst[0] = math.Max(worst[0], math.Abs(p.Alpha[i]-log.Truth.Alpha[int(math.Round(now/0.04))]))
		case p.Airborne[i] && now > at+by+10:
			worst[1] = math.Max(worst[1], math.Abs(p.Alpha[i]-log.Truth.Alpha[int(math.Round((now-by)/0.04))]))
		}
	}
	require.Greater(t, inside, 100000)
	require.Less(t, worst[0], 2*degree)
	require.Greater(t, worst[1], 0.0)
	require.Less(t, worst[1], 2*degree)
}

// Silence is where no channel speaks; what one of them covers is none.
func TestSilences(t *testing.T) {
	part := func(from, to float64) (c flightlog.Channel) {
		for now := from; now <= to; now++ {
			c.Time, c.Value = append(c.Time, now), append(c.Value, 0)
		}
		return c
	}
	join := func(a, b flightlog.Channel) flightlog.Channel {
		return flightlog.Channel{Time: append(a.Time, b.Time...), Value: append(a.Value, b.Value...)}
	}
	in := &input{start: 0, end: 200}
	for k := range 3 {
		in.rates[k] = join(part(0, 50), part(100, 200))
		in.forces[k] = join(part(0, 60), part(90, 200))
	}
	in.measured[height] = join(part(-5, 55), part(80, 170))
	require.Equal(t, []Stretch{{Start: 60, End: 80}}, in.silences())
	in.measured[airspeed] = part(0, 200)
	require.Empty(t, in.silences())
}
