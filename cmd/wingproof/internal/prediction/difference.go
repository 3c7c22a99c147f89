package prediction

import (
	"math"

	"wingproof/aero"
	"wingproof/aero/lattice"
)

// Quantities works several quantities out on one solution of an airframe, always the same ones in the same order.
type Quantities func(airframe aero.Airframe, solution *lattice.Solution) ([]float64, error)

// Quantities of a Setup are the values of Analysis.Numbers, in that order.
func (s Setup) Quantities() Quantities {
	return func(airframe aero.Airframe, solution *lattice.Solution) ([]float64, error) {
		at, err := s.at(solution, airframe)
		if err != nil {
			return nil, err
		}
		numbers, err := at.values()
		out := make([]float64, len(numbers))
		for i, n := range numbers {
			out[i] = n.Value
		}
		return out, err
	}
}

// Further takes quantities that are not among Numbers, with the error that the grid leaves in each; it is NaN without
// Setup.Grids.
func (a *Analysis) Further(q Quantities) ([]lattice.Number, error) {
	return a.onGrids(func(solution *lattice.Solution) ([]float64, error) { return q(a.Airframe, solution) })
}

// Against is Further less the same of a base, grid by grid: the error is that of the difference, out of which drops what the
// two grids get wrong alike. Both come from one call of Analyse; on grids of unlike families nothing drops out.
func (a *Analysis) Against(base *Analysis, q Quantities) ([]lattice.Number, error) {
	var bases [][]float64
	_, err := base.onGrids(func(solution *lattice.Solution) ([]float64, error) {
		values, err := q(base.Airframe, solution)
		bases = append(bases, values)
		return values, err
	})
	if err != nil {
		return nil, err
	}
	next := 0
	return a.onGrids(func(solution *lattice.Solution) ([]float64, error) {
		values, err := q(a.Airframe, solution)
		if err != nil {
			return nil, err
		}
		out := make([]float64, len(values))
		for i, v := range values {
			out[i] = v - bases[next][i]
		}
		next++
		return out, nil
	})
}

// onGrids evaluates on every grid, the finest first, or on the one there is.
func (a *Analysis) onGrids(values func(*lattice.Solution) ([]float64, error)) ([]lattice.Number, error) {
	if a.grids != nil {
		return a.grids.Estimates(values)
	}
	list, err := values(a.Solution)
	out := make([]lattice.Number, len(list))
	for i, v := range list {
		out[i] = lattice.Number{Value: v, Error: math.NaN()}
	}
	return out, err
}

// Differences are the Numbers of an analysis less those of a base in the same Setup, with the error of the grid in each
// difference: see Against.
func (s Setup) Differences(a, base *Analysis) ([]Number, error) {
	list, err := a.Against(base, s.Quantities())
	if err != nil {
		return nil, err
	}
	out := make([]Number, len(list))
	for i, n := range list {
		out[i] = Number{Quantity: a.Numbers[i].Quantity, Unit: a.Numbers[i].Unit, Value: n.Value, Grid: n.Error}
	}
	return out, nil
}
