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
	sample int  // where in the list of velocity samples
}

// elements lists every loaded piece and the points where velocities are wanted. Both strips beside a
// chordwise edge take their velocity from one sample.
func (g *grid) elements() (pieces []element, samples []sample) {
	n := len(g.chord.vortex)
	for k := range g.panels {
		p := &g.panels[k]
		pieces = append(pieces, element{
			at: p.load, along: r3.Sub(p.b, p.a), strip: p.strip, row: k - g.strips[p.strip].first,
			sign: 1, bound: true, sample: len(samples),
		})
		samples = append(samples, sample{p.load, p.group, false})
	}
	for _, run := range g.chains {
		for i := run[0]; i < run[1]; i++ {
			s := &g.strips[i]
			if i == run[0] {
				samples = g.edgeSamples(samples, s.a, s.chordA, s.group)
			}
			pieces = g.edgePieces(pieces, i, -1, len(samples)-n, s.a, s.chordA)
			samples = g.edgeSamples(samples, s.b, s.chordB, s.group)
			pieces = g.edgePieces(pieces, i, 1, len(samples)-n, s.b, s.chordB)
		}
	}
	return pieces, samples
}

// sample is a point where the velocity is wanted.
type sample struct {
	at    r3.Vec
	group int
	edge  bool // on a panel edge, right under a leg of another group where edges are lined up
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

func (g *grid) edgeSamples(list []sample, le r3.Vec, chord float64, group int) []sample {
	for i := range g.chord.vortex {
		_, _, at := g.edgeSpan(i)
		list = append(list, sample{aft(le, at*chord), group, true})
	}
	return list
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

// velocities returns the velocity of every basis state at every sample, velocity[sample][state].
func (g *grid) velocities(list *controlList, samples []sample, circulation [][]float64) [][]r3.Vec {
	states := len(circulation)
	byPanel := make([]float64, states*len(g.panels)) // circulation by panel, then by state
	for i, row := range circulation {
		for k, gamma := range row {
			byPanel[k*states+i] = gamma
		}
	}
	mirror := make([]float64, states)
	for i := range mirror {
		mirror[i] = 1
		if list.antisymmetric(i) {
			mirror[i] = -1
		}
	}
	out := make([][]r3.Vec, len(samples))
	forRows(len(samples), func(row int) {
		at := samples[row]
		sum := make([]r3.Vec, states)
		for k := range g.panels {
			own, image := g.panels[k].pair(at.at, at.group, at.edge)
			even, odd := r3.Add(own, image), r3.Sub(own, image)
			for i, gamma := range byPanel[k*states : (k+1)*states] {
				v := &even
				if mirror[i] < 0 {
					v = &odd
				}
				sum[i].X += gamma * v.X
				sum[i].Y += gamma * v.Y
				sum[i].Z += gamma * v.Z
			}
		}
		for i := range sum {
			sum[i] = r3.Add(sum[i], outer(i, at.at))
		}
		out[row] = sum
	})
	return out
}
