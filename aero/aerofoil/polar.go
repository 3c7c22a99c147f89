package aerofoil

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Polar is a checked table of section data: maximum lift and profile drag by Reynolds number, flap deflection and
// state. The zero value has no data. A Polar is not changed once made, and may be read from several places at once.
type Polar struct {
	grids   []grid // at most one a state, clean first
	sources []string
}

// grid is the data of one state: a value for every pair of Reynolds number and flap deflection.
type grid struct {
	state          string
	reynolds, flap []float64 // rising
	logReynolds    []float64
	maxLift, drag  []float64 // [i*len(flap)+j]
}

// NewPolar checks a table and makes it ready for interpolation. Each state that occurs needs a row for
// every pair of its Reynolds numbers and flap deflections; the order of the rows does not matter.
//
// All mistakes are returned at once (errors.Join of *TableError): no rows, values that are not positive,
// unknown states, a row given twice, a pair without a row.
func NewPolar(rows []PolarRow) (Polar, error) {
	if len(rows) == 0 {
		return Polar{}, &TableError{What: "there are no rows", Right: "give at least one row a state: Reynolds number, flap, state, maximum lift, profile drag, source"}
	}
	var found []error
	for i, r := range rows {
		found = append(found, r.check(i+1)...)
	}
	if len(found) > 0 {
		return Polar{}, errors.Join(found...)
	}
	var p Polar
	for _, state := range []string{Clean, Contaminated} {
		g, mistakes := newGrid(state, rows)
		found = append(found, mistakes...)
		if len(g.reynolds) > 0 {
			p.grids = append(p.grids, g)
		}
	}
	for _, r := range rows {
		if r.Source != "" && !slices.Contains(p.sources, r.Source) {
			p.sources = append(p.sources, r.Source)
		}
	}
	if len(found) > 0 {
		return Polar{}, errors.Join(found...)
	}
	return p, nil
}

// newGrid collects the rows of one state.
func newGrid(state string, rows []PolarRow) (grid, []error) {
	g := grid{state: state}
	for _, r := range rows {
		if r.State == state {
			g.reynolds, g.flap = append(g.reynolds, r.Reynolds), append(g.flap, r.Flap)
		}
	}
	slices.Sort(g.reynolds)
	slices.Sort(g.flap)
	g.reynolds = slices.CompactFunc(g.reynolds, func(a, b float64) bool { return math.Abs(b-a) <= 1e-9*a })
	g.flap = slices.CompactFunc(g.flap, func(a, b float64) bool { return math.Abs(b-a) <= flapTolerance })
	for _, v := range g.reynolds {
		g.logReynolds = append(g.logReynolds, math.Log(v))
	}
	size := len(g.reynolds) * len(g.flap)
	g.maxLift, g.drag = make([]float64, size), make([]float64, size)
	taken := make([]int, size)
	var found []error
	for i, r := range rows {
		if r.State != state {
			continue
		}
		at := nearest(g.reynolds, r.Reynolds)*len(g.flap) + nearest(g.flap, r.Flap)
		if taken[at] > 0 {
			found = append(found, &TableError{i + 1, "", fmt.Sprintf("%s is there already, in row %d", combination(r.Reynolds, r.Flap, state), taken[at]), "leave one of the two out"})
			continue
		}
		taken[at], g.maxLift[at], g.drag[at] = i+1, r.MaxLift, r.ProfileDrag
	}
	for at, row := range taken {
		if row == 0 {
			what := combination(g.reynolds[at/len(g.flap)], g.flap[at%len(g.flap)], state) + " is missing"
			found = append(found, &TableError{What: what, Right: "a state needs a row for every pair of its Reynolds numbers and flap deflections"})
		}
	}
	return g, found
}

// flapTolerance makes two deflections that differ by rounding of degrees one, rad.
const flapTolerance = 1e-6

func combination(reynolds, flap float64, state string) string {
	return fmt.Sprintf("Reynolds number %.6g with flap %.4g° (%s)", reynolds, flap*180/math.Pi, state)
}

func nearest(sorted []float64, value float64) int {
	best := 0
	for i, v := range sorted {
		if math.Abs(v-value) < math.Abs(sorted[best]-value) {
			best = i
		}
	}
	return best
}

// MaxLift is the section's maximum lift coefficient, bilinear in the logarithm of the Reynolds number
// and in the flap deflection (rad), held constant outside the table: inside is then false.
//
// An error says that the state has no rows, or that an argument is not a number.
func (p Polar) MaxLift(reynolds, flap float64, state string) (value float64, inside bool, err error) {
	g, err := p.grid(reynolds, flap, state)
	if err != nil {
		return 0, false, err
	}
	value, inside = g.at(g.maxLift, reynolds, flap)
	return value, inside, nil
}

// ProfileDrag is the section's profile drag coefficient, found like MaxLift.
func (p Polar) ProfileDrag(reynolds, flap float64, state string) (value float64, inside bool, err error) {
	g, err := p.grid(reynolds, flap, state)
	if err != nil {
		return 0, false, err
	}
	value, inside = g.at(g.drag, reynolds, flap)
	return value, inside, nil
}

// States lists the states that have rows, clean first.
func (p Polar) States() []string {
	states := make([]string, len(p.grids))
	for i, g := range p.grids {
		states[i] = g.state
	}
	return states
}

// Sources lists the sources of the rows, each once, in the order of the rows.
func (p Polar) Sources() []string { return slices.Clone(p.sources) }

// Range is the Reynolds numbers and flap deflections (rad) that the rows of a state span; ok is false
// when it has none.
func (p Polar) Range(state string) (reynolds, flap [2]float64, ok bool) {
	for _, g := range p.grids {
		if g.state == state {
			n, m := len(g.reynolds)-1, len(g.flap)-1
			return [2]float64{g.reynolds[0], g.reynolds[n]}, [2]float64{g.flap[0], g.flap[m]}, true
		}
	}
	return reynolds, flap, false
}

func (p Polar) grid(reynolds, flap float64, state string) (grid, error) {
	if !(reynolds > 0) || math.IsInf(reynolds, 0) || math.IsNaN(flap) || math.IsInf(flap, 0) {
		return grid{}, fmt.Errorf("polar: cannot look up Reynolds number %g with flap %g rad; both must be numbers, the first positive", reynolds, flap)
	}
	for _, g := range p.grids {
		if g.state == state {
			return g, nil
		}
	}
	if len(p.grids) == 0 {
		return grid{}, errors.New("polar: it has no data; make it from rows")
	}
	return grid{}, fmt.Errorf("polar: there are no rows for the state %q, only for %s; add rows for it", state, strings.Join(p.States(), " and "))
}

// at interpolates values of the grid.
func (g grid) at(values []float64, reynolds, flap float64) (value float64, inside bool) {
	i, u, insideReynolds := place(g.reynolds, g.logReynolds, reynolds, math.Log, 1e-9*reynolds)
	j, v, insideFlap := place(g.flap, g.flap, flap, func(x float64) float64 { return x }, flapTolerance)
	n := len(g.flap)
	next, up := min(j+1, n-1), min(i+1, len(g.reynolds)-1)
	low := between(values[i*n+j], values[i*n+next], v)
	high := between(values[up*n+j], values[up*n+next], v)
	return between(low, high, u), insideReynolds && insideFlap
}

// place finds the interval of a rising axis that holds x and the share of it that lies below x, measured
// on a scale, which scaled is the axis on; outside, the nearest end.
func place(axis, scaled []float64, x float64, scale func(float64) float64, tolerance float64) (index int, share float64, inside bool) {
	last := len(axis) - 1
	switch {
	case x <= axis[0]:
		return 0, 0, x >= axis[0]-tolerance
	case x >= axis[last]:
		return last, 0, x <= axis[last]+tolerance
	}
	above, exact := slices.BinarySearch(axis, x)
	if exact {
		return above, 0, true
	}
	from, to := scaled[above-1], scaled[above]
	return above - 1, (scale(x) - from) / (to - from), true
}

// between is a at share 0 and never leaves the range of a and b.
func between(a, b, share float64) float64 {
	v := a + (b-a)*share
	return min(max(v, min(a, b)), max(a, b))
}
