package lattice

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Surfaces that meet without sharing nodes. A flat bay is a straight stroke in the y–z plane, since its chords run along x:
// two bays cross where their strokes do and their chords overlap. Legs of the one then run at random between control points of
// the other: side force and rolling moment of a fin on the middle of a wing change sign from grid to grid.

// Distances between strokes, in the shorter of the two bays' chords: within touchFraction they are one; up to nearFraction
// numbers scatter by per cents.
const (
	touchFraction = 0.01
	nearFraction  = 0.05
)

// encounter is how two bays lie to one another.
type encounter int

const (
	apart    encounter = iota
	grazing            // closer than panels can tell
	touching           // one ends on the other
	crossing           // one passes through the other
	covering           // one lies on the other
)

// checkEncounters reports surfaces that pass through, lie on or touch one another without sharing nodes, and warns of those that
// come close.
func checkEncounters(runs []chain, surfaces []aero.Surface) ([]aero.Warning, error) {
	var found []aero.Warning
	told := make(map[[2]int]bool)
	type place struct {
		*bay
		group int
	}
	var all []place
	for i := range runs {
		for k := range runs[i].bays {
			a := place{&runs[i].bays[k], runs[i].group}
			for _, b := range all {
				how, at, gap := a.encounters(b.bay)
				onPlane := at.Y < touchFraction*a.chord[0] // a fin and the surfaces beside it meet on the plane of symmetry
				pair := [2]int{a.surface, b.surface}
				if how == apart || how < crossing && (a.group == b.group || onPlane) || how == grazing && told[pair] {
					continue
				}
				if how > grazing {
					return found, a.clash(b.bay, how, at, surfaces)
				}
				told[pair] = true
				if surfaces[a.surface].Joins != surfaces[b.surface].Name && surfaces[b.surface].Joins != surfaces[a.surface].Name {
					found = append(found, aero.Warning{
						Surface: surfaces[a.surface].Name, Station: a.stations()[0],
						What:  fmt.Sprintf("it comes within %.0f mm of %s", 1000*gap, b.whereabouts(at, surfaces)),
						Right: "leave more room, or let the two join; moments and side force are doubtful by several per cent otherwise",
					})
				}
			}
			all = append(all, a)
		}
	}
	return found, nil
}

// whereabouts names a bay and a point.
func (b *bay) whereabouts(at r3.Vec, surfaces []aero.Surface) string {
	s := b.stations()
	where := fmt.Sprintf("between its stations %d and %d", s[0], s[1])
	if s[0] == s[1] {
		where = fmt.Sprintf("between the plane of symmetry and its station %d", s[0])
	}
	return fmt.Sprintf("%q %s, near x %.3g, y %.3g, z %.3g m", surfaces[b.surface].Name, where, at.X, at.Y, at.Z)
}

// clash is the error of two bays that meet without sharing nodes.
func (b *bay) clash(c *bay, how encounter, at r3.Vec, surfaces []aero.Surface) error {
	where := c.whereabouts(at, surfaces)
	switch how {
	case crossing:
		return b.mistake(surfaces, "it passes through "+where, "end one of the two there and let the other join it, or move them apart")
	case covering:
		return b.mistake(surfaces, "it lies on "+where, "leave one of the two out, or let them meet edge to edge")
	}
	return b.mistake(surfaces, "it touches "+where+", without joining it",
		fmt.Sprintf("let it join the tip of %q; where it stands on the middle of it, cut %q there into two that join", surfaces[c.surface].Name, surfaces[c.surface].Name))
}

// encounters tells how two bays lie to one another, where on this one, and how far apart.
func (b *bay) encounters(c *bay) (how encounter, at r3.Vec, gap float64) {
	chord := math.Min(math.Max(b.chord[0], b.chord[1]), math.Max(c.chord[0], c.chord[1]))
	slack := touchFraction * chord
	t, s, gap, length := closest(b, c)
	at = aft(b.leadingEdge(t), b.chordAt(t)/2)
	inside := func(f, length float64) bool { return f*length > slack && (1-f)*length > slack }
	switch {
	case gap > nearFraction*chord || b.overlap(c, t, s) <= slack:
		return apart, at, gap
	case gap > slack:
		return grazing, at, gap
	case length > slack:
		return covering, at, gap
	case gap == 0 && inside(t, b.length) && inside(s, c.length):
		return crossing, at, gap
	}
	return touching, at, gap
}

// overlap is the length of chord that two bays have in common at a fraction of each, m; below zero they pass ahead of
// one another.
func (b *bay) overlap(c *bay, t, s float64) float64 {
	p, q := b.leadingEdge(t), c.leadingEdge(s)
	return math.Min(p.X+b.chordAt(t), q.X+c.chordAt(s)) - math.Max(p.X, q.X)
}

// nearlyParallel is the sine of the angle under which two strokes count as parallel.
const nearlyParallel = 0.02

// closest is where the strokes of two bays come closest: as fractions of each, how far apart, and over what length they run
// beside one another when they are parallel.
func closest(b, c *bay) (t, s, gap, length float64) {
	u, v := r3.Sub(b.le1, b.le0), r3.Sub(c.le1, c.le0)
	w := r3.Sub(c.le0, b.le0)
	cross := func(p, q r3.Vec) float64 { return p.Y*q.Z - p.Z*q.Y }
	dot := func(p, q r3.Vec) float64 { return p.Y*q.Y + p.Z*q.Z }
	along := func(p, d r3.Vec, squared float64) float64 { return math.Min(1, math.Max(0, dot(p, d)/squared)) }
	uu, vv, area := b.length*b.length, c.length*c.length, cross(u, v)
	if math.Abs(area) < nearlyParallel*b.length*c.length {
		from, to := along(w, u, uu), along(r3.Add(w, v), u, uu)
		t = (from + to) / 2
		s = along(r3.Sub(r3.Scale(t, u), w), v, vv)
		off := r3.Sub(r3.Scale(t, u), r3.Add(w, r3.Scale(s, v)))
		return t, s, math.Hypot(off.Y, off.Z), math.Abs(to-from) * b.length
	}
	t, s = cross(w, v)/area, cross(w, u)/area
	if t >= 0 && t <= 1 && s >= 0 && s <= 1 {
		return t, s, 0, 0
	}
	gap = math.Inf(1)
	for _, f := range [4][2]float64{ // an end of one is closest
		{0, along(r3.Scale(-1, w), v, vv)}, {1, along(r3.Sub(u, w), v, vv)},
		{along(w, u, uu), 0}, {along(r3.Add(w, v), u, uu), 1},
	} {
		off := r3.Sub(r3.Scale(f[0], u), r3.Add(w, r3.Scale(f[1], v)))
		if d := math.Hypot(off.Y, off.Z); d < gap {
			t, s, gap = f[0], f[1], d
		}
	}
	return t, s, gap, 0
}
