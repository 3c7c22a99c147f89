package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// strip is a chordwise row of panels. Its panels are numbered first, first+1 … first+n−1 from the leading edge.
type strip struct {
	surface    int
	segment    int // of its chain, from 0
	part       int
	station    int     // of the user's table, from 1, inboard of the control station
	between    float64 // and how far it stands from there to the next
	group      int
	chain      int
	first      int
	a, b       r3.Vec  // leading edge at the inboard and outboard edge
	chordA     float64 // chords there, m
	chordB     float64
	at         r3.Vec     // leading edge at the control station
	chord      float64    // chord there, m
	normal     r3.Vec     // of the flat strip
	width      float64    // in the y–z plane, m
	copies     float64    // 2 with a mirror image, 1 on the plane of symmetry
	core       [2]float64 // fourth power of the core of the legs at both edges, m⁴, towards other groups
	hinges     []hingeSpan
	from, to   []r3.Vec    // ends of the bound segments at both edges, in the stretched space
	turnHinges [][]float64 // per hinge: turn of the normal of each panel per radian of control

	trail     [2]r3.Vec // trailing edge at the edges, in the stretched space
	sheetEdge [2]r3.Vec // the same in wake axes
	sheet     [3]r3.Vec // trailing edge at the control stations inboard, here and outboard, wake axes
	tip       bool      // the outboard edge is a free end
	free      bool      // the inboard edge is one
	traceMid  r3.Vec    // middle of the trace far behind: the control station, wake axes
	traceSide r3.Vec    // normal of the trace there
}

// continues tells whether strip i continues strip i−1 within one segment of a chain.
func (g *grid) continues(i int) bool {
	return i > 0 && i < len(g.strips) && g.strips[i-1].chain == g.strips[i].chain && g.strips[i-1].segment == g.strips[i].segment
}

// onPlane tells whether the strip begins on the plane of symmetry and is mirrored there.
func (s *strip) onPlane() bool { return s.copies == 2 && math.Abs(s.a.Y) < 1e-6*s.chordA }

// panel is one horseshoe with its control point, stored by value for the inner loops.
type panel struct {
	a, b    r3.Vec // ends of the bound segment, inboard and outboard
	control r3.Vec
	load    r3.Vec  // where the bound segment's velocity is taken
	turn    float64 // angle of the normal without controls, rad
	group   int     // panels of one group share nodes
	strip   int
	central bool
}

// grid is the panelled right half in its field.
type grid struct {
	field  field
	chord  chordLattice
	strips []strip
	panels []panel
	chains [][2]int // first and last-plus-one strip of every run that shares nodes in order
	parts  []part
	passes [][]bool // [r][c]: the wake of part c passes close over part r
	traces [][]bool // [r][c]: their traces come close far behind
}

// coreFraction is the core of a trailing leg in widths of the narrower strip beside it, towards other groups: it keeps a
// leg that grazes another surface finite and leaves the velocity half a width away unchanged to 1e-4.
const coreFraction = 0.05

func coreOf(width float64) float64 { return math.Pow(coreFraction*width, 4) }

// addStrip panels one strip of a bay; arcs are measured from the inboard end of the bay.
func (g *grid) addStrip(c *chain, b *bay, at float64, edges [2]edgePoint) {
	n := len(g.chord.vortex)
	s := strip{
		surface: b.surface, segment: b.segment, group: c.group, chain: len(g.chains), first: len(g.panels),
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
	s.station, s.between = b.placeAt(inBay)
	for _, h := range b.hingeTurns {
		turns := hingeTurns(n, h.hinge)
		for i := range turns {
			turns[i] *= h.gain
		}
		s.turnHinges = append(s.turnHinges, turns)
	}
	for i := range n {
		xv, xc := g.chord.vortex[i], g.chord.control[i]
		g.panels = append(g.panels, panel{
			a:       aft(s.a, xv*s.chordA),
			b:       aft(s.b, xv*s.chordB),
			control: aft(s.at, xc*s.chord),
			load:    aft(s.at, xv*s.chord),
			turn:    b.turnAt(inBay, xc),
			group:   c.group, strip: len(g.strips), central: c.central,
		})
		q := &g.panels[len(g.panels)-1]
		s.from, s.to = append(s.from, g.field.stretched(q.a)), append(s.to, g.field.stretched(q.b))
	}
	g.strips = append(g.strips, s)
}

// addWakes gives the strips of the newest chain their wakes. What a strip has there depends on its own segment alone, so that
// another winglet leaves the wing's strips as they are.
func (g *grid) addWakes() {
	run := g.chains[len(g.chains)-1]
	ends := func(p r3.Vec) (stretched, along r3.Vec) {
		stretched = g.field.stretched(p)
		return stretched, g.field.alongWake(stretched)
	}
	for i := run[0]; i < run[1]; i++ {
		s := &g.strips[i]
		s.trail[0], s.sheetEdge[0] = ends(aft(s.a, s.chordA))
		s.trail[1], s.sheetEdge[1] = ends(aft(s.b, s.chordB))
		_, s.traceMid = ends(aft(s.at, s.chord))
		step := r3.Sub(s.sheetEdge[1], s.sheetEdge[0])
		s.traceSide = r3.Unit(r3.Vec{Y: -step.Z, Z: step.Y})
	}
	for i := run[0]; i < run[1]; i++ {
		s := &g.strips[i]
		s.core = [2]float64{coreOf(s.width), coreOf(s.width)}
		beyond := func(edge r3.Vec) r3.Vec { return r3.Sub(r3.Scale(2, edge), s.traceMid) }
		s.sheet = [3]r3.Vec{s.sheetEdge[0], s.traceMid, s.sheetEdge[1]}
		s.tip = i+1 == run[1]
		s.free = i == run[0] && !s.onPlane()
		switch {
		case g.continues(i):
			s.core[0] = coreOf(math.Min(s.width, g.strips[i-1].width))
			s.sheet[0] = g.strips[i-1].traceMid
		case !s.free:
			s.sheet[0] = beyond(s.sheetEdge[0])
		}
		switch {
		case !s.tip && g.continues(i+1):
			s.core[1] = coreOf(math.Min(s.width, g.strips[i+1].width))
			s.sheet[2] = g.strips[i+1].traceMid
		case !s.tip:
			s.sheet[2] = beyond(s.sheetEdge[1])
		}
	}
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
