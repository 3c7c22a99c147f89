package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// strip is a chordwise row of panels. Its panels are numbered first, first+1 … first+n−1 from the leading edge.
type strip struct {
	surface    int
	group      int
	first      int
	a, b       r3.Vec  // leading edge at the inboard and outboard edge
	chordA     float64 // chords there, m
	chordB     float64
	at         r3.Vec  // leading edge at the control station
	chord      float64 // chord there, m
	normal     r3.Vec  // of the flat strip
	width      float64 // in the y–z plane, m
	copies     float64 // 2 with a mirror image, 1 on the plane of symmetry
	hinges     []hingeSpan
	turnHinges [][]float64 // per hinge: turn of the normal of each panel per radian of control
}

// panel is one horseshoe with its control point, stored by value for the inner loops.
type panel struct {
	a, b    r3.Vec // ends of the bound segment, inboard and outboard
	control r3.Vec
	load    r3.Vec  // where the bound segment's velocity is taken
	turn    float64 // angle of the normal without controls, rad
	core    float64 // fourth power of the core of the legs, m⁴, towards other groups
	group   int     // panels of one group share nodes
	strip   int
	central bool
}

// grid is the panelled right half.
type grid struct {
	chord  chordLattice
	strips []strip
	panels []panel
	chains [][2]int // first and last-plus-one strip of every run that shares nodes in order
}

// coreFraction is the core of a trailing leg in widths of its strip, towards other groups: it keeps a
// leg that grazes another surface finite and leaves the velocity half a width away unchanged to 1e-4.
const coreFraction = 0.05

// edgeCore widens the core, taken to the fourth power, to a quarter of the strip for points on panel
// edges. Straight under a leg the velocity then stays about that of the sheet which the leg stands for
// (half its strength, Γ/2 over the width) instead of growing without bound.
const edgeCore = (0.25 / coreFraction) * (0.25 / coreFraction) * (0.25 / coreFraction) * (0.25 / coreFraction)

// addStrip panels one strip of a bay; arcs are measured from the inboard end of the bay.
func (g *grid) addStrip(c *chain, b *bay, at float64, edges [2]edgePoint) {
	n := len(g.chord.vortex)
	s := strip{
		surface: b.surface, group: c.group, first: len(g.panels),
		a: edges[0].le, b: edges[1].le, chordA: edges[0].chord, chordB: edges[1].chord,
		copies: 2, hinges: b.hingeTurns,
	}
	if c.central {
		s.copies = 1
	}
	step := r3.Sub(s.b, s.a)
	s.width = math.Hypot(step.Y, step.Z)
	s.normal = r3.Vec{Y: -step.Z / s.width, Z: step.Y / s.width}
	t := (at - edges[0].arc) / (edges[1].arc - edges[0].arc)
	s.at = r3.Add(s.a, r3.Scale(t, step))
	s.chord = s.chordA + t*(s.chordB-s.chordA)
	inBay := (at - edges[0].bayStart) / b.length
	for _, h := range b.hingeTurns {
		turns := hingeTurns(n, h.hinge)
		for i := range turns {
			turns[i] *= h.gain
		}
		s.turnHinges = append(s.turnHinges, turns)
	}
	core := math.Pow(coreFraction*s.width, 4)
	for i := range n {
		xv, xc := g.chord.vortex[i], g.chord.control[i]
		g.panels = append(g.panels, panel{
			a:       aft(s.a, xv*s.chordA),
			b:       aft(s.b, xv*s.chordB),
			control: aft(s.at, xc*s.chord),
			load:    aft(s.at, xv*s.chord),
			turn:    b.turnAt(inBay, xc),
			core:    core,
			group:   c.group, strip: len(g.strips), central: c.central,
		})
	}
	g.strips = append(g.strips, s)
}

// edgePoint is a panel edge along a chain.
type edgePoint struct {
	arc      float64
	bayStart float64 // arc length where the bay of the strip begins
	le       r3.Vec
	chord    float64
}

func aft(p r3.Vec, dx float64) r3.Vec { p.X += dx; return p }

// normalAt is the unit normal of a flat panel turned by t.
func normalAt(flat r3.Vec, t float64) r3.Vec {
	sin, cos := math.Sincos(t)
	return r3.Vec{X: sin, Y: cos * flat.Y, Z: cos * flat.Z}
}
