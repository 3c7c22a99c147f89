package similitude

import (
	"errors"
	"math"
)

// ErrBallast says that the search for masses did not come to rest; it is not expected for any input that Check passes.
var ErrBallast = errors.New("similitude: the ballast could not be worked out")

// ridge: of masses that do equally well the least sum of squares is taken, by adding this share of the largest curvature.
const ridge = 1e-8

// sharpen is how often at most the first programme starts again from its own answer, with the ridge about that, until it pulls
// no more: twice as a rule, more often where bays lie within a millimetre of each other.
const sharpen = 60

// heights is how often the height of the resulting CG may be corrected; each time it changes by a hundredth of the last.
const heights = 60

// solve finds masses [kg] for the places: the least cost of mass and CG x first, then, with these held, of the rest.
//
// Mass and moment are linear in the masses, so the first step is one quadratic programme with the bounds alone. Inertias about
// the resulting CG are quadratic in them; with mass and CG x held only the height of the CG still moves, and an inertia about
// a height ẑ exceeds that about the CG by mass·(z − ẑ)², whose slope vanishes at z = ẑ. So the second programme is solved about
// the last height until it stays: then the masses satisfy the conditions for a minimum of the exact cost.
func (b Ballasting) solve(at []spot) ([]float64, error) {
	if len(at) == 0 || b.Now.Mass >= b.Target.Mass {
		return make([]float64, len(at)), nil
	}
	limits := b.limits(at)
	c, t := b.costs(), b.Target
	mass, moment := make([]float64, len(at)), make([]float64, len(at))
	for i, s := range at {
		mass[i], moment[i] = c.MassPercent*100/t.Mass, c.XMillimetre*1000*(s.x-t.CG.X)/t.Mass
	}
	first, _ := b.departures(b.Now)
	held, zero := [][]float64{mass, moment}, make([]float64, len(at))
	masses, err := zero, error(nil)
	for range sharpen {
		last := masses
		if masses, err = squares(held, first[:], nil, limits, last, last); err != nil {
			return nil, err
		}
		if apart(masses, last) < 1e-10 {
			break
		}
	}
	cg := b.Now.with(at, masses).CG
	for range heights {
		slope, constant := b.linear(at, cg)
		if masses, err = squares(slope, constant, held, limits, masses, zero); err != nil {
			return nil, err
		}
		next := b.Now.with(at, masses).CG
		if tiny(next.Z - cg.Z) {
			break
		}
		cg = next
	}
	return masses, nil
}

// apart is the largest change of a mass.
func apart(a, b []float64) float64 {
	most := 0.0
	for i := range a {
		most = max(most, math.Abs(a[i]-b[i]))
	}
	return most
}

// limits are the bounds: no mass below zero, no more in a bay than it holds, and in all no more than the model is short of: a
// balance bought with a model that is too heavy is no dynamic model any more.
func (b Ballasting) limits(at []spot) []limit {
	var out []limit
	for i := range at {
		l := limit{row: make([]float64, len(at))}
		l.row[i] = -1
		out = append(out, l)
	}
	all := limit{row: make([]float64, len(at)), most: b.Target.Mass - b.Now.Mass}
	for i := range at {
		all.row[i] = 1
	}
	out = append(out, all)
	for bay := range b.Bays {
		l := limit{row: make([]float64, len(at)), most: b.Bays[bay].Most}
		for i, s := range at {
			if s.bay == bay {
				l.row[i] = 1
			}
		}
		out = append(out, l)
	}
	return out
}

// squares makes |constant + slope·m|² least, with the sums held·m as they are at the start, inside the limits, which the
// start keeps; of equals it takes the one nearest to some masses.
func squares(slope [][]float64, constant []float64, held [][]float64, limits []limit, start, nearest []float64) ([]float64, error) {
	n := len(start)
	p := programme{curvature: make([][]float64, n), slope: make([]float64, n), held: independent(held), limits: limits}
	most := 0.0
	for i := range n {
		p.curvature[i] = make([]float64, n)
		for j := range n {
			for k := range slope {
				p.curvature[i][j] += slope[k][i] * slope[k][j]
			}
		}
		for k := range slope {
			p.slope[i] += slope[k][i] * constant[k]
		}
		most = max(most, p.curvature[i][i])
	}
	if most == 0 {
		most = 1 / ridge
	}
	for i := range n {
		p.curvature[i][i] += ridge * most
		p.slope[i] -= ridge * most * nearest[i]
	}
	return p.solve(start)
}
