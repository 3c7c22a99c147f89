package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// element is a piece of vortex that carries a force: a bound segment or a chordwise part of a leg.
type element struct {
	at     r3.Vec // where the velocity is taken and the force acts
	along  r3.Vec // length and direction, m
	strip  int    // strip that the force belongs to
	row    int    // panel of the strip, from 0
	sign   float64
	bound  bool // carries the panel's circulation; otherwise that of all panels up to row, times sign
	sample int  // where in the list of velocities
}

// elements lists every loaded piece; samples number the receivers of all parts one after the other. Both strips beside a
// chordwise edge within a part take their velocity from one sample.
func (g *grid) elements() (pieces []element, samples int) {
	n := len(g.chord.vortex)
	for _, p := range g.parts {
		edges := samples + g.panelCount(p)
		for i := p.first; i < p.last; i++ {
			s := &g.strips[i]
			for row := range n {
				q := &g.panels[s.first+row]
				pieces = append(pieces, element{
					at: q.load, along: r3.Sub(q.b, q.a), strip: i, row: row,
					sign: 1, bound: true, sample: samples + (i-p.first)*n + row,
				})
			}
			pieces = g.edgePieces(pieces, i, -1, edges+(i-p.first)*n, s.a, s.chordA)
			pieces = g.edgePieces(pieces, i, 1, edges+(i-p.first+1)*n, s.b, s.chordB)
		}
		samples = edges + (p.last-p.first+1)*n
	}
	return pieces, samples
}

// edgeSpan is the chordwise part of a leg aft of vortex i, and the point between, as chord fractions.
func (g *grid) edgeSpan(i int) (from, to, at float64) {
	n := len(g.chord.vortex)
	from = g.chord.vortex[i]
	if i < n-1 {
		return from, g.chord.vortex[i+1], g.chord.control[i]
	}
	return from, 1, (1 + math.Cos(math.Pi/4/float64(n))) / 2
}

func (g *grid) edgePieces(list []element, strip int, sign float64, firstSample int, le r3.Vec, chord float64) []element {
	for i := range g.chord.vortex {
		from, to, at := g.edgeSpan(i)
		list = append(list, element{
			at: aft(le, at*chord), along: r3.Vec{X: (to - from) * chord}, strip: strip, row: i,
			sign: sign, sample: firstSample + i,
		})
	}
	return list
}
