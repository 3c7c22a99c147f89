package manoeuvre_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// made is a recording worked out from formulas: by default a minute of level flight at 22 m/s, heading east, behind ten seconds
// at rest and ten of climb.
type made map[flightlog.Quantity]func(t float64) float64

const madeLength = 90.0 // s

func level() made {
	constant := func(v float64) func(float64) float64 { return func(float64) float64 { return v } }
	return made{
		flightlog.Airspeed: func(t float64) float64 {
			if t < 10 {
				return 0
			}
			return 22
		},
		flightlog.ClimbRate: func(t float64) float64 {
			if t < 10 || t > 20 {
				return 0
			}
			return 5
		},
		flightlog.Throttle: constant(0.5), flightlog.RollAngle: constant(0), flightlog.Heading: constant(math.Pi / 2),
		flightlog.PitchRate: constant(0), flightlog.Elevator: constant(2 * degree), flightlog.Aileron: constant(-1 * degree),
		flightlog.RudderLeft: constant(0), flightlog.RudderRight: constant(0),
	}
}

// recording samples the formulas. A little ripple of a twentieth of a degree lies on every angle.
func (m made) recording(rate float64) *flightlog.Recording {
	rec := &flightlog.Recording{Source: "made", Channels: map[flightlog.Quantity]flightlog.Channel{}}
	for q, value := range m {
		var c flightlog.Channel
		for i := range int(madeLength * rate) {
			t := float64(i) / rate
			c.Time = append(c.Time, t)
			c.Value = append(c.Value, value(t)+0.05*degree*math.Sin(37*t))
		}
		rec.Channels[q] = c
	}
	return rec
}

// with adds steps of the sizes [rad] and widths [s] to a channel from a time on.
func (m made) with(q flightlog.Quantity, start float64, sizes, widths []float64) made {
	before := m[q]
	m[q] = func(t float64) float64 {
		at := start
		for i, w := range widths {
			if t >= at && t < at+w {
				return before(t) + sizes[i]
			}
			at += w
		}
		return before(t)
	}
	return m
}

// of picks the manoeuvres of some kinds.
func of(found []manoeuvre.Manoeuvre, kinds ...manoeuvre.Kind) []manoeuvre.Manoeuvre {
	var out []manoeuvre.Manoeuvre
	for _, m := range found {
		for _, k := range kinds {
			if m.Kind == k {
				out = append(out, m)
			}
		}
	}
	return out
}

func TestInputsAreMeasured(t *testing.T) {
	for _, rate := range []float64{10, 25, 100, 500} {
		m := level().
			with(flightlog.Elevator, 40, []float64{4 * degree, -4 * degree}, []float64{0.6, 0.5}).
			with(flightlog.Aileron, 50, []float64{-3 * degree, 3 * degree, -3 * degree, 3 * degree}, []float64{0.9, 0.6, 0.3, 0.3})
		found := of(manoeuvre.Find(m.recording(rate)), manoeuvre.Doublet, manoeuvre.Multistep)
		require.Len(t, found, 2, "%g Hz", rate)
		tolerance := math.Max(0.03, 1/rate)

		doublet := found[0]
		require.Equal(t, manoeuvre.Doublet, doublet.Kind)
		require.Equal(t, flightlog.Elevator, doublet.Control)
		require.InDelta(t, 40, doublet.Start, tolerance)
		require.InDeltaSlice(t, []float64{0.6, 0.5}, doublet.Widths, tolerance)
		require.InDelta(t, 4*degree, doublet.Size, 0.15*degree)
		require.InDelta(t, 50, doublet.End, 2*tolerance, "until the next input")
		require.InDelta(t, 22, doublet.Airspeed, 0.01)
		require.Equal(t, "elevator doublet, 4.0° for 0.6 + 0.5 s, then 8.9 s hands off", doublet.Detail)

		multistep := found[1]
		require.Equal(t, manoeuvre.Multistep, multistep.Kind)
		require.Equal(t, flightlog.Aileron, multistep.Control)
		require.InDelta(t, 50, multistep.Start, tolerance)
		require.InDeltaSlice(t, []float64{0.9, 0.6, 0.3, 0.3}, multistep.Widths, tolerance)
		require.InDelta(t, -3*degree, multistep.Size, 0.15*degree)
		require.InDelta(t, 12, multistep.HandsOff, 2*tolerance, "the longest that is watched")
	}
}

func TestInputSplitsLevelRun(t *testing.T) {
	m := level().with(flightlog.RudderLeft, 45, []float64{5 * degree, -5 * degree}, []float64{0.4, 0.4}).
		with(flightlog.RudderRight, 45, []float64{5 * degree, -5 * degree}, []float64{0.4, 0.4})
	found := manoeuvre.Find(m.recording(50))
	require.Len(t, found, 4)
	for i, want := range []struct {
		kind       manoeuvre.Kind
		start, end float64
	}{{manoeuvre.Climb, 10, 20}, {manoeuvre.Level, 20, 45}, {manoeuvre.Doublet, 45, 57.8}, {manoeuvre.Level, 57.8, 90}} {
		require.Equal(t, want.kind, found[i].Kind)
		require.InDelta(t, want.start, found[i].Start, 1.5)
		require.InDelta(t, want.end, found[i].End, 1.5)
	}
	require.InDelta(t, 5*degree, found[2].Size, 0.15*degree, "rudders that move together count once")
}

// What is no input: a pulse, two pulses to one side, a slow swing, a wobble among wobbles, sticks stirred on the ground.
func TestNoInputs(t *testing.T) {
	swing := level()
	swing[flightlog.Aileron] = func(t float64) float64 {
		if t < 40 || t > 44 {
			return 0
		}
		return 4 * degree * math.Sin(math.Pi/2*(t-40))
	}
	busy := level()
	busy[flightlog.Aileron] = func(t float64) float64 { return 3 * degree * math.Sin(5*t) * math.Sin(0.9*t) }
	for name, m := range map[string]made{
		"pulse":         level().with(flightlog.Elevator, 40, []float64{4 * degree}, []float64{0.5}),
		"two pulses":    level().with(flightlog.Elevator, 40, []float64{4 * degree, 0, 4 * degree}, []float64{0.5, 0.3, 0.5}),
		"far apart":     level().with(flightlog.Elevator, 40, []float64{4 * degree, 0, -4 * degree}, []float64{0.5, 1.5, 0.5}),
		"new trim":      level().with(flightlog.Elevator, 40, []float64{4 * degree, -4 * degree, 3 * degree}, []float64{0.5, 0.5, 60}),
		"on the ground": level().with(flightlog.Elevator, 5, []float64{9 * degree, -9 * degree}, []float64{0.5, 0.5}),
		"swing":         swing,
		"busy":          busy,
	} {
		require.Empty(t, of(manoeuvre.Find(m.recording(50)), manoeuvre.Doublet, manoeuvre.Multistep), name)
	}
}

// One rudder at a time is an input; both out together are an airbrake.
func TestRuddersThatWorkOneAtATime(t *testing.T) {
	one := level().with(flightlog.RudderLeft, 45, []float64{6 * degree}, []float64{0.4}).
		with(flightlog.RudderRight, 45.4, []float64{-6 * degree}, []float64{0.5})
	found := of(manoeuvre.Find(one.recording(50)), manoeuvre.Doublet)
	require.Len(t, found, 1)
	require.Equal(t, flightlog.RudderLeft, found[0].Control)
	require.InDelta(t, 6*degree, found[0].Size, 0.2*degree)
	require.InDeltaSlice(t, []float64{0.4, 0.5}, found[0].Widths, 0.03)

	both := level().with(flightlog.RudderLeft, 45, []float64{6 * degree, -6 * degree}, []float64{0.4, 0.5}).
		with(flightlog.RudderRight, 45, []float64{-6 * degree, 6 * degree}, []float64{0.4, 0.5})
	require.Empty(t, of(manoeuvre.Find(both.recording(50)), manoeuvre.Doublet, manoeuvre.Multistep))
}

// banked turns at a bank between two times, in coordinated flight.
func banked(bank, from, to float64) made {
	m := level()
	rate := 9.80665 * math.Tan(bank) / 22
	m[flightlog.RollAngle] = func(t float64) float64 {
		if t < from || t > to {
			return 0
		}
		return bank
	}
	m[flightlog.Heading] = func(t float64) float64 {
		return math.Mod(2*math.Pi+rate*math.Max(0, math.Min(t, to)-from), 2*math.Pi)
	}
	return m
}

func TestTurnAndCircle(t *testing.T) {
	const bank = 30 * degree
	round := 2 * math.Pi * 22 / (9.80665 * math.Tan(bank)) // s
	for _, c := range []struct {
		kind    manoeuvre.Kind
		bank    float64
		seconds float64
		detail  string
	}{
		{manoeuvre.Turn, bank, 0.6 * round, "turn to the right at 30° of bank"},
		{manoeuvre.Turn, -bank, 0.9 * round, "turn to the left at 30° of bank"},
		{manoeuvre.Circle, -bank, 1.1 * round, "circle to the left at 30° of bank"},
	} {
		m := banked(c.bank, 30, 30+c.seconds)
		found := of(manoeuvre.Find(m.recording(50)), manoeuvre.Turn, manoeuvre.Circle)
		require.Len(t, found, 1)
		require.Equal(t, c.kind, found[0].Kind)
		require.Contains(t, found[0].Detail, c.detail)
		require.InDelta(t, 30, found[0].Start, 0.7)
		require.InDelta(t, 30+c.seconds, found[0].End, 0.7)
		require.InDelta(t, c.bank/bank*2*math.Pi*c.seconds/round, found[0].Turned, 15*degree)

		for _, without := range []flightlog.Quantity{flightlog.RollAngle, flightlog.Heading} {
			rec := m.recording(50)
			delete(rec.Channels, without)
			again := of(manoeuvre.Find(rec), manoeuvre.Turn, manoeuvre.Circle)
			require.Len(t, again, 1, "without %s", without)
			require.Equal(t, c.kind, again[0].Kind)
			require.InDelta(t, c.bank, again[0].Bank, 2*degree)
		}
	}
}

func TestClimbingTurnIsAClimb(t *testing.T) {
	m := banked(30*degree, 30, 50)
	m[flightlog.ClimbRate] = func(t float64) float64 {
		if t < 28 || t > 52 {
			return 0
		}
		return 5
	}
	found := manoeuvre.Find(m.recording(50))
	require.Empty(t, of(found, manoeuvre.Turn, manoeuvre.Circle))
	climbs := of(found, manoeuvre.Climb)
	require.Len(t, climbs, 1)
	require.InDelta(t, 28, climbs[0].Start, 1)
	require.InDelta(t, 52, climbs[0].End, 1)
}

func TestSideslipIsNotATurn(t *testing.T) {
	m := level().with(flightlog.RudderLeft, 40, []float64{8 * degree}, []float64{12}).
		with(flightlog.RudderRight, 40, []float64{8 * degree}, []float64{12}).
		with(flightlog.RollAngle, 40, []float64{14 * degree}, []float64{12})
	found := manoeuvre.Find(m.recording(50))
	slips := of(found, manoeuvre.Sideslip)
	require.Len(t, slips, 1)
	require.InDelta(t, 40, slips[0].Start, 0.5)
	require.InDelta(t, 52, slips[0].End, 0.5)
	require.InDelta(t, 8*degree, slips[0].Size, 0.1*degree)
	require.Contains(t, slips[0].Detail, "sideslip with 8.0° of left rudder for 1")
	require.Contains(t, slips[0].Detail, "at 14° of bank to the right")
	require.Empty(t, of(found, manoeuvre.Turn))

	// the same rudder in a turn that goes round is a turn
	turn := banked(30*degree, 40, 52).with(flightlog.RudderLeft, 40, []float64{-8 * degree}, []float64{12}).
		with(flightlog.RudderRight, 40, []float64{-8 * degree}, []float64{12})
	found = manoeuvre.Find(turn.recording(50))
	require.Empty(t, of(found, manoeuvre.Sideslip))
	require.Len(t, of(found, manoeuvre.Turn), 1)
}

// slowed is a deceleration at 1 m/s² from 22 to 14 m/s with the throttle closed, held there a second and picked up again.
func slowed() made {
	m := level()
	m[flightlog.Airspeed] = func(t float64) float64 {
		switch {
		case t < 10:
			return 0
		case t < 40:
			return 22
		case t < 49:
			return math.Max(14, 22-(t-40))
		}
		return math.Min(22, 14+2*(t-49))
	}
	m[flightlog.Throttle] = func(t float64) float64 {
		if t > 40 && t < 49 {
			return 0
		}
		return 0.5
	}
	m[flightlog.Elevator] = func(t float64) float64 {
		if t < 40 || t > 49 {
			return 0
		}
		return 0.5 * degree * (t - 40)
	}
	return m
}

func TestDecelerationAndBreak(t *testing.T) {
	m := slowed()
	found := of(manoeuvre.Find(m.recording(50)), manoeuvre.Deceleration)
	require.Len(t, found, 1)
	require.InDelta(t, 40, found[0].Start, 1)
	require.InDelta(t, 49, found[0].End, 0.5)
	require.InDelta(t, 1, found[0].Slowing, 0.12)
	require.InDelta(t, 14, found[0].Lowest, 0.3)
	require.Zero(t, found[0].Break)
	require.Contains(t, found[0].Detail, "no break shows")

	m[flightlog.PitchRate] = func(t float64) float64 { // the nose falls with the elevator still going up
		if t > 48 && t < 49 {
			return -15 * degree
		}
		return 0
	}
	found = of(manoeuvre.Find(m.recording(50)), manoeuvre.Deceleration)
	require.Len(t, found, 1)
	require.InDelta(t, 48, found[0].Break, 0.3)
	require.Equal(t, found[0].Break, found[0].End)

	elevator := m[flightlog.Elevator]
	m[flightlog.Elevator] = func(t float64) float64 { // now somebody pushes first
		if t > 47.5 {
			return 0
		}
		return elevator(t)
	}
	found = of(manoeuvre.Find(m.recording(50)), manoeuvre.Deceleration)
	require.Len(t, found, 1)
	require.Zero(t, found[0].Break)
}

// Slowing down for the next run is no deceleration: the speed stays low, or is not low for this flight.
func TestSlowingDownIsNoDeceleration(t *testing.T) {
	stays := slowed()
	stays[flightlog.Airspeed] = func(t float64) float64 {
		if t < 10 {
			return 0
		}
		return math.Max(14, math.Min(22, 22-(t-40)))
	}
	require.Empty(t, of(manoeuvre.Find(stays.recording(50)), manoeuvre.Deceleration))
	slight := slowed()
	before := slight[flightlog.Airspeed]
	slight[flightlog.Airspeed] = func(t float64) float64 {
		if t < 10 {
			return 0
		}
		return 19.5 + (before(t)-14)*2.5/8
	}
	require.Empty(t, of(manoeuvre.Find(slight.recording(50)), manoeuvre.Deceleration))
}

func TestGlideNeedsAClosedThrottle(t *testing.T) {
	m := level()
	m[flightlog.ClimbRate] = func(t float64) float64 {
		if t > 40 && t < 70 {
			return -2
		}
		return 0
	}
	require.Empty(t, of(manoeuvre.Find(m.recording(25)), manoeuvre.Glide), "a powered descent")
	m[flightlog.Throttle] = func(t float64) float64 {
		if t > 40 && t < 70 {
			return 0
		}
		return 0.5
	}
	rec := m.recording(25)
	found := of(manoeuvre.Find(rec), manoeuvre.Glide)
	require.Len(t, found, 1)
	require.InDelta(t, 40, found[0].Start, 0.5)
	require.InDelta(t, 70, found[0].End, 0.5)
	require.Equal(t, "glide with the throttle closed for 30 s at 22.0 m/s", found[0].Detail)

	rec.Channels[flightlog.Throttle] = onChange(rec.Channels[flightlog.Throttle], 0.1) // three samples
	require.Len(t, of(manoeuvre.Find(rec), manoeuvre.Glide), 1)
}
