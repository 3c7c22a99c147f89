package main

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// sweepResult is a solved sweep: the points, and the configuration as it is behind them.
type sweepResult struct {
	sweep  *sweep
	points []solved
	base   solved
	grid   map[int][]float64 // by point, the error of the grid in each number; the base has the index −1
}

// solve asks for all points on one family of grids, and once more with the error of the grid for ends and baseline.
func (sw *sweep) solve(p *program.Program, c condition) (*sweepResult, error) {
	subjects := []subject{sw.base}
	marked, indices := []subject{sw.base}, []int{-1}
	for i, point := range sw.points {
		subjects = append(subjects, point.subject)
		if point.end {
			marked, indices = append(marked, point.subject), append(indices, i)
		}
	}
	plain := c
	plain.setup.Grids = false
	all, err := plain.solve(p, subjects)
	if err != nil {
		return nil, err
	}
	r := &sweepResult{sw, all[1:], all[0], map[int][]float64{}}
	if !c.setup.Grids {
		return r, nil
	}
	ends, err := c.solve(p, marked)
	if err != nil {
		return nil, err
	}
	for k := range ends {
		var errors []float64
		for _, n := range c.numbers(p, &ends[k]) {
			errors = append(errors, n.Grid)
		}
		r.grid[indices[k]] = errors
	}
	return r, nil
}

// numbers are the numbers of a point (−1: the base) with the grid errors that were estimated.
func (r *sweepResult) numbers(p *program.Program, c condition, point int) []predictedNumber {
	list := c.numbers(p, r.solvedAt(point))
	for i := range list {
		list[i].Grid = math.NaN()
		if errors := r.gridOf(point); errors != nil {
			list[i].Grid = errors[i]
		}
	}
	return list
}

// gridOf are the errors of the grid at a point; nil where they were not estimated.
func (r *sweepResult) gridOf(point int) []float64 {
	if errors, ok := r.grid[point]; ok {
		return errors
	}
	if r.isBase(point) {
		return r.grid[-1]
	}
	return nil
}

// sweptQuantities are the columns of the table and the figures.
func sweptQuantities() []string {
	return []string{evidence.NeutralPoint, evidence.StaticMargin, evidence.LiftCurveSlope, prediction.InducedDrag, prediction.SpanEfficiency,
		prediction.BestSpanEfficiency, evidence.DirectionalStiffness, prediction.DihedralEffect, evidence.RootBendingMoment}
}

// head states the condition and where the error of the grid was estimated.
func (r *sweepResult) head(p *program.Program, c condition) report.LatticeHead {
	h := c.head(p, append([]solved{r.base}, r.points...))
	h.Where = "it was estimated at the ends of " + r.sweep.ranges[0].size.Key + " and at the baseline only"
	return h
}

// order lists the points with the baseline (−1) where it belongs among the values of one size, or at the end.
func (r *sweepResult) order() []int {
	var out []int
	now := r.sweep.now
	placed := false
	for i, point := range r.sweep.points {
		if len(now) == 1 && !placed && !math.IsNaN(now[0]) && now[0] < point.sizes[0]-1e-9 {
			out, placed = append(out, -1), true
		}
		if len(now) == 1 && !placed && math.Abs(now[0]-point.sizes[0]) <= 1e-9 {
			placed = true // the point is the baseline
		}
		out = append(out, i)
	}
	if !placed {
		out = append(out, -1)
	}
	return out
}

// isBase tells whether a point has the sizes of the baseline.
func (r *sweepResult) isBase(point int) bool {
	if point < 0 {
		return true
	}
	for k, v := range r.sweep.points[point].sizes {
		if !(math.Abs(v-r.sweep.now[k]) <= 1e-9) {
			return false
		}
	}
	return true
}

func (r *sweepResult) sizes(point int) []float64 {
	if point < 0 {
		return r.sweep.now
	}
	return r.sweep.points[point].sizes
}
