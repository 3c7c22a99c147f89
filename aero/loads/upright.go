package loads

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// AlongUpright returns the air load along one surface of any dihedral, such as a winglet, over the
// dynamic pressure. distances count from its inboard end along the surface, m, and stand in Section.Y.
//
// Shear is normal to the surface and bending about the x axis through the station; both are positive
// towards the side that is up on a wing and inboard on a winglet that stands up. A strip that a station
// cuts counts with its outboard part. Torsion is left zero.
func AlongUpright(strips []aero.StripLoad, surface string, distances []float64) []Section {
	out := make([]Section, len(distances))
	var own []aero.StripLoad
	for _, s := range strips {
		if s.Surface == surface {
			own = append(own, s)
		}
	}
	for i, d := range distances {
		out[i].Y = d
		inner := 0.0
		for k, s := range own {
			along := directionOf(own, k)
			outer := inner + s.Width
			if outer > d {
				share := math.Min(1, (outer-d)/s.Width)
				middle := math.Max(inner, d)/2 + outer/2
				normal := (s.Force.Z*along.Y - s.Force.Y*along.Z) * share
				out[i].Shear += normal
				out[i].Bending += normal*(middle-d) + s.Moment.X*share
			}
			inner = outer
		}
	}
	return out
}

// directionOf is the unit vector along the surface at strip k, in the y–z plane; up for a lone strip.
func directionOf(own []aero.StripLoad, k int) r3.Vec {
	a, b := own[max(k-1, 0)].Centre, own[min(k+1, len(own)-1)].Centre
	step := r3.Vec{Y: b.Y - a.Y, Z: b.Z - a.Z}
	if r3.Norm(step) == 0 {
		return r3.Vec{Z: 1}
	}
	return r3.Unit(step)
}
