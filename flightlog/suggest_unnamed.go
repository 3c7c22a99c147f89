package flightlog

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// guessUnnamed looks once more at the columns whose heads hold no word that it knows, in a language of their
// own perhaps: two quantities show in unit and numbers alone, for the others the unit names the candidates.
func (s Sniffed) guessUnnamed(guesses []Guess, taken map[Quantity]int, timeColumn int) {
	units := map[int]unit.Unit{}
	for i := range guesses {
		if i == timeColumn || guesses[i].Is != "" || guesses[i].Why != noWord {
			continue
		}
		words, bracket := headWords(s.Heads[i])
		u, ok := s.anyUnit(i, bracket)
		if !ok {
			continue
		}
		units[i] = u
		values, _ := s.numbers(i)
		if found, fits := fromNumbers(guesses[i], words, u, values); fits {
			if _, twice := taken[found.Is]; !twice {
				taken[found.Is], guesses[i] = i, found
			}
		}
	}
	for i := range guesses {
		g := &guesses[i]
		u, ok := units[i]
		if !ok || g.Is != "" {
			continue
		}
		names := candidates(u.Dimension, taken)
		switch {
		case names == "":
		case u.Dimension == unit.PulseWidth:
			g.Why = fmt.Sprintf("%s; pulse widths command %s: if it is one of these, write which, with unit = \"deg\" (throttle: \"share\") and a measured calibration", noWord, names)
		default:
			g.Unit = u.Name
			g.Why = fmt.Sprintf("%s; the unit is that of %s: if it is one of these, write which", noWord, names)
		}
	}
}

// noWord is why a column stays out of the map when its head says nothing.
const noWord = "no word of the head names a quantity"

// anyUnit is the unit that a head states, whatever it measures.
func (s Sniffed) anyUnit(i int, bracket string) (unit.Unit, bool) {
	for _, d := range []unit.Dimension{unit.AngularRate, unit.Acceleration, unit.Speed, unit.Pressure, unit.Temperature,
		unit.PulseWidth, unit.Angle, unit.Length, unit.Share} {
		if u, ok := s.writtenUnit(i, bracket, d); ok {
			return u, true
		}
	}
	return unit.Unit{}, false
}

// fromNumbers recognises what numbers with a unit show: the weight of the aircraft in the acceleration along Z
// and the pressure of the air outside. The words of the head must not speak against it.
func fromNumbers(g Guess, words []string, u unit.Unit, values []float64) (Guess, bool) {
	if len(values) == 0 {
		return g, false
	}
	middle := u.SI(statistic.Median(values))
	fits := func(q Quantity, with ...string) bool {
		is, _ := quantityOf(append(words[:len(words):len(words)], with...))
		return is == q
	}
	switch {
	case u.Dimension == unit.Acceleration && math.Abs(math.Abs(middle)-9.81) < 2 && fits(DownAcceleration, "acc", "z"):
		g.Is, g.Sign = DownAcceleration, 1 // checkSigns turns it where gravity reads positive
		g.Why = fmt.Sprintf("the middle of the numbers is %.3g m/s², which is gravity: taken as the axis that points down, −9.8 m/s² at rest", middle)
	case u.Dimension == unit.Pressure && middle > 5e4 && middle < 1.1e5 && fits(StaticPressure, "static", "pressure"):
		g.Is, g.Sign = StaticPressure, 1
		g.Why = fmt.Sprintf("the middle of the numbers is %.4g hPa, as the air outside has", middle/100)
	default:
		return g, false
	}
	g.Unit, g.Sure, g.Mapped = u.Name, guessed, true
	return g, true
}

// candidates lists the quantities of a dimension that no column holds yet.
func candidates(d unit.Dimension, taken map[Quantity]int) string {
	var names []string
	for _, q := range Quantities() {
		servo := d == unit.PulseWidth && (q == Elevator || q == Aileron || q == RudderLeft || q == RudderRight || q == Throttle)
		if _, has := taken[q]; !has && (q.Dimension() == d || servo) {
			names = append(names, string(q))
		}
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}
