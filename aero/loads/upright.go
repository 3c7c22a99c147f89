package loads

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// AlongUpright returns the air load along one surface of any dihedral, such as a winglet, over the
// dynamic pressure. distances count from its inboard end along the surface, m, and stand in Section.Y.
//
// Shear is normal to the surface at the station and bending about the x axis through it; both are positive
// towards the side that is up on a wing and inboard on a winglet that stands up. Torsion is about the line
// along the surface (in the y–z plane, without its sweep) through the quarter-chord point at the station, positive
// with the leading edge towards that side; AboutAxis moves it elsewhere. A strip that a station cuts counts with
// its outboard part, its force spread evenly along its quarter-chord line.
func AlongUpright(strips []aero.StripLoad, surface string, distances []float64) []Section {
	out := make([]Section, len(distances))
	own := uprightOf(strips, surface)
	for i, d := range distances {
		out[i].Y = d
		if len(own) == 0 {
			continue
		}
		f := cutUpright(own, d)
		out[i].Point, out[i].Along = f.at, f.along
		for _, p := range own {
			share, shift := outboardOf(d, (p.inner+p.outer)/2, p.outer-p.inner)
			if share > 0 {
				at := r3.Add(p.Centre, r3.Scale(shift, p.line))
				f.put(&out[i], at, r3.Scale(share, p.Force), r3.Scale(share, p.Moment))
			}
		}
	}
	return out
}

// uprightOf keeps the strips of a surface, with extents along the surface from its inboard end. A lone strip
// stands up.
func uprightOf(strips []aero.StripLoad, surface string) []part {
	var own []part
	reached := 0.0
	for i, s := range strips {
		if s.Surface != surface {
			continue
		}
		line := lineOf(strips, i, r3.Vec{Z: 1})
		own = append(own, part{s, line, reached, reached + s.Width})
		reached += s.Width
	}
	return own
}

// cutUpright is the cut at a distance along a surface: on the quarter-chord line, across the strip there.
func cutUpright(own []part, d float64) frame {
	at := own[len(own)-1]
	for _, p := range own {
		if d < p.outer {
			at = p
			break
		}
	}
	t := (d - (at.inner+at.outer)/2) / (at.outer - at.inner)
	point := r3.Add(at.Centre, r3.Scale(math.Max(-0.5, math.Min(0.5, t)), at.line))
	return frame{point, r3.Unit(r3.Vec{Y: at.line.Y, Z: at.line.Z})}
}
