package weighing

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// airSD is the relative standard deviation of the estimate of the air that swings along: end effects make strips move too much, gaps
// and viscous flow change it either way, the fuselage is left out. Common practice, no source.
const airSD = 0.30

// cuts is the number of strips between two stations. Chord and arm are linear between stations, so that the sums converge with the
// square of the width; 40 leave less than a thousandth, far below airSD.
const cuts = 40

// strip is a flat plate that moves air, model size.
type strip struct {
	middle r3.Vec  // of its chord, m from the datum
	normal r3.Vec  // unit vector across chord and span
	along  r3.Vec  // unit vector along the span, across the stream
	mass   float64 // kg of air that moves along across the plate
	turn   float64 // kg·m² of air that turns along about the strip's own mid-chord line
}

// strips cuts every surface of the airframe into plates at model size.
//
// A plate strip of chord c carries, per unit span, the added mass π ρ c²/4 across itself and the added inertia π ρ c⁴/128 about its
// mid-chord line: those of a flat plate in two-dimensional potential flow. Source: any text on hydrodynamics, such as Lamb, Hydrodynamics,
// art. 71 (from memory).
func (a Air) strips() []strip {
	var out []strip
	for _, s := range a.Airframe.Surfaces {
		for i := 1; i < len(s.Stations); i++ {
			between := a.between(s.Stations[i-1], s.Stations[i])
			out = append(out, between...)
			if s.Mirrored {
				for _, one := range between {
					out = append(out, one.mirrored())
				}
			}
		}
	}
	return out
}

func (a Air) between(from, to aero.Station) []strip {
	step := r3.Scale(a.Ratio, r3.Sub(to.LeadingEdge, from.LeadingEdge))
	width := math.Hypot(step.Y, step.Z)
	if !(width > 0) {
		return nil
	}
	along := r3.Vec{Y: step.Y / width, Z: step.Z / width}
	out := make([]strip, 0, cuts)
	for i := range cuts {
		f := (float64(i) + 0.5) / cuts
		front, back := blend(from.LeadingEdge, to.LeadingEdge, f), blend(from.TrailingEdge, to.TrailingEdge, f)
		chord := r3.Scale(a.Ratio, r3.Sub(back, front))
		c := r3.Norm(chord)
		if !(c > 0) {
			continue
		}
		moved := math.Pi * a.Density * c * c / 4 * width / cuts
		out = append(out, strip{
			middle: r3.Scale(a.Ratio, blend(front, back, 0.5)), along: along, normal: r3.Unit(r3.Cross(chord, along)),
			mass: moved, turn: moved * c * c / 32, // (π ρ c⁴/128) over (π ρ c²/4)
		})
	}
	return out
}

func blend(a, b r3.Vec, f float64) r3.Vec { return r3.Add(r3.Scale(1-f, a), r3.Scale(f, b)) }

// mirrored is the strip of the left half.
func (s strip) mirrored() strip {
	s.middle.Y, s.normal.Y, s.along.Y = -s.middle.Y, -s.normal.Y, -s.along.Y
	return s
}

// Inertia is the moment of inertia [kg·m²] of the air that turns along with the airframe about an axis, given by a point on it [m from
// the model's datum] and a unit vector, both in datum axes at model size. Its standard deviation is 30 % of it.
func (a Air) Inertia(point, axis r3.Vec) float64 { return inertiaOf(a.strips(), point, axis) }

func inertiaOf(strips []strip, point, axis r3.Vec) float64 {
	var sum float64
	for _, s := range strips {
		across := r3.Dot(r3.Cross(axis, r3.Sub(s.middle, point)), s.normal)
		twist := r3.Dot(axis, s.along)
		sum += s.mass*across*across + s.turn*twist*twist
	}
	return sum
}
