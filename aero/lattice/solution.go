package lattice

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

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
	velocity    [][]r3.Vec // [sample][state]
	loads       loadForm
	drag        [][]float64 // far-field drag over ½ρV², m², as a quadratic form
	farLift     []float64   // far-field lift over ½ρV, per state
}

// Solve panels and solves an airframe.
//
// A missing reference (zero area) is computed from the geometry. An error names the surface and
// the station that cannot be computed; doubts that can are kept in Warnings.
func Solve(a aero.Airframe, o Options) (*Solution, error) {
	prepared, warnings, err := prepare(a)
	if err != nil {
		return nil, fmt.Errorf("solving the vortex lattice: %w", err)
	}
	list := newControlList(prepared.Surfaces)
	g, err := newGrid(prepared.Surfaces, list, o)
	if err != nil {
		return nil, fmt.Errorf("solving the vortex lattice: %w", err)
	}
	circulation, err := g.solveBasis(list)
	if err != nil {
		return nil, fmt.Errorf("solving the vortex lattice: the panels do not determine the circulation (surfaces that lie on each other?): %w", err)
	}
	s := &Solution{airframe: prepared, warnings: append(warnings, g.warn(prepared)...), grid: g, controls: list, circulation: circulation}
	s.cumulated = g.cumulate(circulation)
	pieces, samples := g.elements()
	s.pieces, s.velocity = pieces, g.velocities(list, samples, circulation)
	s.loads = s.newLoadForm()
	s.drag, s.farLift = s.farField()
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
