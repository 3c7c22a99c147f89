package flightlog

import (
	"strings"

	"wingproof/flightlog/unit"
)

// plainWords change nothing in what a head names.
const plainWords = "angle winkel angles sensor measured gemessen value wert channel kanal of the in model modell body axis axes achse " +
	"att attitude euler imu ahrs force kraft position pos deflection ausschlag surface servo raw filtered roh gefiltert trailing edge"

// foreign lists the words of a head that neither a rule nor the vocabulary knows: a qualifier may stand for another quantity, as it does
// where a speed is one over ground.
func (r rule) foreign(head []string) []string {
	if n := len(head); n > 1 && head[n-1] == strings.Join(head[:n-1], "") { // the head as one word
		if r.knows(head[n-1]) {
			return nil
		}
		head = head[:n-1]
	}
	var out []string
	for _, w := range head {
		if !r.knows(w) && !isUnitWord(w) {
			out = append(out, w)
		}
	}
	return out
}

// knows tells whether a word belongs to a rule or changes nothing.
func (r rule) knows(word string) bool {
	w := words{word: true}
	for _, group := range r.all {
		if w.any(group) {
			return true
		}
	}
	return w.any(r.with) || w.any(plainWords)
}

// isUnitWord tells whether a word is part of a unit's name, as rad and s of gyro_roll_rad_s.
func isUnitWord(word string) bool {
	if (words{word: true}).any("dps fps mps us sec degrees radians celsius") {
		return true
	}
	for _, dimension := range everyDimension() {
		for _, name := range unit.Of(dimension) {
			for _, part := range strings.Split(name, "_") {
				if strings.TrimRight(part, "23") == word {
					return true
				}
			}
		}
		if _, ok := unit.Lookup(word, dimension); ok {
			return true
		}
	}
	return false
}
