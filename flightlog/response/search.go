package response

import (
	"errors"
	"math"

	"wingproof/flightlog/leastsquares"
)

// found is the end of a search over the poles.
type found struct {
	poles  poles
	gusts  gusts
	trial  trial
	slopes [2][]float64 // of its residuals; nil where the search ended without them
}

// search lowers the sum of squares over decay and square of the damped frequency within the band, to within a share of their standard deviation.
func (q problem) search(start poles, g gusts, b band, tolerance float64) (found, error) {
	w := walk{problem: q, gusts: g, band: b}
	size := start.frequency2()
	s, err := leastsquares.Nonlinear(leastsquares.Problem{Rows: len(q.values), Residuals: w.residuals, Jacobian: w.jacobian},
		[]float64{start.decay, start.square}, leastsquares.Options{Tolerance: tolerance, Iterations: 40, Size: []float64{math.Sqrt(size), size}})
	if err != nil && !errors.Is(err, leastsquares.ErrNotConverged) {
		return found{}, err
	}
	out := found{poles: poles{s.Parameters[0], s.Parameters[1]}, gusts: g}
	if w.sloped.poles == out.poles {
		out.slopes = w.sloped.slopes
	}
	if w.tried.poles == out.poles && w.tried.trial.residuals != nil {
		out.trial = w.tried.trial
		return out, nil
	}
	out.trial, err = q.try(out.poles, g)
	return out, err
}

// walk is one search under way.
type walk struct {
	problem
	gusts
	band
	tried, sloped found // the last ones, which are asked for again where a search ends
}

// residuals are those at the poles x; NaN outside the band, or where nothing can be told apart: the search goes elsewhere.
func (w *walk) residuals(x, r []float64) error {
	at := poles{x[0], x[1]}
	t, err := trial{}, errLost
	if w.holds(at) {
		t, err = w.try(at, w.gusts)
	}
	if err != nil {
		for i := range r {
			r[i] = math.NaN()
		}
		return nil
	}
	w.tried = found{poles: at, trial: t}
	copy(r, t.residuals)
	return nil
}

func (w *walk) jacobian(x []float64, j [][]float64) error {
	if at := (poles{x[0], x[1]}); w.sloped.slopes[0] == nil || at != w.sloped.poles {
		columns, err := w.slopes(at, w.gusts)
		if err != nil {
			return err
		}
		w.sloped = found{poles: at, slopes: columns}
	}
	for i := range j {
		j[i][0], j[i][1] = w.sloped.slopes[0][i], w.sloped.slopes[1][i]
	}
	return nil
}

func (p poles) plus(d [2]float64) poles { return poles{p.decay + d[0], p.square + d[1]} }

// slopes differentiates the residuals by central differences.
func (q problem) slopes(at poles, g gusts) (out [2][]float64, err error) {
	size := at.frequency2()
	for j, h := range [2]float64{1e-5 * math.Sqrt(size), 1e-5 * size} {
		var d [2]float64
		d[j] = h
		up, err := q.try(at.plus(d), g)
		if err != nil {
			return out, err
		}
		d[j] = -h
		down, err := q.try(at.plus(d), g)
		if err != nil {
			return out, err
		}
		out[j] = up.residuals
		for i := range out[j] {
			out[j][i] = (up.residuals[i] - down.residuals[i]) / (2 * h)
		}
	}
	return out, nil
}

func information(j [2][]float64) [2][2]float64 {
	cross := dot(j[0], j[1])
	return [2][2]float64{{dot(j[0], j[0]), cross}, {cross, dot(j[1], j[1])}}
}

func inverse2(a [2][2]float64) [2][2]float64 {
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	return [2][2]float64{{a[1][1] / det, -a[0][1] / det}, {-a[1][0] / det, a[0][0] / det}}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += float64(v * b[i])
	}
	return sum
}
