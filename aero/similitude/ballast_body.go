package similitude

import "math"

// spot is one place where ballast may sit: a bay, or one end or the middle of a tray.
type spot struct {
	bay     int
	x, y, z float64 // of the right side
}

// spots lists the places of all bays. Ballast spread over a tray is stood for by lumps at its ends and its middle, which
// gives every CG within it and, to a sixteenth of mass times the square of its length, every inertia that spreading can give.
func spots(bays []Bay) []spot {
	var out []spot
	for i, b := range bays {
		out = append(out, spot{i, b.From, b.Y, b.Z})
		if b.To > b.From {
			out = append(out, spot{i, 0.5 * (b.From + b.To), b.Y, b.Z}, spot{i, b.To, b.Y, b.Z})
		}
	}
	return out
}

// With is the body with ballast of masses [kg] in the given places, inertias about the new CG by the parallel-axis theorem.
// A lump is a point; of two sides each holds half.
func (b Body) with(at []spot, masses []float64) Body {
	out := Body{Mass: b.Mass}
	mx, mz := b.Mass*b.CG.X, b.Mass*b.CG.Z
	for i, s := range at {
		out.Mass += masses[i]
		mx += masses[i] * s.x
		mz += masses[i] * s.z
	}
	out.CG = Place{mx / out.Mass, mz / out.Mass}
	own := inertiaOf(b.CG.X-out.CG.X, 0, b.CG.Z-out.CG.Z)
	sum := [4]float64{b.Ix + b.Mass*own[0], b.Iy + b.Mass*own[1], b.Iz + b.Mass*own[2], b.Ixz + b.Mass*own[3]}
	for i, s := range at {
		each := inertiaOf(s.x-out.CG.X, s.y, s.z-out.CG.Z)
		for k := range sum {
			sum[k] += masses[i] * each[k]
		}
	}
	out.Ix, out.Iy, out.Iz, out.Ixz = sum[0], sum[1], sum[2], sum[3]
	return out
}

// inertiaOf is Ix, Iy, Iz and Ixz of one kilogram at a place relative to the CG, m².
func inertiaOf(x, y, z float64) [4]float64 {
	return [4]float64{y*y + z*z, x*x + z*z, x*x + y*y, x * z}
}

// departures are cost times departure of mass, CG x and, where they are asked for, CG z and the inertias.
func (b Ballasting) departures(got Body) (first [2]float64, then []float64) {
	c, t := b.costs(), b.Target
	first = [2]float64{c.MassPercent * 100 * (got.Mass/t.Mass - 1), c.XMillimetre * 1000 * got.Mass * (got.CG.X - t.CG.X) / t.Mass}
	for _, r := range b.rows() {
		then = append(then, r.of(got)-r.of(t))
	}
	return first, then
}

// cost is the sum of squares that the choice of masses makes small, mass and CG x included.
func (b Ballasting) cost(got Body) float64 {
	first, then := b.departures(got)
	sum := first[0]*first[0] + first[1]*first[1]
	for _, d := range then {
		sum += d * d
	}
	return sum
}

// row is one quantity beside mass and CG x, in units of cost: how it follows from a body, and what one kilogram at a place
// adds to it about a given height of the CG.
type row struct {
	of  func(Body) float64
	add func(x, y, z float64) float64 // relative to the CG; of CG z relative to the target
	cg  bool
}

func (b Ballasting) rows() []row {
	c, t, a := b.costs(), b.Target, b.Asked
	var out []row
	if a.Z {
		k := c.ZMillimetre * 1000 / t.Mass
		out = append(out, row{of: func(g Body) float64 { return k * g.Mass * (g.CG.Z - t.CG.Z) }, add: func(_, _, z float64) float64 { return k * z }, cg: true})
	}
	for _, i := range []struct {
		asked  bool
		cost   float64
		target float64
		which  int
	}{{a.Ix, c.Inertia, t.Ix, 0}, {a.Iy, c.Inertia, t.Iy, 1}, {a.Iz, c.Inertia, t.Iz, 2}, {a.Ixz, c.Ixz, t.Iz, 3}} {
		if i.asked {
			k := i.cost * 100 / i.target
			out = append(out, row{of: func(g Body) float64 { return k * [4]float64{g.Ix, g.Iy, g.Iz, g.Ixz}[i.which] },
				add: func(x, y, z float64) float64 { return k * inertiaOf(x, y, z)[i.which] }})
		}
	}
	return out
}

// linear gives departures = constant + slope·masses of the rows about a CG that is held: exact where the masses put the CG there.
func (b Ballasting) linear(at []spot, cg Place) (slope [][]float64, constant []float64) {
	for _, r := range b.rows() {
		about := cg
		if r.cg {
			about = b.Target.CG
		}
		line := make([]float64, len(at))
		for i, s := range at {
			line[i] = r.add(s.x-about.X, s.y, s.z-about.Z)
		}
		own := r.of(b.Now)
		if !r.cg {
			own += b.Now.Mass * r.add(b.Now.CG.X-about.X, 0, b.Now.CG.Z-about.Z)
		}
		slope, constant = append(slope, line), append(constant, own-r.of(b.Target))
	}
	return slope, constant
}

// tiny tells whether two heights are one for the purpose of ballast, m.
func tiny(x float64) bool { return math.Abs(x) < 1e-12 }
