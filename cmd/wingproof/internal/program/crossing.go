package program

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// touching is how deep, in parts of a surface's mean chord, two surfaces must reach through one another
// before that is a crossing and not a drawn contact. Common practice, no source.
const touching = 0.02

// meeting is where one surface reaches through another or lies on it.
type meeting struct {
	station int // inboard station of the stretch of the first surface, from 1
	other   int // the same of the second
	at      r3.Vec
}

// facet is half a stretch between two stations.
type facet struct {
	a, b, c r3.Vec
	normal  r3.Vec // of unit length
	station int
}

// edge is a straight line of a surface: an edge, a chord or a diagonal.
type edge struct {
	a, b    r3.Vec
	station int
}

// facets splits every stretch of the right half along a diagonal; stretches without area are left out.
func facets(s aero.Surface) []facet {
	var out []facet
	for i := 1; i < len(s.Stations); i++ {
		in, on := s.Stations[i-1], s.Stations[i]
		for _, t := range [2][3]r3.Vec{{in.LeadingEdge, in.TrailingEdge, on.TrailingEdge}, {in.LeadingEdge, on.TrailingEdge, on.LeadingEdge}} {
			area := r3.Cross(r3.Sub(t[1], t[0]), r3.Sub(t[2], t[0]))
			if n := r3.Norm(area); n > 1e-12 && finite(n) {
				out = append(out, facet{t[0], t[1], t[2], r3.Scale(1/n, area), i})
			}
		}
	}
	return out
}

func edges(s aero.Surface) []edge {
	var out []edge
	for i := 1; i < len(s.Stations); i++ {
		in, on := s.Stations[i-1], s.Stations[i]
		out = append(out, edge{in.LeadingEdge, on.LeadingEdge, i}, edge{in.TrailingEdge, on.TrailingEdge, i},
			edge{in.LeadingEdge, in.TrailingEdge, i}, edge{in.LeadingEdge, on.TrailingEdge, i}, edge{on.LeadingEdge, on.TrailingEdge, i})
	}
	return out
}

func meanChord(s aero.Surface) float64 {
	sum := 0.0
	for _, st := range s.Stations {
		sum += st.Chord()
	}
	return sum / float64(len(s.Stations))
}

// rim is the outline of a surface: its edges and the chords of its ends. The root chord of a surface that
// begins in the plane of symmetry is no rim, since its other half goes on there.
func rim(s aero.Surface) []edge {
	var out []edge
	for i := 1; i < len(s.Stations); i++ {
		in, on := s.Stations[i-1], s.Stations[i]
		out = append(out, edge{in.LeadingEdge, on.LeadingEdge, i}, edge{in.TrailingEdge, on.TrailingEdge, i})
	}
	last := len(s.Stations) - 1
	root, tip := s.Stations[0], s.Stations[last]
	out = append(out, edge{tip.LeadingEdge, tip.TrailingEdge, last})
	if root.LeadingEdge.Y > touching*root.Chord() {
		out = append(out, edge{root.LeadingEdge, root.TrailingEdge, 1})
	}
	return out
}

// crossing finds where surface s reaches through surface other: an edge of either passes through a facet
// of the other, by more than a contact on both sides and farther than that from its rim. The facets are flat, so
// that no crossing escapes.
func crossing(s, other aero.Surface) (meeting, bool) {
	depth := touching * math.Min(meanChord(s), meanChord(other))
	if own, through, at, ok := piercing(s, other, depth); ok {
		return meeting{own, through, at}, true
	}
	own, through, at, ok := piercing(other, s, depth)
	return meeting{through, own, at}, ok
}

// piercing finds an edge of surface s that passes through surface other.
func piercing(s, other aero.Surface, depth float64) (own, through int, at r3.Vec, ok bool) {
	outline := rim(other)
	for _, e := range edges(s) {
		for _, f := range facets(other) {
			if at, ok := f.pierced(e, depth); ok && clearOf(outline, at, depth) {
				return e.station, f.station, at, true
			}
		}
	}
	return 0, 0, r3.Vec{}, false
}

func clearOf(outline []edge, p r3.Vec, depth float64) bool {
	for _, e := range outline {
		if e.distance(p) < depth {
			return false
		}
	}
	return true
}

// distance of a point from the edge.
func (e edge) distance(p r3.Vec) float64 {
	along := r3.Sub(e.b, e.a)
	t := 0.0
	if square := r3.Norm2(along); square > 0 {
		t = math.Min(1, math.Max(0, r3.Dot(along, r3.Sub(p, e.a))/square))
	}
	return r3.Norm(r3.Sub(p, r3.Add(e.a, r3.Scale(t, along))))
}

// pierced is the point at which the edge passes through the facet.
func (f facet) pierced(e edge, depth float64) (r3.Vec, bool) {
	before, behind := r3.Dot(f.normal, r3.Sub(e.a, f.a)), r3.Dot(f.normal, r3.Sub(e.b, f.a))
	if before*behind >= 0 || math.Min(math.Abs(before), math.Abs(behind)) < depth {
		return r3.Vec{}, false
	}
	at := r3.Add(e.a, r3.Scale(before/(before-behind), r3.Sub(e.b, e.a)))
	return at, f.inside(at) >= -1e-9
}

// inside is the least of the three shares that the corners have in a point of the facet's plane: negative
// outside, 0 on the rim.
func (f facet) inside(p r3.Vec) float64 {
	share := func(a, b r3.Vec) float64 {
		return r3.Dot(f.normal, r3.Cross(r3.Sub(b, a), r3.Sub(p, a)))
	}
	whole := share(f.a, f.b) + share(f.b, f.c) + share(f.c, f.a)
	return math.Min(share(f.a, f.b), math.Min(share(f.b, f.c), share(f.c, f.a))) / whole
}

// overlapping finds where surface s lies on surface other: nearly parallel, within a contact of it, with
// area in common.
func overlapping(s, other aero.Surface) (meeting, bool) {
	near := touching * math.Min(meanChord(s), meanChord(other))
	for _, own := range facets(s) {
		for _, f := range facets(other) {
			if at, ok := f.covered(own, near); ok {
				return meeting{own.station, f.station, at}, true
			}
		}
	}
	return meeting{}, false
}

// covered is a point of another facet that lies within near of this one, where the two are parallel within 18°.
func (f facet) covered(by facet, near float64) (r3.Vec, bool) {
	const parallel, steps = 0.95, 6
	if math.Abs(r3.Dot(by.normal, f.normal)) < parallel {
		return r3.Vec{}, false
	}
	for j := 1; j < steps; j++ {
		for k := 1; j+k < steps; k++ {
			p := by.point(float64(j)/steps, float64(k)/steps)
			if math.Abs(r3.Dot(f.normal, r3.Sub(p, f.a))) < near && f.inside(p) > 0 {
				return p, true
			}
		}
	}
	return r3.Vec{}, false
}

// point is the point of the facet with shares u and v of its second and third corner.
func (f facet) point(u, v float64) r3.Vec {
	return r3.Add(f.a, r3.Add(r3.Scale(u, r3.Sub(f.b, f.a)), r3.Scale(v, r3.Sub(f.c, f.a))))
}
