package lattice

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// What cannot be computed, or can but not be trusted, in the words of the one who drew it.

// mostPanels is the largest number of panels on the half model: two matrices of that many rows are a quarter of a gigabyte.
const mostPanels = 4000

// check reports options that no computation can use.
func (o Options) check() error {
	finite := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
	switch {
	case !(o.Density >= 0 && o.Density < 100):
		return fmt.Errorf("a panel density of %v was asked for; give a number between 0.2 and about 3, or 0 for the default of 1", o.Density)
	case o.Wake != WakeAlongBody && o.Wake != WakeAlongStream:
		return fmt.Errorf("wake %d was asked for; there are those along the body (%d) and along the stream (%d)", o.Wake, WakeAlongBody, WakeAlongStream)
	case o.Wake == WakeAlongStream && !finite(o.WakeAlpha):
		return fmt.Errorf("a wake at an angle of attack of %v was asked for; give the angle in radians", o.WakeAlpha)
	case o.Ground != nil && !(finite(o.Ground.Height) && finite(o.Ground.Pitch)):
		return fmt.Errorf("ground %v m below the datum at a pitch of %v rad was asked for; give numbers, or no ground", o.Ground.Height, o.Ground.Pitch)
	}
	_, err := newField(o)
	return err
}

// examine reports what cannot be computed before panels are laid, and adds doubts to the warnings.
func (m *model) examine(at []places, o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	surfaces := m.airframe.Surfaces
	if err := checkReference(m.airframe.Reference); err != nil {
		return err
	}
	runs := chains(surfaces, at)
	if err := checkCount(runs, surfaces, o); err != nil {
		return err
	}
	if err := checkGround(runs, surfaces, o); err != nil {
		return err
	}
	if err := checkControls(surfaces); err != nil {
		return err
	}
	found, err := checkEncounters(runs, surfaces)
	m.warnings = append(append(m.warnings, warnOfSweep(runs, surfaces)...), found...)
	return err
}

// checkControls reports a name under which surfaces turn that are unlike in symmetry: one name, one motion.
func checkControls(surfaces []aero.Surface) error {
	first := make(map[string]aero.Surface)
	for _, s := range surfaces {
		for _, h := range s.Hinges {
			before, known := first[h.Control]
			if !known {
				first[h.Control] = s
				continue
			}
			if isAntisymmetric(before.Role, h.Control) != isAntisymmetric(s.Role, h.Control) {
				return &aero.GeometryError{
					Surface: s.Name, Station: h.FromStation,
					What:  fmt.Sprintf("its control %q has the name of one on %q, which moves alike on both sides where this one moves opposed, or the other way about", h.Control, before.Name),
					Right: "give the two their own names",
				}
			}
		}
	}
	return nil
}

// checkReference reports declared reference quantities that coefficients cannot be divided by.
func checkReference(r aero.Reference) error {
	for _, q := range []struct {
		name  string
		value float64
	}{{"area", r.Area}, {"span", r.Span}, {"mean aerodynamic chord", r.MeanChord}} {
		if !(q.value > 0) || math.IsInf(q.value, 0) {
			return &aero.GeometryError{
				What:  fmt.Sprintf("the reference %s is %v", q.name, q.value),
				Right: "declare area, span and mean aerodynamic chord above zero, or none of them",
			}
		}
	}
	if math.IsNaN(r.MeanChordLeadingEdge) || math.IsInf(r.MeanChordLeadingEdge, 0) {
		return &aero.GeometryError{What: "the leading edge of the mean aerodynamic chord has no place", Right: "declare its x in metres aft of datum"}
	}
	return nil
}

// checkCount reports a lattice too large to solve before it is laid: spanwise panels of every chain times chordwise ones.
func checkCount(runs []chain, surfaces []aero.Surface, o Options) error {
	along, across := o.densities()
	strips := 0.0
	for i := range runs {
		strips += math.Max(across*float64(countFor(runs[i].bays, surfaces)), float64(1+len(marksOf(runs[i].bays, surfaces))))
	}
	panels := strips * math.Max(2, along*chordwisePanels)
	if panels <= mostPanels {
		return nil
	}
	d := math.Max(o.Density, 0)
	if d == 0 {
		d = 1
	}
	if least := strips / across; least*chordwisePanels > mostPanels {
		return fmt.Errorf("stations with kinks, joints and hinge ends ask for some %.0f strips, %.0f panels on the half model, more than the %d that are solved; leave out stations where neither edge bends", strips, panels, mostPanels)
	}
	return fmt.Errorf("the panel density %.3g asks for some %.0f panels on the half model, more than the %d that are solved; lower the density to %.2g", d, panels, mostPanels, math.Floor(10*d*math.Sqrt(mostPanels/panels))/10)
}

// steepest is the largest angle, rad, of a mean line to the stream that counts as a mean line.
const steepest = 80 * math.Pi / 180

// checkPanels reports mean lines that have no slope or stand upright.
func (g *grid) checkPanels(a aero.Airframe) error {
	if len(g.panels) > mostPanels {
		return fmt.Errorf("the panel density asks for %d panels on the half model, more than the %d that are solved; lower it by a tenth or more", len(g.panels), mostPanels)
	}
	for k := range g.panels {
		p := &g.panels[k]
		if math.Abs(p.turn) < steepest {
			continue
		}
		s := &g.strips[p.strip]
		surface := a.Surfaces[s.surface]
		return &aero.GeometryError{
			Surface: surface.Name, Station: s.station,
			What:  fmt.Sprintf("the mean line stands at %.0f° at %.0f %% of the chord", p.turn*180/math.Pi, 100*(p.control.X-s.at.X)/s.chord),
			Right: "give a mean line that is smooth from the leading to the trailing edge",
		}
	}
	return nil
}

// checkGround reports surfaces that reach into the ground.
func checkGround(runs []chain, surfaces []aero.Surface, o Options) error {
	if o.Ground == nil {
		return nil
	}
	f, err := newField(o)
	if err != nil {
		return err
	}
	for i := range runs {
		for k := range runs[i].bays {
			b := &runs[i].bays[k]
			for _, p := range []r3.Vec{b.le0, aft(b.le0, b.chord[0]), b.le1, aft(b.le1, b.chord[1])} {
				if height := r3.Dot(p, f.up) - f.depth; height <= 0 {
					return b.mistake(surfaces, fmt.Sprintf("it reaches %.3g m into the ground", -height), "raise the datum over the ground, or lower the pitch")
				}
			}
		}
	}
	return nil
}

// mistake is an error about a bay.
func (b *bay) mistake(surfaces []aero.Surface, what, right string) *aero.GeometryError {
	return &aero.GeometryError{Surface: surfaces[b.surface].Name, Station: b.stations()[0], What: what, Right: right}
}

// stations are the user's stations at both ends of a bay.
func (b *bay) stations() [2]int {
	return [2]int{int(math.Floor(b.place[0])), int(math.Ceil(b.place[1]))}
}

// sharpSweep is the sweep of a leading edge from which vortices that roll up over it belong to every flight, rad; common
// practice, no source.
const sharpSweep = 70 * math.Pi / 180

// warnOfSweep reports leading edges that air does not pass attached.
func warnOfSweep(runs []chain, surfaces []aero.Surface) []aero.Warning {
	var found []aero.Warning
	for i := range runs {
		for k := range runs[i].bays {
			b := &runs[i].bays[k]
			sweep := math.Atan2(b.le1.X-b.le0.X, b.length)
			fairing := b.place[1]-b.place[0] < 1 && b.length < 1.001*fairingLength*math.Max(b.chord[0], b.chord[1])
			if math.Abs(sweep) < sharpSweep || fairing {
				continue
			}
			at := b.stations()
			found = append(found, aero.Warning{
				Surface: surfaces[b.surface].Name, Station: at[0],
				What:  fmt.Sprintf("its leading edge is swept by %.0f° from here to station %d", sweep*180/math.Pi, at[1]),
				Right: "expect a vortex over it, with more lift and drag than this attached flow has, from a few degrees of angle of attack",
			})
		}
	}
	return found
}

// strongest is the largest circulation of a strip in a unit stream across it, as a section lift coefficient with the longest
// chord there is, that some flow could have: four times that of a flat plate, and then twice.
const strongest = 16 * math.Pi

// checkPlausible reports circulations that no flow has: the sign of panels so narrow or so steeply swept that rounding rules.
func (s *Solution) checkPlausible() error {
	last, longest := len(s.grid.chord.vortex)-1, 0.0
	for k := range s.grid.strips {
		longest = math.Max(longest, s.grid.strips[k].chord)
	}
	most, at := 0.0, 0
	for k := range s.grid.strips {
		for _, state := range [2]int{streamY, streamZ} {
			if gamma := math.Abs(s.cumulated[state][s.grid.strips[k].first+last]); !(gamma <= most) {
				most, at = gamma, k
			}
		}
	}
	if 2*most/longest < strongest {
		return nil
	}
	st := &s.grid.strips[at]
	return &aero.GeometryError{
		Surface: s.airframe.Surfaces[st.surface].Name, Station: st.station,
		What:  fmt.Sprintf("the lattice gives a lift slope of %.2g per radian near here, which no flow has", 2*most/longest),
		Right: "look for stations almost behind one another, slivers of chord, or surfaces that all but touch",
	}
}

// explain names the surfaces whose control points come closest without sharing nodes, for panels that do not
// determine the circulation.
func (m *model) explain(err error) error {
	if !errors.Is(err, errDegenerate) {
		return err
	}
	err = errDegenerate // said once, not for both symmetries
	g := m.grid
	least, pair := math.Inf(1), [2]int{}
	for i := range g.panels {
		for j := range g.panels[:i] {
			p, q := &g.panels[i], &g.panels[j]
			a, b := g.strips[p.strip].surface, g.strips[q.strip].surface
			if a == b {
				continue
			}
			if d := r3.Norm(r3.Sub(p.control, q.control)); d < least {
				least, pair = d, [2]int{b, a}
			}
		}
	}
	if math.IsInf(least, 1) {
		return err
	}
	s := m.airframe.Surfaces
	return fmt.Errorf("%w (closest to one another are %q and %q, %.2g mm apart)", err, s[pair[0]].Name, s[pair[1]].Name, 1000*least)
}
