package reduce

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog"
)

// truthOver is the mean of the made motion over a point.
func (m truth) truthOver(s []state, p TestPoint) (alpha, lift, drag float64) {
	n := 0.0
	for _, x := range s[int(p.Start/made):int(p.End/made)] {
		alpha, lift, n = alpha+x.alpha, lift+x.cl, n+1
	}
	alpha, lift = alpha/n, lift/n
	return alpha, lift, m.dragLeast + m.dragDueToLift*lift*lift
}

func reduced(t *testing.T, rec *flightlog.Recording) Reduction {
	t.Helper()
	r, err := Reduce(rec, inventedModel().context())
	require.NoError(t, err)
	return r
}

// withWhat gives the findings of a channel.
func about(findings []flightlog.Finding, q flightlog.Quantity) []flightlog.Finding {
	var out []flightlog.Finding
	for _, f := range findings {
		if f.Channel == q {
			out = append(out, f)
		}
	}
	return out
}

// Without noise the numbers of the truth come back: one point a glide, none across two speeds.
func TestReduceRecoversTruth(t *testing.T) {
	m := inventedModel()
	legs := glides()
	r := reduced(t, m.fly(legs, quiet(), 7))
	s := m.motion(legs)
	require.Len(t, r.Findings, 1)
	require.Contains(t, r.Findings[0].Consequence, "angle of attack is taken as pitch angle less path angle")
	var speeds []float64
	for _, p := range r.Points {
		if p.Kind != "glide" || !p.Kept {
			continue
		}
		speeds = append(speeds, p.Airspeed)
		alpha, lift, drag := m.truthOver(s, p)
		require.InDelta(t, alpha, p.Alpha, 0.01*degree)
		require.InEpsilon(t, lift, p.Lift, 0.001)
		require.InEpsilon(t, drag, p.Drag, 0.003)
		require.InDelta(t, m.elevatorZero+m.elevatorRate*lift, p.Elevator, 0.005*degree)
		require.InDelta(t, s[int((p.Start+p.End)/2/made)].gamma, p.PathAngle, 0.05*degree)
		require.Equal(t, Idle, p.Power)
		require.Equal(t, ByAttitude, p.AlphaMethod)
		require.True(t, p.HasDrag)
		require.InDelta(t, 1, p.LoadFactor, 0.01)
		require.InDelta(t, 8, p.End-p.Start, 0.11)
	}
	require.InDeltaSlice(t, []float64{16, 18.5, 22, 27}, speeds, 0.02)
}

// Worked by hand: 20 m/s in air of 1.2 kg/m³ is q = 240 Pa; 12 kg on 0.5 m² give CL = 12·9.80665/(240·0.5) = 0.98067.
// T = 290 K has viscosity 1.4580e-6·290^1.5/400.4 = 1.7983e-5 Pa·s (Sutherland), so that 0.25 m of chord has
// Re = 1.2·20·0.25/1.7983e-5 = 333,650.
func TestReduceByHand(t *testing.T) {
	const temperature, density = 290.0, 1.2
	pressure := density * 287.05287 * temperature
	rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{}}
	put := func(q flightlog.Quantity, value func(t, wiggle float64) float64) {
		var c flightlog.Channel
		for i := range 300 {
			wiggle := 1e-7 * math.Sin(float64(i)*1.7)
			c.Time, c.Value = append(c.Time, float64(i)*0.04), append(c.Value, value(float64(i)*0.04, wiggle))
		}
		rec.Channels[q] = c
	}
	alpha := 5 * degree
	put(flightlog.ForwardAcceleration, func(_, w float64) float64 { return 9.80665*math.Sin(alpha) + w })
	put(flightlog.DownAcceleration, func(_, w float64) float64 { return -9.80665*math.Cos(alpha) + w })
	put(flightlog.PitchAngle, func(_, w float64) float64 { return alpha + w })
	put(flightlog.RollAngle, func(_, w float64) float64 { return w })
	put(flightlog.PitchRate, func(_, w float64) float64 { return w })
	put(flightlog.Airspeed, func(_, w float64) float64 { return 20*math.Sqrt(density/1.225) + w })
	put(flightlog.StaticPressure, func(_, w float64) float64 { return pressure + w })
	put(flightlog.AirTemperature, func(_, w float64) float64 { return temperature + w })
	put(flightlog.Elevator, func(_, w float64) float64 { return 2 * degree })
	put(flightlog.Throttle, func(_, w float64) float64 { return 0.5 })
	r, err := Reduce(rec, Context{Flight: "hand", Mass: 12, WingArea: 0.5, MeanChord: 0.25})
	require.NoError(t, err)
	require.Len(t, r.Findings, 1)
	require.Contains(t, r.Findings[0].What, "ground speed")
	p := r.Points[0]
	require.InDelta(t, 1.2, p.Density, 1e-6)
	require.InDelta(t, 20, p.Airspeed, 0.005) // the compressible relation moves the last digit
	require.InDelta(t, 240, p.DynamicPressure, 0.1)
	require.InDelta(t, 0.98067, p.Lift, 5e-4)
	require.InDelta(t, 333650, p.Reynolds, 100)
	require.InDelta(t, alpha, p.Alpha, 1e-6)
	require.Equal(t, "level", p.Kind)
	require.Equal(t, Level, p.Power)
	require.False(t, p.HasDrag)
	require.True(t, p.Kept)
}

// The stated standard deviations describe the errors. Measured once over 300 other flights at each gust (1200 glides or more):
// 91 to 98 % of points lie within two of them, and the root mean square of error over standard deviation is 0.8
// to 1.2; lift in strong gusts is the lowest. The bounds are these figures widened by three standard deviations of this
// sample's share (binomial) and root mean square (about 0.12, with tails longer than normal), so they catch a wrong
// formula, not a small drift.
func TestStandardDeviationsHold(t *testing.T) {
	m := inventedModel()
	s := m.motion(glides())
	for _, gust := range []float64{0.3, 0.8} {
		sd := usual()
		sd.gust = gust
		ratios := map[string][]float64{}
		for seed := range uint64(18) {
			for _, p := range reduced(t, m.fly(glides(), sd, seed)).Points {
				if p.Kind != "glide" || !p.Kept {
					continue
				}
				alpha, lift, drag := m.truthOver(s, p)
				ratios["alpha"] = append(ratios["alpha"], (p.Alpha-alpha)/p.AlphaSD)
				ratios["lift"] = append(ratios["lift"], (p.Lift-lift)/p.LiftSD)
				ratios["drag"] = append(ratios["drag"], (p.Drag-drag)/p.DragSD)
			}
		}
		for name, z := range ratios {
			require.GreaterOrEqual(t, len(z), 65, "a glide of ten seconds gives a point")
			inside, square := 0.0, 0.0
			for _, v := range z {
				square += v * v / float64(len(z))
				if math.Abs(v) <= 2 {
					inside += 1 / float64(len(z))
				}
			}
			require.Greater(t, inside, 0.91-3*math.Sqrt(0.91*0.09/float64(len(z))), "%s, gusts of %g m/s", name, gust)
			require.Less(t, math.Sqrt(square), 1.2+0.36, "%s, gusts of %g m/s", name, gust)
			require.Greater(t, math.Sqrt(square), 0.8-0.36, "%s, gusts of %g m/s", name, gust)
		}
	}
}

// Turns, accelerations, powered descents and part-throttle climbs are told and dropped.
func TestReduceDrops(t *testing.T) {
	legs := []leg{{14, 20, 0.5, 0, 0}, {14, 20, 0.6, 0, 30 * degree}, {14, 20, 0.4, -8 * degree, 0}, {14, 20, 0.7, 8 * degree, 0}, {14, 20, 1, 12 * degree, 0}}
	r := reduced(t, inventedModel().fly(legs, usual(), 3))
	reasonAt := func(at float64) TestPoint {
		for _, p := range r.Points {
			if p.Start <= at && at <= p.End {
				return p
			}
		}
		t.Fatalf("no point at %g s", at)
		return TestPoint{}
	}
	require.Equal(t, "level", reasonAt(8).Kind)
	require.True(t, reasonAt(8).Kept)
	require.Regexp(t, `^bank is 30\.\d°, over 10°`, reasonAt(24).Reason)
	require.Equal(t, "powered descent: neither a glide nor level flight", reasonAt(38).Reason)
	require.Equal(t, "climb at part throttle: neither level nor full power", reasonAt(52).Reason)
	require.True(t, reasonAt(66).Kept)
	require.Equal(t, Full, reasonAt(66).Power)
	for _, p := range r.Points {
		require.NotEmpty(t, p.Reason)
	}
}

// A speed that changes slowly is quasi-steady, and lift and elevator keep to one line; a fast change is dropped.
func TestReduceSlowSpeedChange(t *testing.T) {
	m := inventedModel()
	var slow []leg
	for k := range 8 {
		slow = append(slow, leg{4, 22 - 0.5*float64(k), 0, 0, 0}) // 0.6 % a second
	}
	kept := 0
	for _, p := range reduced(t, m.fly(slow, quiet(), 1)).Points {
		if p.Kept {
			kept++
			require.InDelta(t, m.elevatorZero+m.elevatorRate*p.Lift, p.Elevator, 0.02*degree)
		}
	}
	require.Positive(t, kept)
	fast := []leg{{4, 28, 0, 0, 0}, {4, 24, 0, 0, 0}, {4, 20, 0, 0, 0}, {4, 16, 0, 0, 0}}
	for _, p := range reduced(t, m.fly(fast, quiet(), 1)).Points {
		require.False(t, p.Kept && p.Start > 4, "%+v", p)
	}
}

func TestReduceVanePreferred(t *testing.T) {
	rec := inventedModel().fly(glides(), usual(), 2)
	pitch := rec.Channels[flightlog.PitchAngle]
	vane := flightlog.Channel{Time: pitch.Time, Value: make([]float64, len(pitch.Time))}
	for i := range vane.Value {
		vane.Value[i] = 6*degree + 1e-4*math.Sin(float64(i))
	}
	rec.Channels[flightlog.AngleOfAttack] = vane
	for _, p := range reduced(t, rec).Points {
		require.Equal(t, "vane", p.AlphaMethod)
		require.InDelta(t, 6*degree, p.Alpha, 1e-4)
	}
}

// What nobody wrote down is taken from the standard atmosphere, and told. Static pressure and temperature that
// were written down are used.
func TestReduceStandardAirIsTold(t *testing.T) {
	m := inventedModel()
	rec := m.fly(glides(), usual(), 2)
	require.Empty(t, about(reduced(t, rec).Findings, flightlog.StaticPressure))
	c := m.context()
	c.Pressure, c.Temperature = 0, 0
	r, err := Reduce(rec, c)
	require.NoError(t, err)
	require.Contains(t, about(r.Findings, flightlog.StaticPressure)[0].What, "standard pressure at sea level is used")
	require.Contains(t, about(r.Findings, flightlog.AirTemperature)[0].What, "15 °C at the field is used")
	require.InDelta(t, 1.225*(1-9.6e-5*150), r.Points[0].Density, 0.002, "density of the standard atmosphere falls by 0.96 % in 100 m (ISO 2533)")
}

func TestReduceSideslip(t *testing.T) {
	rec := inventedModel().fly([]leg{{14, 20, 0.5, 0, 0}, {14, 20, 0.5, 0, 0}, {30, 20, 0.5, 0, 0}}, usual(), 4)
	pitch := rec.Channels[flightlog.PitchAngle]
	rudder := flightlog.Channel{Time: pitch.Time, Value: make([]float64, len(pitch.Time))}
	for i, s := range pitch.Time {
		if s > 15 && s < 27 {
			rudder.Value[i] = 10 * degree
		}
	}
	rec.Channels[flightlog.RudderLeft] = rudder
	var slips int
	for _, p := range reduced(t, rec).Points {
		if p.Kind == "sideslip" {
			slips++
			require.False(t, p.Kept)
			require.Contains(t, p.Reason, "not a trim point")
			require.True(t, p.End > 15 && p.Start < 27)
		}
	}
	require.Positive(t, slips)
}

// A nose that drops with the elevator held, from the greatest lift of the flight, keeps test points away.
func TestReduceStallBreak(t *testing.T) {
	m := inventedModel()
	rec := m.fly([]leg{{12, 22, 0, 0, 0}, {12, 15, 0, 0, 0}, {12, 22, 0, 0, 0}}, usual(), 5)
	rate, down := rec.Channels[flightlog.PitchRate], rec.Channels[flightlog.DownAcceleration]
	for i, s := range rate.Time {
		if s > 20 && s < 21 {
			rate.Value[i] -= 30 * degree
			down.Value[i] += 6
		}
	}
	r := reduced(t, rec)
	found := about(r.Findings, flightlog.PitchRate)
	require.NotEmpty(t, found)
	require.Contains(t, found[len(found)-1].What, "a stall break")
	at := found[len(found)-1].Start
	require.InDelta(t, 19.5, at, 0.7)
	for _, p := range r.Points {
		require.False(t, p.Kept && p.End > at-breakMargin && p.Start < at+breakMargin, "%+v", p)
	}
}

// A gap is not bridged, and a channel that freezes gives no point.
func TestReduceGapAndFrozen(t *testing.T) {
	rec := inventedModel().fly(glides(), usual(), 6)
	for q, c := range rec.Channels {
		var cut flightlog.Channel
		for i, s := range c.Time {
			if s < 20 || s > 21.5 {
				cut.Time, cut.Value = append(cut.Time, s), append(cut.Value, c.Value[i])
			}
		}
		if q == flightlog.Airspeed {
			for i, s := range cut.Time {
				if s > 30 && s < 37 {
					cut.Value[i] = 18
				}
			}
		}
		rec.Channels[q] = cut
	}
	r := reduced(t, rec)
	for _, p := range r.Points {
		require.False(t, p.Start < 20.5 && p.End > 20.5, "%+v", p)
		require.False(t, p.Start < 34 && p.End > 34, "%+v", p)
	}
	require.NotEmpty(t, about(r.Findings, ""))
	require.Contains(t, about(r.Findings, flightlog.Airspeed)[0].What, "frozen")
}

// What makes every point wrong leaves the recording out, with the reason.
func TestReduceRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*flightlog.Recording)
		what  string
	}{
		"wrong unit": {func(r *flightlog.Recording) {
			c := r.Channels[flightlog.DownAcceleration]
			for i := range c.Value {
				c.Value[i] /= 9.80665
			}
		}, "where gravity gives 9.8"},
		"no elevator": {func(r *flightlog.Recording) { delete(r.Channels, flightlog.Elevator) }, "no samples of elevator"},
		"no height":   {func(r *flightlog.Recording) { delete(r.Channels, flightlog.Altitude) }, "no samples of altitude"},
	} {
		rec := inventedModel().fly(glides(), usual(), 8)
		c.spoil(rec)
		r := reduced(t, rec)
		require.Empty(t, r.Points, name)
		found := false
		for _, f := range r.Findings {
			if f.Severity == flightlog.Refusal {
				found = true
				require.Contains(t, f.What, c.what)
				require.NotEmpty(t, f.Consequence)
			}
		}
		require.True(t, found, name)
	}
}

func TestReduceWithoutThrottleKeepsNothing(t *testing.T) {
	rec := inventedModel().fly(glides(), usual(), 8)
	delete(rec.Channels, flightlog.Throttle)
	r := reduced(t, rec)
	require.NotEmpty(t, r.Points)
	for _, p := range r.Points {
		require.False(t, p.Kept)
		require.Contains(t, p.Reason, "no throttle channel")
	}
}

func TestReduceOnTheGround(t *testing.T) {
	rec := inventedModel().fly([]leg{{20, 20, 0.5, 0, 0}}, usual(), 9)
	for i := range rec.Channels[flightlog.Airspeed].Value {
		rec.Channels[flightlog.Airspeed].Value[i] /= 10
	}
	r := reduced(t, rec)
	require.Empty(t, r.Points)
	require.Contains(t, about(r.Findings, flightlog.Airspeed)[0].Consequence, "no flight")
}

func TestReduceNeedsContext(t *testing.T) {
	_, err := Reduce(&flightlog.Recording{}, Context{Flight: "F9", Mass: 12})
	require.EqualError(t, err, "reduce flight \"F9\": the wing area of the model is 0 m²; it must be positive\n"+
		"reduce flight \"F9\": the mean chord of the model is 0 m; it must be positive")
	_, err = Reduce(nil, inventedModel().context())
	require.ErrorContains(t, err, "no recording")
	r := reduced(t, &flightlog.Recording{})
	require.Empty(t, r.Points)
	require.Equal(t, flightlog.Refusal, r.Findings[0].Severity)
}

func TestReduceIsRepeatable(t *testing.T) {
	m := inventedModel()
	first := reduced(t, m.fly(glides(), usual(), 11))
	require.Equal(t, first, reduced(t, m.fly(glides(), usual(), 11)))
}

// Whatever the channels hold, Reduce neither panics nor writes a number that JSON cannot hold.
func TestReduceOfNonsense(t *testing.T) {
	m := inventedModel()
	good := m.fly(glides(), usual(), 12)
	rapid.Check(t, func(t *rapid.T) {
		rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{}}
		for _, q := range flightlog.Quantities() {
			c := good.Channels[q]
			n := rapid.SampledFrom([]int{0, 1, 2, 100, len(c.Time), len(c.Time), len(c.Time), len(c.Time)}).Draw(t, "samples")
			by := rapid.SampledFrom([]float64{1, 1, 1, 1, 0, -1, 1e-3, 1e6}).Draw(t, "factor")
			var spoilt flightlog.Channel
			for i := range min(n, len(c.Time)) {
				spoilt.Time, spoilt.Value = append(spoilt.Time, c.Time[i]), append(spoilt.Value, c.Value[i]*by)
			}
			rec.Channels[q] = spoilt
		}
		r, err := Reduce(rec, m.context())
		require.NoError(t, err)
		_, err = json.Marshal(r)
		require.NoError(t, err)
		for _, p := range r.Points {
			require.NotEmpty(t, p.Reason)
			require.Positive(t, p.AlphaSD)
		}
	})
}
