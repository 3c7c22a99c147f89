package leastsquares

import "math"

// quickCondition is the condition up to which solveQuickly is used: (XᵀWX)⁻¹ then keeps eleven digits (measured
// against rational arithmetic), and each pass of refinement at least three.
const quickCondition = 3e4

// solveQuickly is QR in float64, refined by corrected seminormal equations: with the residual r = y − Xb of twice the
// digits, RᵀR·δ = XᵀWr improves b by a factor of condition²·2⁻⁵³ a pass. It declines (false) what is not well conditioned.
func (d design) solveQuickly() (answer, bool) {
	p := d.parameters
	memory := make([]float64, d.counted*(p+1)+2*p+1)
	cells, products := memory[:d.counted*(p+1)], memory[d.counted*(p+1):]
	d.weighted(cells)
	triangularise(cells, p+1, p, products)
	inverse, ok := inverseOf(cells, p+1, p)
	if !ok {
		return answer{}, false
	}
	condition := conditionOf(inflation(cells, p+1, inverse, p))
	if !(condition <= quickCondition) {
		return answer{}, false
	}
	step := products[p+1:]
	for j := range p {
		step[j] = cells[j*(p+1)+p]
	}
	solveUpper(inverse, step)
	s := answer{coefficients: make([]extended, p), inverse: inverse, residuals: make([]float64, len(d.rows)), condition: condition}
	gradient := make([]accumulator, p)
	gain := 0x1p-48 * condition * condition // of a pass; 2⁻⁴⁸ rather than 2⁻⁵³ leaves room for sums over rows
	for left := mostPasses; ; left-- {
		last := left == 1 || s.advance(step, gain)
		if last {
			d.residuals(s, nil)
			return s, true
		}
		d.residuals(s, gradient)
		for j := range step {
			step[j] = gradient[j].sum + gradient[j].lost
		}
		solveLower(inverse, step)
		solveUpper(inverse, step)
	}
}

// mostPasses is never reached: at quickCondition each pass gains 18 bits.
const mostPasses = 12

// advance takes a step, and says whether the next would lie 80 bits below the largest coefficient: the 53 that are wanted, and 27
// for a coefficient that is smaller. The first step is the plain solution itself.
func (s *answer) advance(step []float64, gain float64) bool {
	var largest, moved float64
	first := true
	for j, delta := range step {
		first = first && s.coefficients[j].high == 0
		s.coefficients[j] = s.coefficients[j].plus(extended{high: delta})
		largest, moved = max(largest, math.Abs(s.coefficients[j].high)), max(moved, math.Abs(delta))
	}
	return !first && moved*gain <= 0x1p-80*largest
}

// weighted fills cells with the scaled √W·X and, as a last column, √W·y, without the rows of weight 0.
func (d design) weighted(cells []float64) {
	p, next := d.parameters, 0
	for i, row := range d.rows {
		w := weightAt(d.weight, i)
		if w == 0 {
			continue
		}
		root := math.Sqrt(w)
		for j, v := range row {
			cells[next+j] = float64(root*v) * d.scale[j]
		}
		cells[next+p] = float64(root*d.response[i]) * d.scale[p]
		next += p + 1
	}
}

// residuals fills in y − Xb and, when gradient is not nil, XᵀW(y − Xb), both summed in twice the digits.
func (d design) residuals(s answer, gradient []accumulator) {
	p := d.parameters
	clear(gradient)
	for i, row := range d.rows {
		sum := accumulator{sum: d.response[i] * d.scale[p]}
		for j, v := range row {
			v *= d.scale[j]
			sum.add(-v, s.coefficients[j].high)
			sum.lost -= float64(v * s.coefficients[j].low)
		}
		r := sum.extended()
		s.residuals[i] = r.high
		if gradient == nil {
			continue
		}
		if d.weight != nil {
			r = r.times(extended{high: d.weight[i]})
		}
		for j, v := range row {
			v *= d.scale[j]
			gradient[j].add(v, r.high)
			gradient[j].lost += float64(v * r.low)
		}
	}
}
