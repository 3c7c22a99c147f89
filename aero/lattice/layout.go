package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Panel counts at density 1: chordwise on every surface, spanwise on a whole chain of the right half.
const (
	chordwisePanels = 8
	wingPanels      = 48
	foreplanePanels = 20
	otherPanels     = 12
)

// kinkAngle is the change of direction, rad, of an edge from which a station gets a panel edge.
const kinkAngle = 0.5 * math.Pi / 180

// cornerAngle is the change of dihedral, rad, from which a station counts as a corner.
const cornerAngle = 20 * math.Pi / 180

// newGrid panels the right half of an airframe; at says which stations are the user's,
// tips are the wakes that pass close.
func newGrid(surfaces []aero.Surface, at []places, list *controlList, o Options, tips map[string][]passing) (*grid, error) {
	chord, d := o.densities()
	g := &grid{chord: newChordLattice(max(2, int(math.Round(chord*chordwisePanels))))}
	var err error
	if g.field, err = newField(o); err != nil {
		return nil, err
	}
	runs := chains(surfaces, at)
	total := 0
	for i := range runs {
		total += len(runs[i].bays)
		list.assign(surfaces, runs[i].bays)
		runs[i].number(surfaces)
	}
	for _, s := range surfaces {
		total -= len(s.Stations) - 1
	}
	if total != 0 {
		return nil, &aero.GeometryError{Surface: "", What: "surfaces join each other in a closed ring", Right: "leave one joint of the ring open"}
	}
	lays, err := layOut(runs, surfaces, d, tips)
	if err != nil {
		return nil, err
	}
	for i := range runs {
		g.addChain(&runs[i], lays[i])
	}
	g.cut()
	return g, nil
}

// countFor is the default number of panels along a chain up to its first upright surface.
func countFor(bays []bay, surfaces []aero.Surface) int {
	count := otherPanels
	for _, b := range bays {
		switch surfaces[b.surface].Role {
		case aero.RoleWing, aero.RoleStrake:
			return wingPanels
		case aero.RoleForeplane:
			count = foreplanePanels
		}
	}
	return count
}

// marks asks for an edge at every joint, hinge end and kink between bays.
func marksOf(bays []bay, surfaces []aero.Surface) []float64 {
	var marks []float64
	arc := 0.0
	for i := 1; i < len(bays); i++ {
		a, b := &bays[i-1], &bays[i]
		arc += a.length
		if a.surface != b.surface || hingeEnds(surfaces[b.surface], b.station) || kinked(a, b) {
			marks = append(marks, arc)
		}
	}
	return marks
}

// hingeEnds tells whether a hinge of the surface starts or ends at the station (from 0).
func hingeEnds(s aero.Surface, station int) bool {
	for _, h := range s.Hinges {
		if h.FromStation-1 == station || h.ToStation-1 == station {
			return true
		}
	}
	return false
}

// cornersOf lists the sharp changes of dihedral between bays.
func cornersOf(bays []bay) []corner {
	var out []corner
	arc := 0.0
	for i := 1; i < len(bays); i++ {
		arc += bays[i-1].length
		if k, ok := cornerBetween(&bays[i-1], &bays[i]); ok {
			k.arc = arc
			out = append(out, k)
		}
	}
	if len(out) > 2 { // a polygon for a curved tip: smooth enough without
		return nil
	}
	return out
}

// cornerBetween is the corner between two bays, if their dihedral differs enough. Its reach is that of the inboard one's chord.
func cornerBetween(a, b *bay) (corner, bool) {
	angle := math.Acos(math.Min(1, math.Max(-1, r3.Dot(a.normal, b.normal))))
	share := cornerShare * math.Sin(math.Min(angle, math.Pi/2))
	return corner{reach: cornerReach * a.chord[1], share: share}, angle > cornerAngle
}

// kinked tells whether leading edge, trailing edge or dihedral change direction between two bays.
func kinked(a, b *bay) bool {
	trailing := func(c *bay) r3.Vec {
		return r3.Sub(aft(c.le1, c.chord[1]), aft(c.le0, c.chord[0]))
	}
	angle := func(u, v r3.Vec) float64 { return math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v)) }
	return angle(r3.Sub(a.le1, a.le0), r3.Sub(b.le1, b.le0)) > kinkAngle || angle(trailing(a), trailing(b)) > kinkAngle
}

// addChain panels every strip of a chain.
func (g *grid) addChain(c *chain, lay spanLattice) {
	run := [2]int{len(g.strips), len(g.strips) + len(lay.control)}
	for i, at := range lay.control {
		at = math.Min(math.Max(at, lay.edge[i]), lay.edge[i+1])
		bayAt, start := c.find(at)
		edges := [2]edgePoint{c.edgeAt(lay.edge[i]), c.edgeAt(lay.edge[i+1])}
		edges[0].bayStart, edges[1].bayStart = start, start
		g.addStrip(c, bayAt, at, edges)
	}
	g.chains = append(g.chains, run)
	g.addWakes()
}

// find returns the bay at an arc length and where it starts.
func (c *chain) find(arc float64) (*bay, float64) {
	start := 0.0
	for i := range c.bays {
		if b := &c.bays[i]; arc <= start+b.length || i == len(c.bays)-1 {
			return b, start
		}
		start += c.bays[i].length
	}
	return nil, 0
}

func (c *chain) edgeAt(arc float64) edgePoint {
	b, start := c.find(arc)
	t := math.Min(math.Max((arc-start)/b.length, 0), 1)
	return edgePoint{arc: arc, le: b.leadingEdge(t), chord: b.chordAt(t)}
}
