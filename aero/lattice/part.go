package lattice

import (
	"crypto/sha256"
	"encoding/binary"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// part is the panels of one surface: what a level of a choice changes, or leaves as they are.
type part struct {
	index       int // in the grid's list
	first, last int // strips first … last−1 of the grid
	key         key // of all that its influence depends on
}

// key names a content: equal keys, equal panels.
type key [sha256.Size]byte

// cut divides the grid into the strips of one surface each.
func (g *grid) cut() {
	var out []part
	for i := range g.strips {
		if i == 0 || g.strips[i].surface != g.strips[i-1].surface || g.strips[i].chain != g.strips[i-1].chain {
			out = append(out, part{index: len(out), first: i})
		}
		out[len(out)-1].last = i + 1
	}
	for i := range out {
		out[i].key = g.keyOf(out[i])
	}
	g.parts, g.passes, g.traces = out, make([][]bool, len(out)), make([][]bool, len(out))
	for r := range out {
		for i := out[r].first; i < out[r].last; i++ {
			g.strips[i].part = r
		}
		g.passes[r], g.traces[r] = make([]bool, len(out)), make([]bool, len(out))
		for c := range out {
			g.passes[r][c] = g.passesClose(out[r], out[c])
			g.traces[r][c] = g.tracesClose(out[r], out[c])
		}
	}
}

// keyOf sums up the panels of a part.
func (g *grid) keyOf(p part) key {
	sum := sha256.New()
	put := func(values ...float64) {
		var raw [8]byte
		for _, v := range values {
			binary.LittleEndian.PutUint64(raw[:], math.Float64bits(v))
			sum.Write(raw[:])
		}
	}
	vector := func(v r3.Vec) { put(v.X, v.Y, v.Z) }
	for i := p.first; i < p.last; i++ {
		s := &g.strips[i]
		put(float64(s.group), s.copies, s.chord, s.width)
		vector(s.normal)
		for _, v := range s.sheet {
			vector(v)
		}
		for _, h := range s.turnHinges {
			put(h...)
		}
		for k := s.first; k < s.first+len(g.chord.vortex); k++ {
			q := &g.panels[k]
			put(q.turn)
			for _, v := range [3]r3.Vec{q.a, q.b, q.control} {
				vector(v)
			}
		}
	}
	for _, i := range [2]int{p.first, p.last} { // edges at the part's ends look at the strip beyond
		if g.continues(i) {
			s := &g.strips[i]
			if i == p.first {
				s = &g.strips[i-1]
			}
			vector(s.at)
			put(s.chord, s.width)
		}
	}
	var out key
	sum.Sum(out[:0])
	return out
}

// panelCount is the number of panels of a part.
func (g *grid) panelCount(p part) int { return (p.last - p.first) * len(g.chord.vortex) }

// firstPanel is the index of its first panel; the others follow.
func (g *grid) firstPanel(p part) int { return g.strips[p.first].first }

// close tells whether the wake of part c passes close over part r.
func (g *grid) close(r, c part) bool { return g.passes[r.index][c.index] }

// passesClose tells whether the wake of part c passes part r so low that its panels feel single legs: within one and a half
// widths between the legs, beyond which their velocities differ from those of a sheet by exp(−3π), or three quarters of
// a panel of the surface behind.
func (g *grid) passesClose(r, c part) bool {
	if !g.strangers(r, c) {
		return false
	}
	front, behind := g.strips[c.first:c.last], g.strips[r.first:r.last]
	reach := 1.5 * math.Max(widest(front), widest(behind)/2)
	for i := range front {
		for _, q := range front[i].sheetEdge {
			for k := range behind {
				if g.passesUnder(q, &behind[k], reach) {
					return true
				}
			}
		}
	}
	return false
}

// strangers tells whether two parts are mirrored and share no nodes.
func (g *grid) strangers(r, c part) bool {
	a, b := &g.strips[r.first], &g.strips[c.first]
	return a.group != b.group && a.copies == 2 && b.copies == 2
}

// tracesClose tells whether the traces of two parts that share no nodes come within two widths of one another far behind.
func (g *grid) tracesClose(r, c part) bool {
	if !g.strangers(r, c) {
		return false
	}
	one, other := g.strips[r.first:r.last], g.strips[c.first:c.last]
	reach := 2 * math.Max(widest(one), widest(other))
	for i := range one {
		for k := range other {
			p, q := one[i].traceMid, other[k].traceMid
			if math.Hypot(p.Y-q.Y, p.Z-q.Z) < reach {
				return true
			}
		}
	}
	return false
}

// passesUnder tells whether the leg through a trailing-edge point (wake axes) meets a strip that runs in y, or passes it
// within a height, upstream of its trailing edge.
func (g *grid) passesUnder(q r3.Vec, s *strip, reach float64) bool {
	a, b := s.sheetEdge[0], s.sheetEdge[1]
	low, high := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	if q.Y < low-1e-9 || q.Y > high+1e-9 || high-low < 0.3*s.width || q.X > math.Max(a.X, b.X) {
		return false
	}
	z := a.Z + (b.Z-a.Z)*(q.Y-a.Y)/(b.Y-a.Y)
	return math.Abs(q.Z-z) < reach
}

func widest(strips []strip) float64 {
	most := 0.0
	for i := range strips {
		most = math.Max(most, strips[i].width)
	}
	return most
}
