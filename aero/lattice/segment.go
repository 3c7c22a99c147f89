package lattice

import (
	"fmt"
	"math"

	"wingproof/aero"
)

// Every chain is laid in segments: the first runs up to the first upright surface (a winglet on a wing tip), each
// upright surface is one more. A segment's edges depend on its own shape and on what lies inboard of it alone, so
// that a wing keeps its panels whatever winglet stands on its tip, and whatever foreplane flies ahead of it.

// A segment that continues another has at most so many panels at density 1, or panels so much narrower in the mean than those inboard.
const (
	mostOnPanels  = 3 * otherPanels
	mostNarrowing = 3
)

// beyond is the length, in lengths of a segment, by which its spacing law runs on past an outboard end that an upright surface
// continues: panels do not crowd there as at a free tip, but grow a little narrower as towards a winglet's.
const beyond = 0.25

// segment is a run of bays laid at once.
type segment struct {
	bays      []bay
	length    float64
	continued bool // an upright surface stands on its outboard end
}

// number gives the bays of a chain the numbers of their segments: a new one at the root of every upright surface.
func (c *chain) number(surfaces []aero.Surface) {
	segment := 0
	for i := range c.bays {
		b := &c.bays[i]
		role := surfaces[b.surface].Role
		if i > 0 && b.surface != c.bays[i-1].surface && (role == aero.RoleWinglet || role == aero.RoleFin) {
			segment++
		}
		b.segment = segment
	}
}

// segments gathers the bays of a chain.
func (c *chain) segments() []segment {
	out := make([]segment, c.bays[len(c.bays)-1].segment+1)
	for _, b := range c.bays {
		s := &out[b.segment]
		s.bays = append(s.bays, b)
		s.length += b.length
		s.continued = b.segment < len(out)-1
	}
	return out
}

// layOut chooses the panel edges of every chain; tips are the wakes that pass close over each of them, by its first surface.
func layOut(runs []chain, surfaces []aero.Surface, density float64, tips map[string][]passing) ([]spanLattice, error) {
	for i := range runs {
		runs[i].tips = tips[surfaces[runs[i].bays[0].surface].Name]
	}
	lays := make([]spanLattice, len(runs))
	for i := range runs {
		c := &runs[i]
		if c.start == startsAtBranch {
			continue // laid after the chain that it branches from
		}
		if err := layChain(c, surfaces, density, &lays[i]); err != nil {
			return nil, err
		}
	}
	for i := range runs {
		c := &runs[i]
		if c.start != startsAtBranch {
			continue
		}
		c.width = widthAtBranch(c, runs, lays)
		if err := layChain(c, surfaces, density, &lays[i]); err != nil {
			return nil, err
		}
	}
	return lays, nil
}

// widthAtBranch is the width of the panels where a chain branches off; zero where it cannot be found.
func widthAtBranch(c *chain, runs []chain, lays []spanLattice) float64 {
	for i := range runs {
		arc := 0.0
		for j := range runs[i].bays {
			b := &runs[i].bays[j]
			arc += b.length
			if !meets(b.le1, c.bays[0].le0, b.chord[1], c.bays[0].chord[0]) {
				continue
			}
			for k, e := range lays[i].edge {
				if k > 0 && math.Abs(e-arc) < 1e-9*math.Max(arc, 1) {
					return e - lays[i].edge[k-1]
				}
			}
		}
	}
	return 0
}

// layChain lays the segments of a chain one after the other.
func layChain(c *chain, surfaces []aero.Surface, density float64, whole *spanLattice) error {
	width, mean, peak, start := c.width, c.width, 0.0, 0.0
	for i, s := range c.segments() {
		var lay spanLattice
		var err error
		if i == 0 && c.start != startsAtBranch {
			lay, err = s.layFirst(c.start, density, surfaces, c.tips)
		} else {
			lay, err = s.layOn(width, mean, peak, density, surfaces)
		}
		if err != nil {
			return fmt.Errorf("surface %q: %w", surfaces[s.bays[0].surface].Name, err)
		}
		whole.add(lay, start)
		width, mean, peak, start = lay.last, s.length/float64(len(lay.control)), lay.peak, start+s.length
	}
	return nil
}

// add appends a segment's edges.
func (l *spanLattice) add(m spanLattice, start float64) {
	if len(l.edge) > 0 {
		l.edge = l.edge[:len(l.edge)-1]
	}
	for _, e := range m.edge {
		l.edge = append(l.edge, start+e)
	}
	for _, c := range m.control {
		l.control = append(l.control, start+c)
	}
}

// layFirst lays the inboard segment of a chain.
func (s *segment) layFirst(start startKind, density float64, surfaces []aero.Surface, tips []passing) (spanLattice, error) {
	count := density * float64(countFor(s.bays, surfaces))
	l := law{start: start, length: s.length, corners: cornersOf(s.bays)}
	if s.continued {
		l.length *= 1 + beyond
		last := &s.bays[len(s.bays)-1]
		l.corners = append(l.corners, corner{arc: s.length, reach: cornerReach * last.chord[1], share: cornerShare})
	}
	marks := marksOf(s.bays, surfaces)
	passings := s.passingsAt(tips, s.length/count)
	extra := density * passingPanels * math.Sqrt(math.Sqrt(float64(len(passings))))
	for _, c := range passings {
		marks = append(marks, c.arc)
		c.share = extra / float64(len(passings)) / (count + extra)
		l.corners = append(l.corners, c)
	}
	return newSpanLattice(l, math.Max(3, math.Round(count+extra)), s.length, marks)
}

// layOn lays a segment that continues another, whose panels are mean m wide: its panels begin with the width of the other's last, of
// which the share peak of the density belongs to the corner between the two.
//
// Its law is that of a quarter wave that begins some way before the segment: density α·p'(s) with p from 0 to 1, plus the outboard half of
// the corner at its root. How far before (from nowhere to far away, which takes the first width of n panels from π/2 to
// twice the mean) and the whole number of panels are chosen so that the widths at the joint agree.
func (s *segment) layOn(width, mean, peak, density float64, surfaces []aero.Surface) (spanLattice, error) {
	if !(width > 0) {
		width = s.length / (density * otherPanels)
		mean = width
	}
	reach, length := cornerReach*s.bays[0].chord[0], s.length
	if s.continued {
		length *= 1 + beyond
	}
	plain, peaked := (1-peak)/width, peak/width // panels a metre at the joint: by the plain law, by the corner
	inCorner := peaked * reach * math.Atan(length/reach)
	low, high := plain*length*math.Pi/2, plain*length*2
	n := math.Max(math.Max(3, math.Round(3*density)), math.Round((low+high)/2+inCorner))
	most := math.Max(density*mostOnPanels, mostNarrowing*length/mean) // a sliver at the tip inboard must not fill this segment with slivers
	n = math.Min(n, math.Round(most))
	rate := math.Min(math.Max((n-inCorner)/(plain*length), math.Pi/2), 1.999)
	l := law{start: startsAtBranch, length: length, before: beforeFor(rate) * length, corners: cornersOf(s.bays)}
	l.corners = append(l.corners, corner{arc: 0, reach: reach, share: math.Min(0.5, inCorner/n)})
	if s.continued {
		last := &s.bays[len(s.bays)-1]
		l.corners = append(l.corners, corner{arc: s.length, reach: cornerReach * last.chord[1], share: cornerShare})
	}
	return newSpanLattice(l, n, s.length, marksOf(s.bays, surfaces))
}

// beforeFor inverts rate = √((b+1)² − b²) acos(b/(b+1)), which rises from π/2 at b = 0 towards 2, by bisection.
func beforeFor(rate float64) float64 {
	low, high := 0.0, 1e3
	for range 60 {
		b := (low + high) / 2
		if math.Sqrt(2*b+1)*math.Acos(b/(b+1)) < rate {
			low = b
		} else {
			high = b
		}
	}
	return (low + high) / 2
}
