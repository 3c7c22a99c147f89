package main

import (
	"math"
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

	v = flownLog().judged(flightlog.Finding{Severity: flightlog.Refusal, What: "gravity reads +9.8 on the down axis", Consequence: "set sign = -1"})
	require.Equal(t, lookVerdict{flyAgain, "fly again, because gravity reads +9.8 on the down axis, unless the logger map is wrong: set sign = -1"}, v)

	l := flownLog()
	l.reduction.Manoeuvres = l.reduction.Manoeuvres[1:2]
	v = l.judged()
	require.Equal(t, lookVerdict{flyAgain, "fly again, because its only manoeuvre, level run at 60 s, cannot be used: test point dropped: bank is 25°, over 10°"}, v)
	l.reduction.Manoeuvres = nil
	require.Contains(t, l.judged().Sentence, "no manoeuvre was found in it")
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
		found, why := flownFor(c.card, r)
		require.Len(t, found, c.found, "%+v", c.card)
		require.Equal(t, c.why, why, "%+v", c.card)
	}
	f := program.Flight{Name: "f01", Levels: map[string]string{"winglet": "mid"}}
	require.Empty(t, otherFlight(program.Card{Levels: map[string]string{"winglet": "mid"}}, f))
	require.Equal(t, "planned for winglet tall", otherFlight(program.Card{Levels: map[string]string{"winglet": "tall"}}, f))
	require.Equal(t, "planned for flight f02", otherFlight(program.Card{Flight: "f02"}, f))
}
