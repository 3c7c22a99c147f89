package reduce

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
)

// elevatorDoublet is a rehearsed recording, with the first elevator doublet that was found in it.
func elevatorDoublet(t *testing.T) (sheet, flightlog.Recording, manoeuvre.Manoeuvre) {
	t.Helper()
	s := inputSheet(3, rehearse.DefaultWeather())
	rec := s.fly(t, rehearse.DefaultInstruments()).Recording("rehearsed")
	for _, m := range manoeuvre.Find(&rec) {
		if m.Kind == manoeuvre.Doublet && m.Control == flightlog.Elevator {
			return s, rec, m
		}
	}
	t.Fatal("no doublet")
	return s, rec, manoeuvre.Manoeuvre{}
}

// change writes over the samples of a channel in a stretch; where by says false, they go out.
func change(rec *flightlog.Recording, q flightlog.Quantity, start, end float64, by func(t, v float64) (float64, bool)) {
	var out flightlog.Channel
	c := rec.Channels[q]
	for i, t := range c.Time {
		v, stays := c.Value[i], true
		if t >= start && t <= end {
			v, stays = by(t, v)
		}
		if stays {
			out.Time, out.Value = append(out.Time, t), append(out.Value, v)
		}
	}
	rec.Channels[q] = out
}

func gone(float64, float64) (float64, bool) { return 0, false }

// segmentAt gives the segment of an input, or what is said about it.
func segmentAt(r Reduction, at float64) (end float64, said string) {
	for _, s := range r.Segments {
		if e := s.Start + float64(len(s.Roll)-1)*s.Step; s.Start < at && e > at {
			return e, ""
		}
	}
	for _, f := range r.Findings {
		if f.Start <= at+0.1 && f.End >= at && f.Channel == flightlog.Elevator {
			said += f.What + "; " + f.Consequence + "\n"
		}
	}
	return 0, said
}

// A gap, a clipped gyro and a mark take the input that they are in, in words; behind it they cut the free response.
func TestSegmentsAreCutOrLeftOut(t *testing.T) {
	s, good, m := elevatorDoublet(t)
	steps := m.Start + m.Widths[0] + m.Widths[1]
	inertial := []flightlog.Quantity{flightlog.PitchRate, flightlog.DownAcceleration}
	for name, c := range map[string]struct {
		spoil func(*flightlog.Recording)
		marks []Mark
		said  string // empty: cut at the end given
		end   float64
	}{
		"as it was": {spoil: func(*flightlog.Recording) {}, end: m.End},
		"gap in it": {spoil: func(r *flightlog.Recording) {
			for _, q := range inertial {
				change(r, q, m.Start+0.2, m.Start+0.9, gone)
			}
		}, said: "left out of the fits of derivatives"},
		"gap behind it": {spoil: func(r *flightlog.Recording) {
			for _, q := range inertial {
				change(r, q, steps+2, steps+3, gone)
			}
		}, end: steps + 2},
		"gap at its end": {spoil: func(r *flightlog.Recording) { change(r, flightlog.Airspeed, steps+0.3, steps+1.4, gone) }, said: "left out of the fits of derivatives"},
		"clipped gyro": {spoil: func(r *flightlog.Recording) {
			change(r, flightlog.PitchRate, 0, 1e3, func(_, v float64) (float64, bool) { return math.Max(-0.12, math.Min(0.12, v)), true })
		}, said: "pitch"},
		"marked": {spoil: func(*flightlog.Recording) {}, marks: []Mark{{Start: steps + 2, End: steps + 30, Kind: LeaveOut}}, end: -1},
	} {
		rec := good
		rec.Channels = map[flightlog.Quantity]flightlog.Channel{}
		for q, channel := range good.Channels {
			rec.Channels[q] = channel
		}
		c.spoil(&rec)
		context := s.context()
		context.Marks = c.marks
		r, err := Reduce(&rec, context)
		require.NoError(t, err)
		end, said := segmentAt(r, m.Start+0.1)
		switch {
		case c.said != "":
			require.Zero(t, end, name)
			require.Contains(t, said, c.said, name)
		case c.end < 0:
			require.Zero(t, end, name)
		default:
			require.InDelta(t, c.end, end, 0.3, name)
		}
	}
}

// Where the flight has no path, no input can be used, and the flight says why once.
func TestNoSegmentsWithoutAPath(t *testing.T) {
	s, rec, _ := elevatorDoublet(t)
	delete(rec.Channels, flightlog.GroundTrack)
	r := s.reduceRecording(t, &rec)
	require.Empty(t, r.Segments)
	said := 0
	for _, f := range r.Findings {
		if f.What == "6 inputs of this flight cannot be used to fit derivatives, because the path of the model through the air could not be reconstructed, so that rates, forces and attitude still hold the errors of their sensors" {
			said++
		}
	}
	require.Equal(t, 1, said)
}

// No segment may hold a stall.
func TestSegmentsWithoutStalls(t *testing.T) {
	m := &measurement{signals: &signals{breaks: []float64{40}}}
	require.Equal(t, []obstacle{{start: 40 - stallClear, end: 40 + breakMargin, what: "the model stalls"}}, m.noSegment(nil))
}

// Cells that are blank here and there, jitter in time, and an airspeed that is written into every row though it is read five times a second: the
// segment follows the motion, without the lag of values that are held.
func TestSegmentsOfUnevenLogs(t *testing.T) {
	s := inputSheet(5, rehearse.Weather{})
	ins := rehearse.DefaultInstruments()
	ins.FastRate, ins.AirRate, ins.SatelliteRate = 50, 50, 5
	log, truth := s.fly(t, ins), s.fly(t, exact(ins))
	rec := log.Recording("uneven")
	rng := rand.New(rand.NewPCG(2, 3))
	for _, q := range []flightlog.Quantity{flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration} {
		change(&rec, q, 0, 1e4, func(_, v float64) (float64, bool) { return v, rng.Float64() < 0.9 })
	}
	for _, q := range []flightlog.Quantity{flightlog.RollAngle, flightlog.PitchAngle} {
		change(&rec, q, 0, 1e4, func(at, v float64) (float64, bool) { return v, int(math.Round(at*50))%3 == 0 })
	}
	held, last := rec.Channels[flightlog.Airspeed], 0.0
	held.Value = append([]float64(nil), held.Value...)
	for i := range held.Value {
		if i%10 == 0 {
			last = held.Value[i]
		}
		held.Value[i] = last
	}
	rec.Channels[flightlog.Airspeed] = held
	r := s.reduceRecording(t, &rec)
	require.Equal(t, 6, len(r.Segments), "%v", r.Findings)
	for _, one := range r.Segments {
		require.InDelta(t, 0.02, one.Step, 1e-6)
		require.InDelta(t, 0.2, one.AirspeedStep, 0.001, "ten rows to a reading of the tube")
		require.InDelta(t, 0.06, one.AttitudeStep, 0.001, "angles in every third row")
		q, _ := off(one, one.PitchRate, column(truth, flightlog.PitchRate))
		require.Less(t, q, 1.15*ins.RateNoise)
		v, late := off(one, one.Airspeed, flightlog.Channel{Time: truth.Time, Value: truth.Truth.Airspeed})
		require.Less(t, v, 1.3*ins.AirspeedNoise)
		require.Less(t, math.Abs(late), 0.15)
		for i, command := range one.Elevator { // stairs as they were given, never between two of them
			require.InDelta(t, columnOf(log, flightlog.Elevator)[int(math.Round((one.Start+float64(i)*one.Step)*50))], command, 1e-12)
		}
	}
}

// With the unit 0.4 m ahead of the CG and the tube at the nose, forces and airspeed are still those of the CG.
func TestSegmentsStandAtTheCG(t *testing.T) {
	s := inputSheet(7, rehearse.Weather{})
	ins := rehearse.DefaultInstruments()
	ins.FastRate, ins.AirRate = 50, 50
	cg := s.context().CG
	ins.Sensors = flightlog.Sensors{Inertial: &flightlog.Place{X: cg.X - 0.4, Y: 0.05, Z: cg.Z + 0.1}, Tube: &flightlog.Place{X: cg.X - 1, Y: 0.3, Z: cg.Z + 0.1}}
	log, truth := s.fly(t, ins), s.fly(t, exact(ins))
	r := s.reduce(t, log)
	require.Equal(t, 6, len(r.Segments))
	for _, one := range r.Segments {
		for name, c := range map[string]struct {
			series []float64
			truth  flightlog.Channel
			noise  float64
		}{
			"down":    {one.DownForce, column(truth, flightlog.DownAcceleration), 1.25 * ins.ForceNoise},
			"right":   {one.RightForce, column(truth, flightlog.RightAcceleration), 1.25 * ins.ForceNoise},
			"forward": {one.ForwardForce, column(truth, flightlog.ForwardAcceleration), 1.25 * ins.ForceNoise},
			"speed":   {one.Airspeed, flightlog.Channel{Time: truth.Time, Value: truth.Truth.Airspeed}, 1.15 * ins.AirspeedNoise},
		} {
			about, _ := off(one, c.series, c.truth)
			require.Less(t, about, c.noise, "%s %s %s", one.Control, one.Kind, name)
		}
	}
}

// A hand mark of an input that was not found takes the control that moves most; a rudder pair goes by the left one and is their mean.
func TestSegmentOfAHandMark(t *testing.T) {
	s, rec, m := elevatorDoublet(t)
	for _, q := range []flightlog.Quantity{flightlog.RudderLeft, flightlog.RudderRight} { // a rudder pulse, which is no doublet
		by := map[flightlog.Quantity]float64{flightlog.RudderLeft: 0.2, flightlog.RudderRight: 0.1}[q]
		change(&rec, q, m.Start-20, m.Start-19.5, func(_, v float64) (float64, bool) { return v + by, true })
	}
	context := s.context()
	context.Marks = []Mark{{Start: m.Start - 20, End: m.Start - 16, Kind: "doublet"}}
	r, err := Reduce(&rec, context)
	require.NoError(t, err)
	for _, one := range r.Segments {
		if one.Start < m.Start-20 && one.Start > m.Start-23 {
			require.Equal(t, flightlog.RudderLeft, one.Control)
			i := int(math.Round((m.Start - 19.8 - one.Start) / one.Step))
			require.InDelta(t, 0.15, one.Rudder[i], 0.02)
			return
		}
	}
	require.Fail(t, "the mark gave no segment", "%v", r.Findings)
}
