package leastsquares

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// design is a checked linear problem, with the powers of two that bring each column of √W·X and the weighted
// response to a largest entry between a half and one. A power of two changes no digit.
type design struct {
	rows             [][]float64
	response, weight []float64
	parameters       int
	counted          int       // rows of positive weight
	scale            []float64 // one a column, then one of the response
}

func newDesign(rows [][]float64, response, weight []float64) (design, error) {
	n := len(rows)
	if n == 0 || len(response) != n || (weight != nil && len(weight) != n) {
		return design{}, fmt.Errorf("%d rows, %d responses, %d weights; lengths must agree and not be 0: %w", n, len(response), len(weight), ErrUndetermined)
	}
	d := design{rows: rows, response: response, weight: weight, parameters: len(rows[0])}
	if err := d.measure(); err != nil {
		return design{}, err
	}
	if d.parameters == 0 || d.counted < d.parameters {
		return design{}, fmt.Errorf("%d rows of positive weight for %d parameters: %w", d.counted, d.parameters, ErrUndetermined)
	}
	for j, largest := range d.scale {
		if largest == 0 && j < d.parameters {
			return design{}, fmt.Errorf("column %d of the design is zero: %w", j, ErrUndetermined)
		}
		d.scale[j] = powerOfTwo(largest)
	}
	return d, nil
}

// measure checks every value, counts the rows and puts the largest entries into scale.
func (d *design) measure() error {
	p := d.parameters
	d.scale = make([]float64, p+1)
	for i, row := range d.rows {
		w := weightAt(d.weight, i)
		if len(row) != p || !statistic.Finite(row...) || !statistic.Finite(d.response[i], w) || w < 0 {
			return fmt.Errorf("row %d: needs %d finite values, a finite response and a weight of 0 or more", i, p)
		}
		if w == 0 {
			continue
		}
		d.counted++
		root := math.Sqrt(w)
		for j, v := range row {
			d.scale[j] = max(d.scale[j], math.Abs(float64(root*v)))
		}
		d.scale[p] = max(d.scale[p], math.Abs(float64(root*d.response[i])))
	}
	return nil
}

// powerOfTwo returns the power of two that brings a size between a half and one; 1 for 0.
func powerOfTwo(size float64) float64 {
	if size == 0 {
		return 1
	}
	_, exponent := math.Frexp(size)
	return math.Ldexp(1, min(max(-exponent, -1000), 1000)) // ±1000 keeps clear of float64's ends
}

func weightAt(weight []float64, i int) float64 {
	if weight == nil {
		return 1
	}
	return weight[i]
}
