package lattice

import (
	"fmt"

	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
)

// Solution is a solved airframe: every State is a sum of its basis states.
type Solution struct {
	airframe    aero.Airframe // as panelled, joints drawn together
	warnings    []aero.Warning
	grid        *grid
	controls    *controlList
	circulation [][]float64 // [state][panel]
	cumulated   [][]float64 // [state][panel], sum from the leading edge
	pieces      []element
	velocity    flow
	loads       loadForm
	drag        [][]float64 // far-field drag over ½ρV², m², as a quadratic form
	farLift     []float64   // far-field lift over ½ρV, per state
	traces      [][]*trace  // by part
	response    *mat.Dense  // section lift per unit turn, strip by strip; nil unless asked for
}

// Solve panels and solves an airframe.
//
// A missing reference (zero area) is computed from the geometry. An error names the surface and
// the station that cannot be computed; doubts that can are kept in Warnings.
func Solve(a aero.Airframe, o Options) (*Solution, error) {
	all, err := SolveAll([]aero.Airframe{a}, o)
	if err != nil {
		return nil, err
	}
	return all[0], nil
}

// SolveAll solves several airframes, such as the levels of a choice, and gives their solutions in order. What surfaces that
// airframes share do to one another is worked out once. Each solution is, to round-off, the one that Solve gives, unless wakes pass
// close over a surface: it then has panels for the tips of all airframes, and numbers differ by less than the error of the grid. Options.OwnPanels
// forgoes that.
//
// The error is that of the first airframe that has one, wrapped in an AirframeError with its number when there are several.
func SolveAll(airframes []aero.Airframe, o Options) ([]*Solution, error) {
	members, failed := newModels(airframes, o)
	if err := firstOf(failed); err != nil {
		return nil, err
	}
	newFamily(members)
	out := make([]*Solution, len(members))
	forRows(len(members), func(i int) {
		out[i], failed[i] = members[i].solution(o)
		members[i] = nil
	})
	return out, firstOf(failed)
}

// Check panels airframes without solving them: the doubts about each, and the first failure as SolveAll would give it.
func Check(airframes []aero.Airframe, o Options) ([][]aero.Warning, error) {
	members, failed := newModels(airframes, o)
	out := make([][]aero.Warning, len(members))
	for i, m := range members {
		out[i] = m.warnings
	}
	return out, firstOf(failed)
}

// AirframeError is the failure of one of several airframes.
type AirframeError struct {
	Index int // in the list given to SolveAll, from 0
	Err   error
}

// Error names the airframe by its place in the list, from 1.
func (e *AirframeError) Error() string {
	return fmt.Sprintf("airframe %d of the list: %v", e.Index+1, e.Err)
}

// Unwrap gives the failure itself.
func (e *AirframeError) Unwrap() error { return e.Err }

func firstOf(failed []error) error {
	for i, err := range failed {
		switch {
		case err != nil && len(failed) > 1:
			return &AirframeError{i, err}
		case err != nil:
			return err
		}
	}
	return nil
}

// solution solves a member of a family.
func (m *model) solution(o Options) (*Solution, error) {
	circulation, err := m.solveBasis()
	if err != nil {
		return nil, fmt.Errorf("solving the vortex lattice: %w", m.explain(err))
	}
	s := &Solution{airframe: m.airframe, warnings: m.warnings, grid: m.grid, controls: m.controls, circulation: circulation}
	s.cumulated = m.grid.cumulate(circulation)
	if err := s.checkPlausible(); err != nil {
		return nil, fmt.Errorf("solving the vortex lattice: %w", err)
	}
	pieces, samples := m.grid.elements()
	s.pieces, s.velocity = pieces, m.velocities(circulation, samples)
	s.loads = s.newLoadForm()
	s.drag, s.farLift = m.farField(s.cumulated)
	s.traces = m.allTraces()
	if o.Sections {
		if s.response, err = m.sectionResponse(); err != nil {
			return nil, fmt.Errorf("solving the vortex lattice: %w", err)
		}
	}
	return s, nil
}

// cumulate sums circulation from the leading edge along each strip.
func (g *grid) cumulate(circulation [][]float64) [][]float64 {
	out := make([][]float64, len(circulation))
	n := len(g.chord.vortex)
	for i, row := range circulation {
		out[i] = make([]float64, len(row))
		for k, gamma := range row {
			out[i][k] = gamma
			if k%n != 0 {
				out[i][k] += out[i][k-1]
			}
		}
	}
	return out
}

// Warnings lists the doubts about the geometry.
func (s *Solution) Warnings() []aero.Warning { return append([]aero.Warning(nil), s.warnings...) }

// Panels is the number of panels on the right half.
func (s *Solution) Panels() int { return len(s.grid.panels) }

// Reference returns the reference quantities that coefficients are divided by.
func (s *Solution) Reference() aero.Reference { return s.airframe.Reference }

// Controls names the controls found on the airframe, in alphabetical order. State.Controls may hold
// these; other names have no effect.
func (s *Solution) Controls() []string {
	names := make([]string, len(s.controls.controls))
	for i, c := range s.controls.controls {
		names[i] = c.name
	}
	return names
}
