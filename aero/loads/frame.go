package loads

import "gonum.org/v1/gonum/spatial/r3"

// outboard is the direction along a flat wing.
func outboard() r3.Vec { return r3.Vec{Y: 1} }

// frame is the cut at a station: the point that moments are taken about and the unit vector along the surface
// in the y–z plane. The normal of the surface is the x axis × along: up on a wing, inboard on a winglet.
type frame struct{ at, along r3.Vec }

// frame returns the cut of a section; one that was made by hand has its point at (0, Y, 0) and runs along y.
func (s Section) frame() frame {
	if s.Along == (r3.Vec{}) {
		return frame{r3.Vec{Y: s.Y}, outboard()}
	}
	return frame{s.Point, s.Along}
}

// ahead is how far outboard of the cut a point lies, along the surface.
func (f frame) ahead(p r3.Vec) float64 {
	return (p.Y-f.at.Y)*f.along.Y + (p.Z-f.at.Z)*f.along.Z
}

// put adds a force at a point, with a moment about that point, to the section cut by f:
//
//	shear   = F · n,  n = (0, −along_z, along_y)
//	bending = (r × F + M) · x,  torsion = (r × F + M) · along,  r from the cut to the point
func (f frame) put(s *Section, at, force, moment r3.Vec) {
	arm := r3.Sub(at, f.at)
	s.Shear += f.along.Y*force.Z - f.along.Z*force.Y
	s.Bending += arm.Y*force.Z - arm.Z*force.Y + moment.X
	aboutY := arm.Z*force.X - arm.X*force.Z + moment.Y
	aboutZ := arm.X*force.Y - arm.Y*force.X + moment.Z
	s.Torsion += f.along.Y*aboutY + f.along.Z*aboutZ
}
