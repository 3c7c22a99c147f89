package program

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/weighing"
)

// WeighingSheet is what was written down at the bench.
type WeighingSheet struct {
	Date    string // ISO; empty when no row states it
	Session weighing.Session
	Missing []string // runs that are not complete, and what they lack
	Assumed []string // errors that the sheet does not state, as taken
}

// Errors of readings when the sheet states none, one standard deviation: common practice, no source.
const (
	defaultReadingSD  = 0.003               // kg, a bench scale with the model put on it once
	defaultPositionSD = 0.001               // m, a station by tape and plumb line
	defaultDistanceSD = 0.001               // m, lines and arms by tape
	defaultAngleSD    = 0.2 * math.Pi / 180 // a digital level on the model's datum
	defaultTimingSD   = 0.15                // s, a watch started and stopped by hand
	defaultAmplitude  = 6 * math.Pi / 180   // a swing that looks small
	amplitudeSpread   = 0.5                 // of it: nobody measured it
	statedAmplitudeSD = 1.0 / 3             // of a stated one: it dies away while it is timed
	placesOfGravity   = 0.015               // m/s²: from 9.780 at the equator to 9.832 at the poles (from memory), spread evenly
	heaviestReading   = 500.0               // kg
	farthestOnModel   = 20.0                // m: no model is larger
	longestTiming     = 3600.0              // s
	mostPeriods       = 1000
)

// gravityHere is that of a place that nobody stated.
func gravityHere() weighing.Figure {
	return weighing.Figure{Value: atmosphere.Gravity, SD: placesOfGravity}
}

// rowsOf are the words of the column what, with the columns that go with each.
func rowsOf() []sheetKind {
	shared := []string{"what", "run", "date", "notes"}
	swing := append(shared[:len(shared):len(shared)], "axis", "load", "angle", "angle_sd", "distance_sd", "periods", "time", "time_sd", "amplitude", "hanger")
	scale := append(shared[:len(shared):len(shared)], "point", "x", "y", "z", "position_sd", "reading", "tare", "reading_sd", "angle_sd")
	return []sheetKind{
		{"scale", scale},
		{"tilt", append(scale[:len(scale):len(scale)], "angle")},
		{"bifilar", append(swing[:len(swing):len(swing)], "spacing", "length")},
		{"compound", append(swing[:len(swing):len(swing)], "x", "z", "position_sd", "pivot", "hanger_cg")},
	}
}

type sheetKind struct {
	what    string
	columns []string // stems of the cells that may be filled
}

func kindsOfRows() []string {
	return namesOf(rowsOf(), func(k sheetKind) string { return k.what })
}

// axesOfSwings are the words of the column axis.
func axesOfSwings() []string { return []string{"pitch", "roll", "yaw", "inclined"} }

func axisOf(word string) weighing.Axis {
	switch word {
	case "pitch":
		return weighing.Pitch
	case "roll":
		return weighing.Roll
	case "yaw":
		return weighing.Yaw
	}
	return weighing.Inclined
}
