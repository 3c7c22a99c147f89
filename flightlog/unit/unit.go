// Package unit is the one table of unit suffixes that every file of a program folder and every
// logger map is read with. Numbers leave it in SI and radians.
//
// A unit is written either as a suffix of a key or head (cg_mm, speed_kt) or as a logger map writes it
// (deg/s, m/s²); both spellings meet here.
package unit

import (
	"sort"
	"strings"
)

// Dimension is what a unit measures.
type Dimension string

// The dimensions that files and logger maps may carry.
const (
	None         Dimension = "number"
	Length       Dimension = "length"
	Mass         Dimension = "mass"
	Angle        Dimension = "angle"
	AngularRate  Dimension = "angular rate"
	Speed        Dimension = "speed"
	Acceleration Dimension = "acceleration"
	Pressure     Dimension = "pressure"
	Temperature  Dimension = "temperature"
	Time         Dimension = "time"
	Area         Dimension = "area"
	Inertia      Dimension = "moment of inertia"
	Moment       Dimension = "moment"
	Share        Dimension = "share"
	PulseWidth   Dimension = "pulse width"
	Turns        Dimension = "turns"
	Anticipation Dimension = "angular acceleration per load factor" // of control anticipation
)

// Unit converts a written number to SI: si = number·Factor + Offset.
type Unit struct {
	Name      string // as used for a suffix
	Dimension Dimension
	Factor    float64
	Offset    float64
}

// SI converts a number written in the unit to SI and radians.
func (u Unit) SI(number float64) float64 { return float64(number*u.Factor) + u.Offset } // rounded twice on every processor

// From converts an SI number to the unit.
func (u Unit) From(si float64) float64 { return (si - u.Offset) / u.Factor }

const (
	degree = 0.017453292519943295 // π/180
	foot   = 0.3048               // exact, international foot
	pound  = 0.45359237           // exact, international pound
	knot   = 1852.0 / 3600        // exact, international nautical mile per hour
	inHg   = 3386.389             // Pa, conventional inch of mercury at 0 °C
	g0     = 9.80665              // m/s², standard gravity, ISO 80000-3
)

func table() []Unit {
	return []Unit{
		{"m", Length, 1, 0}, {"mm", Length, 1e-3, 0}, {"cm", Length, 1e-2, 0}, {"in", Length, foot / 12, 0}, {"ft", Length, foot, 0},
		{"kg", Mass, 1, 0}, {"g", Mass, 1e-3, 0}, {"lb", Mass, pound, 0},
		{"deg", Angle, degree, 0}, {"rad", Angle, 1, 0},
		{"deg_s", AngularRate, degree, 0}, {"rad_s", AngularRate, 1, 0},
		{"m_s", Speed, 1, 0}, {"kt", Speed, knot, 0}, {"km_h", Speed, 1 / 3.6, 0}, {"ft_s", Speed, foot, 0}, {"mph", Speed, 1609.344 / 3600, 0},
		{"m_s2", Acceleration, 1, 0}, {"gee", Acceleration, g0, 0}, {"ft_s2", Acceleration, foot, 0},
		{"pa", Pressure, 1, 0}, {"hpa", Pressure, 100, 0}, {"kpa", Pressure, 1000, 0}, {"inhg", Pressure, inHg, 0},
		{"c", Temperature, 1, 273.15}, {"f", Temperature, 5.0 / 9, 273.15 - 32*5.0/9}, {"k", Temperature, 1, 0},
		{"s", Time, 1, 0}, {"ms", Time, 1e-3, 0}, {"us", Time, 1e-6, 0}, {"min", Time, 60, 0}, {"h", Time, 3600, 0},
		{"m2", Area, 1, 0}, {"ft2", Area, foot * foot, 0},
		{"kg_m2", Inertia, 1, 0}, {"g_m2", Inertia, 1e-3, 0}, {"slug_ft2", Inertia, pound * g0 / foot * foot * foot, 0},
		{"nm", Moment, 1, 0}, {"lbf_ft", Moment, pound * g0 * foot, 0},
		{"percent", Share, 0.01, 0}, {"share", Share, 1, 0},
		{"pulse_us", PulseWidth, 1, 0},
		{"rpm", Turns, 1.0 / 60, 0}, {"rev_s", Turns, 1, 0},
		{"rad_s2_per_g", Anticipation, 1, 0}, {"deg_s2_per_g", Anticipation, degree, 0},
	}
}

// Lookup finds a unit by its suffix (mm, deg_s) or by a logger map's spelling (deg/s, m/s², °C).
// The dimension settles spellings that two units share: "g" is a gram or standard gravity, "us" a time
// or a pulse width.
func Lookup(written string, d Dimension) (Unit, bool) {
	key := canonical(written)
	switch {
	case key == "g" && d == Acceleration:
		key = "gee"
	case key == "us" && d == PulseWidth:
		key = "pulse_us"
	}
	for _, u := range table() {
		if u.Name == key && u.Dimension == d {
			return u, true
		}
	}
	return Unit{}, false
}

// Suffix splits a key or head such as cg_mm or speed_km_h into its stem and unit, taking the longest
// suffix that the dimension knows. ok is false when the key carries no suffix of that dimension.
func Suffix(key string, d Dimension) (stem string, u Unit, ok bool) {
	for _, c := range table() {
		if c.Dimension != d || !strings.HasSuffix(key, "_"+c.Name) {
			continue
		}
		if !ok || len(c.Name) > len(u.Name) {
			stem, u, ok = strings.TrimSuffix(key, "_"+c.Name), c, true
		}
	}
	return stem, u, ok
}

// Of lists the unit suffixes of a dimension in alphabetical order, for messages.
func Of(d Dimension) []string {
	var names []string
	for _, u := range table() {
		if u.Dimension == d {
			names = append(names, u.Name)
		}
	}
	sort.Strings(names)
	return names
}

// canonical folds the ways in which people write a unit into its suffix.
func canonical(written string) string {
	s := strings.ToLower(strings.TrimSpace(written))
	s = strings.NewReplacer("°", "deg", "²", "2", "^2", "2", "µ", "u", "μ", "u", "·", "_", "*", "_", "/", "_", " ", "").Replace(s)
	switch s {
	case "%":
		return "percent"
	case "degc", "celsius":
		return "c"
	case "degf":
		return "f"
	case "degrees", "degree":
		return "deg"
	case "radians":
		return "rad"
	case "degs", "dps", "deg_sec", "degrees_s", "degrees_sec", "degree_s":
		return "deg_s"
	case "rads", "rad_sec", "radians_s", "radians_sec":
		return "rad_s"
	case "mps", "ms-1", "m_sec":
		return "m_s"
	case "km_hr", "kmh", "kph":
		return "km_h"
	case "fps":
		return "ft_s"
	case "kts", "kn", "knot", "knots":
		return "kt"
	case "m_s_s", "mps2", "ms-2", "m_sec2":
		return "m_s2"
	case "mbar", "mb":
		return "hpa"
	case "sec", "second", "seconds":
		return "s"
	case "msec", "millis", "milliseconds":
		return "ms"
	case "usec", "micros", "microseconds":
		return "us"
	}
	return s
}
