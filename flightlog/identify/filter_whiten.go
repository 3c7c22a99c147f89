package identify

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

func (f *gustFilter) begin(segment, width int) {
	f.now, f.width = &f.segments[segment], width
	n := (states + f.gusts) * width
	f.estimates, f.moved = sized(f.estimates, n), sized(f.moved, n)
	clear(f.estimates)
	f.single = filtered{}
}

// whiten takes all columns through a sample, row by row.
func (f *gustFilter) whiten(sample int, rows []float64) {
	g, w, n := f.now, f.width, states+f.gusts
	at := sample * f.outputs
	if w == 1 {
		f.innovate(sample, rows)
		for o := range rows {
			rows[o] /= math.Sqrt(g.gains[at+o].variance)
		}
		return
	}
	for o := range f.outputs {
		gain := &g.gains[at+o]
		row := rows[o*w : (o+1)*w]
		if g.unread[at+o] {
			clear(row)
			continue
		}
		for i, h := range g.output[sample][o][:n] {
			if h != 0 {
				floats.AddScaled(row, -h, f.estimates[i*w:(i+1)*w])
			}
		}
		for i, k := range gain.k[:n] {
			floats.AddScaled(f.estimates[i*w:(i+1)*w], k, row)
		}
		floats.Scale(1/math.Sqrt(gain.variance), row)
	}
	clear(f.moved)
	for i := range n {
		into := f.moved[i*w : (i+1)*w]
		for j, a := range g.transition[sample][i][:n] {
			if a != 0 {
				floats.AddScaled(into, a, f.estimates[j*w:(j+1)*w])
			}
		}
	}
	f.estimates, f.moved = f.moved, f.estimates
}

// innovate takes one column through a sample and leaves raw innovations: the same without the slices, for what is done thousands of times.
func (f *gustFilter) innovate(sample int, row []float64) {
	g, n := f.now, states+f.gusts
	x := f.single
	for o := range row {
		at := sample*f.outputs + o
		if g.unread[at] {
			row[o] = 0
			continue
		}
		row[o] -= g.output[sample][o].dot(&x)
		x.add(row[o], &g.gains[at].k)
	}
	for i := range n {
		f.single[i] = g.transition[sample][i].dot(&x)
	}
}

// pass filters the residuals of one segment and writes raw innovations; it returns minus twice the logarithm of the likelihood, without
// constants.
func (f *gustFilter) pass(segment int, residuals, innovations []float64) float64 {
	f.begin(segment, 1)
	copy(innovations, residuals)
	sum := 0.0
	for k := 0; k*f.outputs < len(innovations); k++ {
		row := innovations[k*f.outputs : (k+1)*f.outputs]
		f.innovate(k, row)
		all := 1.0 // the logarithm of a product is that of its factors, and one costs less than four
		for o, e := range row {
			v := f.now.gains[k*f.outputs+o].variance
			sum += e * e / v
			all *= v
		}
		sum += math.Log(all)
	}
	return sum
}
