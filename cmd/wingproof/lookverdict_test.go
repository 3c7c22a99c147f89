package main

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

// flownLog is a made recording of three minutes at 25 m/s with a glide and a doublet that the reduction found.
func flownLog() *look {
	var speed flightlog.Channel
	for i := range 1800 {
		speed.Time, speed.Value = append(speed.Time, 0.1*float64(i)), append(speed.Value, 25)
	}
	l := &look{path: "made.csv", recording: &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{flightlog.Airspeed: speed}}}
	l.logger.Columns = []flightlog.Column{{Column: "tube", Is: flightlog.Airspeed}}
	l.reduction = reduce.Reduction{
		Points: []reduce.TestPoint{{Start: 20, End: 28, Kept: true}, {Start: 60, End: 66, Reason: "bank is 25°, over 10°"}},
		Manoeuvres: []manoeuvre.Manoeuvre{{Kind: manoeuvre.Glide, Start: 20, End: 30, Airspeed: 24}, {Kind: manoeuvre.Level, Start: 60, End: 67, Airspeed: 30, Detail: "level run for 7 s at 30.0 m/s"},
			{Kind: manoeuvre.Doublet, Control: flightlog.Elevator, Start: 100, End: 104, Airspeed: 25}},
	}
	return l
}

func (l *look) judged(findings ...flightlog.Finding) lookVerdict {
	l.reduction.Findings = findings
	doc := lookDocument{Findings: findings, Manoeuvres: usableManoeuvres(l.reduction)}
	for _, p := range l.reduction.Points {
		doc.Points = append(doc.Points, lookPoint{Start: p.Start, End: p.End, Kept: p.Kept})
	}
	return l.verdict(doc)
}

func TestVerdicts(t *testing.T) {
	loss := func(q flightlog.Quantity, start, end float64) flightlog.Finding {
		return flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: start, End: end, What: "the channel repeats 21 (so far): it is frozen", Consequence: "no test point from it; look at the wires"}
	}
	v := flownLog().judged()
	require.Equal(t, lookVerdict{good, "good: 1 test point kept, 2 manoeuvres of use, nothing lost"}, v)
	require.Equal(t, lookVerdict{good, "good: 1 test point kept, 2 manoeuvres of use, nothing lost"}, flownLog().judged(flightlog.Finding{Severity: flightlog.Note, What: "x"}))

	// what matters most comes first, the third is only counted
	v = flownLog().judged(loss(flightlog.AirTemperature, 5, 6), loss(flightlog.RollRate, 40, 42), loss(flightlog.Airspeed, 41, 44))
	require.Equal(t, lookVerdict{goodBut, "good, but from 41 to 44 s the channel repeats 21 (no test point from it); and from 40 to 42 s the channel repeats 21 (no test point from it); and 1 more above"}, v)
	v = flownLog().judged(loss(flightlog.Throttle, 0, 180))
	require.Equal(t, "good, but the channel repeats 21 (no test point from it)", v.Sentence, "what lasts the whole flight has no times")

	v = flownLog().judged(loss(flightlog.Airspeed, 70, 179))
	require.Equal(t, flyAgain, v.Word)
	require.Equal(t, "fly again, because the airspeed is lost over 61 % of the flight, from 70 to 179 s: the channel repeats 21; look into the tube", v.Sentence)

	v = flownLog().judged(loss(flightlog.Airspeed, 90, 160), loss(flightlog.Airspeed, 91, 161), loss(flightlog.Airspeed, 105, 150))
	require.Equal(t, goodBut, v.Word, "what overlaps is lost once: "+v.Sentence)
	v = flownLog().judged(loss(flightlog.Airspeed, 0, 60), loss(flightlog.Airspeed, 100, 150))
	require.Contains(t, v.Sentence, "the airspeed is lost over 61 % of the flight", "two stretches add up")

	v = flownLog().judged(flightlog.Finding{Severity: flightlog.Refusal, What: "gravity reads +9.8 on the down axis", Consequence: "set sign = -1"})
	require.Equal(t, lookVerdict{goodBut, "good, but only once the logger map is corrected: gravity reads +9.8 on the down axis; set sign = -1; no need to fly"}, v)
	v = flownLog().judged(flightlog.Finding{Severity: flightlog.Refusal, What: "with 9 kg on 2 m² the lift is too much", Consequence: "no point; check log, weighing and wing area"})
	require.Equal(t, lookVerdict{goodBut, "good, but only once the weighing or the wing area is corrected: with 9 kg on 2 m² the lift is too much; check log, weighing and wing area; no need to fly"}, v)
	v = flownLog().judged(flightlog.Finding{Severity: flightlog.Refusal, Channel: flightlog.DownAcceleration, What: "x"}, loss(flightlog.Airspeed, 70, 179))
	require.Equal(t, flyAgain, v.Word, "no map gives a blocked tube back: "+v.Sentence)
	ground := flownLog()
	ground.recording.Channels[flightlog.Airspeed] = flightlog.Channel{Time: []float64{0, 1, 2}, Value: []float64{1, 1, 1}}
	v = ground.judged(flightlog.Finding{Severity: flightlog.Refusal, Channel: flightlog.DownAcceleration, What: "x"})
	require.Equal(t, flyAgain, v.Word, "no map makes a flight of it: "+v.Sentence)
	v = ground.judged(flightlog.Finding{Severity: flightlog.Refusal, Channel: flightlog.Airspeed, What: "the airspeed is 0.05 times the ground speed", Consequence: "x; km/h"})
	require.Equal(t, goodBut, v.Word, "nobody can tell yet: "+v.Sentence)

	l := flownLog()
	l.recording.Channels[flightlog.Throttle] = l.recording.Channels[flightlog.Airspeed]
	l.reduction.Points, l.reduction.Manoeuvres = l.reduction.Points[1:], l.reduction.Manoeuvres[1:2]
	v = l.judged()
	require.Equal(t, lookVerdict{flyAgain, "fly again, because its only manoeuvre, level run at 60 s, cannot be used: test point dropped: bank is 25°, over 10°"}, v)
	l.reduction.Manoeuvres = nil
	require.Contains(t, l.judged().Sentence, "no manoeuvre was found in it")
}

// A flight that gives no test point is no good one, but for its inputs; where the map is at fault it says so.
func TestVerdictOnAFlightThatGivesNothing(t *testing.T) {
	none := flightlog.Finding{Severity: flightlog.Loss, End: 180, What: "none of 1 calm stretches could be kept (most often: bank is 25°, over 10°)", Consequence: "the flight gives no test points"}
	empty := func() *look {
		l := flownLog()
		l.reduction.Points = l.reduction.Points[1:]
		l.recording.Channels[flightlog.Throttle] = l.recording.Channels[flightlog.Airspeed]
		return l
	}
	require.Equal(t, goodBut, empty().judged(none).Word, "a doublet is of use without a test point")
	l := empty()
	l.reduction.Manoeuvres = l.reduction.Manoeuvres[:2]
	require.Equal(t, lookVerdict{flyAgain, "fly again, because none of 1 calm stretches could be kept (most often: bank is 25°, over 10°)"}, l.judged(none))
	v := l.judged(none, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.RollRate, End: 180, What: "the roll rate is 57.3 times the change of the roll angle", Consequence: "no roll manoeuvre from this log until it is put right; the column is in radians"})
	require.Equal(t, lookVerdict{goodBut, "good, but only once the logger map is corrected: the roll rate is 57.3 times the change of the roll angle; the column is in radians; no need to fly"}, v)
	delete(l.recording.Channels, flightlog.Throttle)
	require.Contains(t, l.judged(none).Sentence, "good, but no test point can be kept yet: the logger map names no throttle; add the column")
}

// Only a log that was cut in the middle of a line and in the air breaks off.
func TestVerdictOnALogThatBreaksOff(t *testing.T) {
	cut := flightlog.Finding{Severity: flightlog.Note, What: "the last line has no end"}
	l := flownLog()
	require.Equal(t, lookVerdict{goodBut, "good, but the log breaks off in the air at 180 s: what was flown after that is not in it"}, l.judged(cut))
	speed := l.recording.Channels[flightlog.Airspeed]
	for i := 1700; i < len(speed.Value); i++ {
		speed.Value[i] = 1
	}
	require.Equal(t, good, l.judged(cut).Word, "it had landed")
}

// Noise on every sample is no motion at any rate of the log; a slow roll by hand is.
func TestRestDoesNotDependOnTheRate(t *testing.T) {
	for _, hertz := range []int{25, 250, 1000} {
		r := rand.New(rand.NewPCG(7, uint64(hertz)))
		var gyro, down, rolled flightlog.Channel
		for i := range 10 * hertz {
			at := float64(i) / float64(hertz)
			gyro.Time, gyro.Value = append(gyro.Time, at), append(gyro.Value, 0.02*r.NormFloat64())
			down.Time, down.Value = append(down.Time, at), append(down.Value, -9.8+0.25*r.NormFloat64())
			rolled.Time, rolled.Value = append(rolled.Time, at), append(rolled.Value, 0.1*at)
		}
		l := &look{recording: &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{flightlog.RollRate: gyro, flightlog.DownAcceleration: down}}}
		start, end, ok := l.restBefore()
		require.True(t, ok, hertz)
		require.InDelta(t, 0, start, 1e-9)
		require.Greater(t, end, 8.9)
		l.recording.Channels[flightlog.RollAngle] = rolled
		_, _, ok = l.restBefore()
		require.False(t, ok, "a roll of 6° a second at %d Hz", hertz)
	}
}

// The sheet tells what comes again once, with its times, and joins what and what follows as every other table does.
func TestFindingsOfTheSheet(t *testing.T) {
	again := func(start, end float64) flightlog.Finding {
		return flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.RollRate, Start: start, End: end, What: "the roll rate is at its end", Consequence: "no roll manoeuvre; use a wider range"}
	}
	whole := flightlog.Finding{Severity: flightlog.Note, What: "no height of the CG"}
	s := lookDocument{Findings: []flightlog.Finding{again(1, 2), again(5.25, 6), whole, again(9, 9)}}.findingSection()
	require.Equal(t, "whole log", lookDocument{Findings: []flightlog.Finding{again(0.1, 9)}, Channels: []lookChannel{{From: 0, To: 9.2}}}.findingSection().Rows[0][0])
	require.Equal(t, [][]string{
		{"1.0–2.0, 5.2–6.0, 9.0", "loss", "roll rate", "the roll rate is at its end; no roll manoeuvre; use a wider range"},
		{"whole log", "note", "", "no height of the CG"},
	}, s.Rows)
}

// A loss spoils the inputs that it touches and that need its channel; a steady stretch counts by its test point.
func TestWhatOfAManoeuvreIsOfUse(t *testing.T) {
	use := func(f ...flightlog.Finding) []bool {
		r := flownLog().reduction
		r.Findings = f
		var out []bool
		for _, m := range usableManoeuvres(r) {
			out = append(out, m.Usable)
		}
		return out
	}
	loss := func(q flightlog.Quantity, start, end float64) flightlog.Finding {
		return flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: start, End: end}
	}
	require.Equal(t, []bool{true, false, true}, use())
	require.Equal(t, []bool{true, false, false}, use(loss(flightlog.PitchRate, 103, 110)))
	require.Equal(t, []bool{true, false, true}, use(loss(flightlog.PitchRate, 104.1, 110)), "behind it")
	require.Equal(t, []bool{true, false, true}, use(loss(flightlog.RudderLeft, 100, 110)), "not its control")
	require.Equal(t, []bool{true, false, true}, use(loss("", 0, 180)), "about the log as a whole")
	require.Equal(t, []bool{true, false, false}, use(loss("", 100.5, 101)), "a gap of all channels")
	rows := loss(flightlog.PitchRate, 0, 180)
	rows.Line = 12
	require.Equal(t, []bool{true, false, true}, use(rows), "single rows, counted by the reader")
	require.Equal(t, []bool{false, false, false}, use(flightlog.Finding{Severity: flightlog.Refusal}))
}

func TestCardsAgainstALog(t *testing.T) {
	r := flownLog().reduction
	bank := math.Pi / 6
	for _, c := range []struct {
		card  program.Card
		found int
		why   string
	}{
		{program.Card{Manoeuvre: "glide", Speed: 23, SpeedTolerance: 0.05, Repeats: 1}, 1, "1 of 1"},
		{program.Card{Manoeuvre: "glide", Speed: 22, SpeedTolerance: 0.05, Repeats: 1}, 0, "flown at 24.0 m/s"},
		{program.Card{Manoeuvre: "glide", Repeats: 2}, 1, "1 of 2"},
		{program.Card{Manoeuvre: "steady", Repeats: 1}, 1, "1 of 1"},
		{program.Card{Manoeuvre: "level", Repeats: 1}, 0, "at 60 s: test point dropped"},
		{program.Card{Manoeuvre: "glide", Bank: &bank, Repeats: 1}, 0, "at 20 s the bank was 0°"},
		{program.Card{Manoeuvre: "doublet", Control: "elevator", Repeats: 1}, 1, "1 of 1"},
		{program.Card{Manoeuvre: "doublet", Control: "rudder", Repeats: 1}, 0, "not in this log"},
		{program.Card{Manoeuvre: "circle", Repeats: 1}, 0, "not in this log"},
	} {
		found, why := flownFor(c.card, r, nil)
		require.Len(t, found, c.found, "%+v", c.card)
		require.Equal(t, c.why, why, "%+v", c.card)
	}
	// a card's speed is that at which a deceleration begins
	stall := reduce.Reduction{Manoeuvres: []manoeuvre.Manoeuvre{{Kind: manoeuvre.Deceleration, Start: 50, End: 60, Airspeed: 18.1, Lowest: 14.7}}}
	wanted := program.Card{Manoeuvre: "deceleration", Speed: 21.5, SpeedTolerance: 0.03, Repeats: 1}
	found, why := flownFor(wanted, stall, nil)
	require.Len(t, found, 1, why)
	_, why = flownFor(wanted, stall, flownLog().recording)
	require.Equal(t, "flown at 25.0 m/s", why)
	f := program.Flight{Name: "f01", Levels: map[string]string{"winglet": "mid"}}
	require.Empty(t, otherFlight(program.Card{Levels: map[string]string{"winglet": "mid"}}, f))
	require.Equal(t, "planned for winglet tall", otherFlight(program.Card{Levels: map[string]string{"winglet": "tall"}}, f))
	require.Equal(t, "planned for flight f02", otherFlight(program.Card{Flight: "f02"}, f))
}
