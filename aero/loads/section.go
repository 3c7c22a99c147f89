package loads

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Section is the load that the part of a surface outboard of a station puts on it.
type Section struct {
	Y       float64 // station, m
	Shear   float64 // N up, or m² over the dynamic pressure
	Bending float64 // N·m, tip up positive, or m³
	Torsion float64 // N·m about the line along the surface through Point, leading edge up positive, or m³

	Point r3.Vec // where the axes of bending and torsion meet, datum axes, m
	Along r3.Vec // unit vector outboard along the surface, in the y–z plane: y for Along, up a winglet for AlongUpright
}

// Along returns the air load at stations along the named surfaces, over the dynamic pressure.
//
// A strip that a station cuts counts with the part of its width outboard of it, its force spread evenly along
// its quarter-chord line. Strips without extent in y (a winglet) count whole when they are at or outboard of the
// station. Bending is about the x line, torsion about the y line through x = axis, y of the station and the z of
// the surface there.
func Along(strips []aero.StripLoad, surfaces []string, stations []float64, axis float64) []Section {
	return along(counted(strips, surfaces), stations, func([]part, float64) float64 { return axis })
}

// AlongQuarterChord is Along with torsion about the y line through the quarter-chord point of the surface at each
// station, so that sweep outboard of it counts and the way from the root to it does not.
func AlongQuarterChord(strips []aero.StripLoad, surfaces []string, stations []float64) []Section {
	return along(counted(strips, surfaces), stations, quarterChordAt)
}

// along cuts parts at stations; axis gives x of the torsion axis from the parts that reach out in y.
func along(parts []part, stations []float64, axis func([]part, float64) float64) []Section {
	out := make([]Section, len(stations))
	surface := reaching(parts)
	if len(surface) == 0 {
		surface = parts[:min(1, len(parts))]
	}
	for i, y := range stations {
		f := frame{r3.Vec{X: axis(surface, y), Y: y, Z: heightAt(surface, y)}, outboard()}
		out[i] = Section{Y: y, Point: f.at, Along: f.along}
		for _, p := range parts {
			share, shift := outboardOf(y, p.Centre.Y, p.line.Y)
			if share > 0 {
				at := r3.Add(p.Centre, r3.Scale(shift, p.line))
				f.put(&out[i], at, r3.Scale(share, p.Force), r3.Scale(share, p.Moment))
			}
		}
	}
	return out
}

// AboutAxis moves the torsion of every section to the line through x = axis of the same index, m aft of datum, such
// as a spar's shear centre; shear and bending stay.
//
// It returns an error when there is not one x for each section.
func AboutAxis(sections []Section, axis []float64) ([]Section, error) {
	if len(axis) != len(sections) {
		return nil, fmt.Errorf("moving the torsion axis: %d values of x for %d stations; give one for each station", len(axis), len(sections))
	}
	out := slices.Clone(sections)
	for i := range out {
		out[i].Torsion += (axis[i] - out[i].Point.X) * out[i].Shear
		f := out[i].frame()
		f.at.X = axis[i]
		out[i].Point, out[i].Along = f.at, f.along
	}
	return out, nil
}

// Times returns sections multiplied by k, such as a dynamic pressure.
func Times(sections []Section, k float64) []Section {
	out := slices.Clone(sections)
	for i := range out {
		out[i].Shear *= k
		out[i].Bending *= k
		out[i].Torsion *= k
	}
	return out
}

// Bending returns the bending moment at stations along the named surfaces over the dynamic pressure, m³,
// tip up positive.
func Bending(strips []aero.StripLoad, surfaces []string, stations []float64) []float64 {
	out := make([]float64, len(stations))
	for i, s := range Along(strips, surfaces, stations, 0) {
		out[i] = s.Bending
	}
	return out
}

// Shear returns the shear force at stations along the named surfaces over the dynamic pressure, m², up positive.
func Shear(strips []aero.StripLoad, surfaces []string, stations []float64) []float64 {
	out := make([]float64, len(stations))
	for i, s := range Along(strips, surfaces, stations, 0) {
		out[i] = s.Shear
	}
	return out
}
