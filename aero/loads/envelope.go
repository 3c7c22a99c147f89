package loads

import (
	"cmp"
	"math"
	"slices"
)

// Line is the load along a surface in one condition.
type Line struct {
	Condition string
	Sections  []Section
}

// Peak is an extreme value and the condition that gives it.
type Peak struct {
	Value     float64
	Condition string
}

// Range is the highest and the lowest of one load.
type Range struct{ Highest, Lowest Peak }

// Greatest is the peak of greater size, up or down; the highest of two alike.
func (r Range) Greatest() Peak {
	if math.Abs(r.Lowest.Value) > math.Abs(r.Highest.Value) {
		return r.Lowest
	}
	return r.Highest
}

// Extreme is what a station has to bear over all conditions. The loads of one row do not act together.
type Extreme struct {
	Y       float64 // station, m
	Shear   Range   // N
	Bending Range   // N·m
	Torsion Range   // N·m
}

// Envelope takes, at every station, the highest and the lowest shear, bending and torsion over all lines, and the
// condition that gives each. Stations are those of all lines, rising; a line without a section at exactly that
// station does not count there. Of two conditions alike (to 1e-9 of the load, so that round-off does not pick) the one
// that comes first stands.
//
// A load that is no number is never passed over: it stands as the peak, with the first condition that gives it.
func Envelope(lines []Line) []Extreme {
	var stations []float64
	for _, line := range lines {
		for _, s := range line.Sections {
			stations = append(stations, s.Y)
		}
	}
	slices.Sort(stations)
	stations = slices.CompactFunc(stations, func(a, b float64) bool { return cmp.Compare(a, b) == 0 })
	out, met := make([]Extreme, len(stations)), make([]bool, len(stations))
	for i, y := range stations {
		out[i].Y = y
	}
	for _, line := range lines {
		for _, s := range line.Sections {
			i, _ := slices.BinarySearch(stations, s.Y)
			out[i].Shear.take(s.Shear, line.Condition, !met[i])
			out[i].Bending.take(s.Bending, line.Condition, !met[i])
			out[i].Torsion.take(s.Torsion, line.Condition, !met[i])
			met[i] = true
		}
	}
	return out
}

// alike is the part of a load, or of one newton where it is less, by which conditions do not differ.
const alike = 1e-9

// take widens a range by a value; the first one makes it.
func (r *Range) take(value float64, condition string, first bool) {
	broken := math.IsNaN(value)
	if high := r.Highest.Value; first || value > high+roomAt(high) || broken && !math.IsNaN(high) {
		r.Highest = Peak{value, condition}
	}
	if low := r.Lowest.Value; first || value < low-roomAt(low) || broken && !math.IsNaN(low) {
		r.Lowest = Peak{value, condition}
	}
}

// roomAt is how far another load may lie from one and still be alike.
func roomAt(load float64) float64 { return alike * math.Max(math.Abs(load), 1) }
