package loads

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Section is the load that the part of a surface outboard of a station puts on it.
type Section struct {
	Y       float64 // station, m
	Shear   float64 // N up, or m² over the dynamic pressure
	Bending float64 // N·m, tip up positive, or m³
	Torsion float64 // N·m about y through the x asked for, leading edge up positive, or m³
}

// PointMass is a mass on the right half that pulls down with the load factor: structure, fuel, a winglet.
type PointMass struct {
	At   r3.Vec  // datum axes, m
	Mass float64 // kg
}

// Scale turns strip loads over the dynamic pressure into newtons.
//
// In flight at the load factor n the lift of the whole aircraft is n·m·g: with the strips at the lift coefficient
// cl on the reference area, the dynamic pressure is n·m·g/(cl·area), and that is what Scale returns. It is zero
// when cl·area is zero.
func Scale(weight, loadFactor, cl, area float64) float64 {
	if cl*area == 0 {
		return 0
	}
	return loadFactor * weight / (cl * area)
}

// Along returns the air load at stations along the named surfaces, over the dynamic pressure.
//
// A strip that a station cuts counts with the part of its width outboard of it, its force spread evenly.
// Strips without extent in y (a winglet) count whole when they are at or outboard of the station. Bending
// is about the x line, torsion about the y line through x = axis, y of the station and the z of the surface there.
func Along(strips []aero.StripLoad, surfaces []string, stations []float64, axis float64) []Section {
	out := make([]Section, len(stations))
	for i, y := range stations {
		out[i].Y = y
	}
	parts := counted(strips, surfaces)
	if len(parts) == 0 {
		return out
	}
	for i := range out {
		height := heightAt(parts, out[i].Y)
		for _, p := range parts {
			out[i].add(p, axis, height)
		}
	}
	return out
}

// heightAt is z of the strips' middles at y, linear between those that reach out in y.
func heightAt(parts []part, y float64) float64 {
	z, below := parts[0].Centre.Z, math.Inf(-1)
	for _, p := range parts {
		c := p.Centre
		if p.outer-p.inner < 0.3*p.Width || c.Y <= below {
			continue
		}
		if y < c.Y && below > math.Inf(-1) {
			if y > below {
				return z + (c.Z-z)*(y-below)/(c.Y-below)
			}
			return z
		}
		if y < c.Y {
			return c.Z
		}
		z, below = c.Z, c.Y
	}
	return z
}

// part is a strip with its extent in y.
type part struct {
	aero.StripLoad
	inner, outer float64
}

// counted keeps the strips of the named surfaces and finds how far each reaches in y: half its
// width to both sides of its middle, leaning as the line from strip to strip does.
func counted(strips []aero.StripLoad, surfaces []string) []part {
	var parts []part
	for i, s := range strips {
		if !slices.Contains(surfaces, s.Surface) {
			continue
		}
		half := s.Width / 2 * leanOf(strips, i)
		parts = append(parts, part{s, s.Centre.Y - half, s.Centre.Y + half})
	}
	return parts
}

// leanOf is dy over the length in the y–z plane, from the neighbours on the same surface; 1 for a lone strip.
func leanOf(strips []aero.StripLoad, i int) float64 {
	a, b := i, i
	if i > 0 && strips[i-1].Surface == strips[i].Surface {
		a = i - 1
	}
	if i+1 < len(strips) && strips[i+1].Surface == strips[i].Surface {
		b = i + 1
	}
	step := r3.Sub(strips[b].Centre, strips[a].Centre)
	length := math.Hypot(step.Y, step.Z)
	if length == 0 {
		return 1
	}
	return math.Abs(step.Y) / length
}

// add puts the outboard share of a part on the station.
func (s *Section) add(p part, axis, height float64) {
	share, y := 1.0, p.Centre.Y
	switch {
	case p.outer <= s.Y && p.outer-p.inner > 1e-9 || p.outer < s.Y-1e-6:
		return
	case p.inner < s.Y && p.outer-p.inner > 1e-9:
		share = (p.outer - s.Y) / (p.outer - p.inner)
		y = (s.Y + p.outer) / 2
	}
	f, m := r3.Scale(share, p.Force), r3.Scale(share, p.Moment)
	s.Shear += f.Z
	s.Bending += (y-s.Y)*f.Z - (p.Centre.Z-height)*f.Y + m.X
	s.Torsion += m.Y + (p.Centre.Z-height)*f.X - (p.Centre.X-axis)*f.Z
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

// gravity is the standard acceleration, m/s² (ISO 80000-3).
const gravity = 9.80665

// Relieve subtracts the inertia of masses outboard of each station at a load factor; axis is as in Along.
func Relieve(sections []Section, masses []PointMass, loadFactor, axis float64) []Section {
	out := slices.Clone(sections)
	for i := range out {
		for _, m := range masses {
			if m.At.Y < out[i].Y {
				continue
			}
			force := loadFactor * m.Mass * gravity
			out[i].Shear -= force
			out[i].Bending -= force * (m.At.Y - out[i].Y)
			out[i].Torsion += force * (m.At.X - axis)
		}
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
