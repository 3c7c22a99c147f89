package quality

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/statistic"
)

// held is the minute of gentle in which a control follows an angle in degrees.
func held(q flightlog.Quantity, angle func(t float64) float64) *flightlog.Recording {
	rec := gentle()
	var c flightlog.Channel
	for i := range 3000 {
		at := float64(i) * 0.02
		c.Time, c.Value = append(c.Time, at), append(c.Value, angle(at)*degree)
	}
	rec.Channels[q] = c
	return rec
}

// pulses is 0 but for stretches of one angle.
func pulses(angles map[float64]float64, length float64) func(t float64) float64 {
	return func(t float64) float64 {
		for from, angle := range angles {
			if t >= from && t < from+length {
				return angle
			}
		}
		return 0
	}
}

// What a control that rests at its furthest angle is taken for.
func TestStops(t *testing.T) {
	wave := func(size float64) func(t float64) float64 {
		return func(t float64) float64 { return size*math.Sin(1.1*t) + 0.7*math.Sin(7*t) }
	}
	clip := func(f func(t float64) float64, low, high float64) func(t float64) float64 {
		return func(t float64) float64 { return math.Max(low, math.Min(high, f(t))) }
	}
	during := func(f func(t float64) float64, from, to, angle float64) func(t float64) float64 {
		return func(t float64) float64 {
			if t >= from && t < to {
				return angle
			}
			return f(t)
		}
	}
	for name, c := range map[string]struct {
		angle func(t float64) float64
		stops int
	}{
		"a steady hand flies a doublet and holds a sideslip at 8°": {pulses(map[float64]float64{12: 8, 20: 8, 30: -8, 32: 8, 40: -8}, 2), 0},
		"inputs of two sizes":                           {pulses(map[float64]float64{12: 8, 20: 5.6, 30: -8, 40: -5.6}, 3), 0},
		"inputs to one side only":                       {pulses(map[float64]float64{12: 8, 30: 8}, 3), 0},
		"a sideslip at 20° held by a steady hand":       {pulses(map[float64]float64{12: 20, 30: -20}, 3), 0},
		"the middle of a control that goes to one side": {pulses(map[float64]float64{5: 8, 12: 7.5, 20: 6.5, 30: 7, 40: 8.5}, 5), 0},
		"motion":                                    {wave(12), 0},
		"motion in whole degrees":                   {func(t float64) float64 { return math.Round(6 * math.Sin(0.5*t)) }, 0},
		"motion cut off at 9°":                      {clip(wave(12), -99, 9), 11}, // of the 11 crests of sin 1.1t within a minute
		"motion cut off on both sides":              {clip(wave(12), -9, 9), 21},  // and 10 troughs
		"motion cut off at 9°, hands off once":      {during(clip(wave(12), -99, 9), 34, 38, 1), 10},
		"one stop at 7.5°, restless":                {during(wave(6), 20, 22, 7.5), 1},
		"one stop at 7.5°, hands off elsewhere":     {during(during(wave(6), 20, 22, 7.5), 40, 44, 1), 0}, // or an input: cannot be told
		"one stop at 26°, hands off elsewhere":      {during(during(wave(6), 20, 22, 26), 40, 44, 1), 1},
		"two stops at 7.5°, hands off elsewhere":    {during(during(during(wave(6), 20, 22, 7.5), 28, 29.2, 7.5), 40, 44, 1), 2},
		"two rests of one angle, neither is an end": {during(during(wave(6), 20, 22, 3), 28, 30, 3), 0},
	} {
		rec := held(flightlog.RudderLeft, c.angle)
		got := about(Inspect(rec), flightlog.RudderLeft, flightlog.Note)
		require.Len(t, got, c.stops, name)
		// the travel that is stated tells what the recording alone cannot
		a := Aircraft{ForeplaneElevator: true, Travel: map[flightlog.Quantity]Travel{flightlog.RudderLeft: {Min: -40 * degree, Max: 40 * degree}}}
		require.Empty(t, about(InspectIn(rec, a), flightlog.RudderLeft, flightlog.Note), name)
	}
}

// A travel that is stated is what counts: at its end to what a bench calibration leaves, and nowhere else.
func TestStopsOfStatedTravel(t *testing.T) {
	stated := func(degrees float64) Aircraft {
		return Aircraft{Travel: map[flightlog.Quantity]Travel{flightlog.Elevator: {Min: -degrees * degree, Max: degrees * degree}}}
	}
	steady := held(flightlog.Elevator, pulses(map[float64]float64{12: 8, 20: 8, 30: -8}, 2))
	require.Empty(t, about(InspectIn(steady, stated(26)), flightlog.Elevator, flightlog.Note))
	for _, travel := range []float64{8, 8.2, 7.5} {
		require.Len(t, about(InspectIn(steady, stated(travel)), flightlog.Elevator, flightlog.Note), 3, travel)
		require.Len(t, about(InAircraft(steady, stated(travel)), flightlog.Elevator, flightlog.Note), 3, travel)
	}
	require.Empty(t, about(InspectIn(steady, stated(9)), flightlog.Elevator, flightlog.Note))
	require.Empty(t, about(Inspect(steady), flightlog.Elevator, flightlog.Note))
}

// Exact hands fly the sheets of a programme without a word about end stops. Where the elevator's travel ends short of what the slow flight asks for,
// that is told.
func TestStopsOfExactHands(t *testing.T) {
	for _, f := range flyers()[2:] {
		stall := f.aircraft.StallSpeed(atmosphere.SeaLevelDensity)
		fly := func(ac rehearse.Aircraft, cards []rehearse.Card) (*flightlog.Recording, []flightlog.Finding) {
			l, err := rehearse.Fly(ac, cards, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), stream(7, 7))
			require.NoError(t, err)
			rec := ofLog(l)
			var out []flightlog.Finding
			for _, x := range Inspect(rec) {
				if strings.Contains(x.What, "end stop") {
					out = append(out, x)
				}
			}
			return rec, out
		}
		_, got := fly(f.aircraft, rehearse.LateralCards(stall))
		require.Empty(t, got, f.name)
		rec, got := fly(f.aircraft, rehearse.SlowAndTurningCards(stall))
		require.Empty(t, got, f.name)
		enough := statistic.Quantile(statistic.Magnitudes(rec.Channels[flightlog.Elevator].Value), 0.97)
		f.aircraft.Elevator = rehearse.Travel{Min: -enough, Max: enough}
		_, got = fly(f.aircraft, rehearse.SlowAndTurningCards(stall))
		require.NotEmpty(t, got, f.name)
		t.Logf("%s: %d stops, the first: %s", f.name, len(got), got[0].What)
		for _, x := range got {
			require.Contains(t, x.What, fmt.Sprintf("%.1f degrees", enough/degree), f.name)
		}
	}
}
