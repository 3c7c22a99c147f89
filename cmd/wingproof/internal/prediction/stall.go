package prediction

import (
	"fmt"

	"gonum.org/v1/gonum/mat"

	"wingproof/aero/aerofoil"
	"wingproof/aero/lattice"
	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// stallWake is the angle of attack of StallSetup's wakes, rad.
const stallWake = 12 * deg

// StallSetup is a setup for the analysis that Stall asks for: section responses, and wakes along the stream of a slow aircraft.
//
// Along the body, as is usual for cruise, the foreplane's wake would pass the wing of a slow aircraft too close, with too
// much upwash outboard of its tips and too much downwash inboard.
func StallSetup(s Setup) Setup {
	s.Grids = false
	s.Lattice.Sections = true
	s.Lattice.Wake, s.Lattice.WakeAlpha = lattice.WakeAlongStream, stallWake
	return s
}

// Stall finds the stall order of an airframe: for the model (at its own Reynolds number, ballasted to dynamic similarity) and for full
// size, for each Handling and, at full size, each surface state (a model is flown clean). missing says in words what was not there and what was done without it.
//
// Section lifts are those of the analysis, which must have been made with Lattice.Sections (StallSetup). A section's maximum lift comes from
// the polars of the aerofoils on both sides of a strip, at the strip's own Reynolds number and, where the elevator covers
// it, deflection; the speed is that at which the attached lift at that angle of attack carries the aircraft. It
// refers to the flow across the quarter-chord line, so that the maximum of a strip is the section's times cos² of its
// sweep (R. L. Maki, The Use of Two-Dimensional Section Data to Estimate the Low-Speed Wing Lift Coefficient at Which Section Stall First
// Appears on a Swept Wing, NACA RM A51E15, 1951; from memory); its Reynolds number is that of the chord along the stream.
// Strips swept by more than 40° are not held at a maximum: there a vortex forms before the section stalls.
//
// Errors: an analysis without section responses, polars that cannot be used, section data that stall.Find refuses.
func Stall(p *program.Program, a *Analysis, s Setup) (cases []StallCase, missing []string, err error) {
	sections, err := SectionsOf(p)
	if err != nil {
		return nil, nil, err
	}
	w := &stallWork{program: p, analysis: a, setup: s, sections: sections}
	if !w.prepare() {
		return nil, w.missing, nil
	}
	if w.response, err = a.Solution.SectionResponse(); err != nil {
		return nil, nil, fmt.Errorf("stall order: %w", err)
	}
	for i, alone := range w.layout.others { // a single surface answers nothing in symmetric flight, and is never held
		if alone {
			w.response.Set(i, i, 1)
		}
	}
	questions, err := w.questions()
	if err != nil {
		return nil, nil, fmt.Errorf("stall order: %w", err)
	}
	for _, q := range questions {
		c, err := w.judge(q)
		if err != nil {
			return nil, nil, err
		}
		cases = append(cases, c)
	}
	return cases, w.missing, nil
}

// stallWork is one call of Stall.
type stallWork struct {
	program  *program.Program
	analysis *Analysis
	setup    Setup
	sections *Sections
	response *mat.Dense
	layout   layout
	form     sectionForm
	travel   [2]float64 // of the elevator
	stop     float64    // the end of it that raises the nose
	moves    bool       // there is an elevator
	missing  []string
}

// question is what one case asks.
type question struct {
	handling Handling
	load     loadedPoint
	size     scaled
	surfaces Surfaces
	shift    sectionShift // of the section maxima; none as judged
}

func (q question) name() string {
	return sizeWords(q.size.size) + ", " + string(q.handling) + ", " + string(q.surfaces)
}

func (q question) mass() float64 { return q.size.weight(q.load.mass) }

// questions are the cases that the folder knows enough for.
func (w *stallWork) questions() ([]question, error) {
	sizes, err := sizesOf(w.program)
	if err != nil {
		return nil, err
	}
	forward, aft, what := loadedExtremes(w.program, w.setup.CG.X)
	w.miss(what)
	ways := []question{{handling: AftStop, load: aft}, {handling: AftTrimmed, load: aft}, {handling: ForwardTrimmed, load: forward}}
	if what != "" {
		ways = ways[:2]
	}
	var out []question
	for _, size := range sizes {
		states := w.states()
		if size.size == evidence.ModelScale {
			states = states[:1]
		}
		for _, q := range ways {
			for _, q.surfaces = range states {
				q.size = size
				out = append(out, q)
			}
		}
	}
	return out, nil
}

// states are the surface states that the polars suffice for.
func (w *stallWork) states() []Surfaces {
	if !w.judged(aerofoil.Contaminated) {
		return []Surfaces{AllClean}
	}
	return []Surfaces{AllClean, ForeplaneContaminated, AllContaminated}
}

// judge finds the order of one case and what hangs on it.
func (w *stallWork) judge(q question) (StallCase, error) {
	c := StallCase{
		Name: q.name(), Size: q.size.size, Handling: q.handling, Surfaces: q.surfaces,
		Loading: q.load.name, Mass: q.mass(), CG: q.load.x, Air: q.size.air, Reference: w.analysis.Solution.Reference(),
	}
	t, err := w.handled(q)
	if err != nil {
		return c, fmt.Errorf("stall order, %s: %w", c.Name, err)
	}
	if c.Order, err = t.search.Order(); err != nil {
		return c, fmt.Errorf("stall order, %s: %w", c.Name, err)
	}
	c.Elevator, c.AtStop, c.Stations = t.deflection, w.moves && t.deflection == w.stop, t.layout.stations
	c.Trim = t.trim(c.Order)
	if c.Greatest, err = w.greatestLift(q, t); err != nil {
		return c, fmt.Errorf("greatest lift, %s: %w", c.Name, err)
	}
	if err := c.doubt(t); err != nil {
		return c, err
	}
	c.measure(t)
	c.note(t)
	c.Verdict = verdict(c)
	return c, nil
}

// stateOf is the row of a polar that a part takes in a surface state.
func stateOf(surfaces Surfaces, part stall.Part) string {
	if surfaces == AllContaminated || surfaces == ForeplaneContaminated && part == stall.Foreplane {
		return aerofoil.Contaminated
	}
	return aerofoil.Clean
}
