package leastsquares

import (
	"fmt"

	"wingproof/flightlog/statistic"
)

const (
	// roundedCondition is where rounding to float64 can hide collinear columns: entries carry errors up to 2⁻⁵³, so a
	// smallest singular value of 2⁻⁵³ times a few is as good as 0. One part in 10¹⁵ leaves nine times that for columns that
	// were computed in several steps.
	roundedCondition = 1e15
	// powerCondition is the same where columns are carried as powers in 106 bits: ten of the 32 digits are left.
	powerCondition = 1e22
)

// solveExtended is QR in twice the digits.
func (d design) solveExtended() (answer, error) {
	p := d.parameters
	rows, limit := d.exact()
	cells := d.weightedExactly(rows)
	triangulariseExactly(cells, p+1, p)
	inverse, upper, worst := exactInverse(cells, p+1, p)
	if worst >= 0 {
		return answer{}, collinear(worst, 0)
	}
	growth := inflation(upper, p, inverse, p)
	s := answer{coefficients: make([]extended, p), inverse: inverse, residuals: make([]float64, len(rows)), condition: conditionOf(growth)}
	if !(s.condition < limit) {
		return answer{}, collinear(largest(growth), s.condition)
	}
	for i := p - 1; i >= 0; i-- {
		sum := cells[i*(p+1)+p]
		for k := i + 1; k < p; k++ {
			sum = sum.minus(cells[i*(p+1)+k].times(s.coefficients[k]))
		}
		s.coefficients[i] = sum.over(cells[i*(p+1)+i])
	}
	for i, row := range rows {
		r := extended{high: d.response[i] * d.scale[p]}
		for j, x := range row {
			r = r.minus(x.times(s.coefficients[j]))
		}
		s.residuals[i] = r.value()
	}
	return s, nil
}

func collinear(column int, condition float64) error {
	if condition == 0 || !statistic.Finite(condition) {
		return fmt.Errorf("column %d of the design follows from the others: %w", column, ErrUndetermined)
	}
	return fmt.Errorf("column %d of the design follows from the others to within rounding (condition %.2g): %w", column, condition, ErrUndetermined)
}

func largest(values []float64) int {
	at := 0
	for i, v := range values {
		if v > values[at] {
			at = i
		}
	}
	return at
}

// weightedExactly is the extended counterpart of weighted; the root of a weight is extended too.
func (d design) weightedExactly(rows [][]extended) []extended {
	cells := make([]extended, 0, d.counted*(d.parameters+1))
	for i, row := range rows {
		w := weightAt(d.weight, i)
		if w == 0 {
			continue
		}
		root := extended{high: w}.root()
		for _, x := range row {
			cells = append(cells, x.times(root))
		}
		cells = append(cells, extended{high: d.response[i] * d.scale[d.parameters]}.times(root))
	}
	return cells
}

// triangulariseExactly is the extended counterpart of triangularise.
func triangulariseExactly(cells []extended, columns, p int) {
	n := len(cells) / columns
	products := make([]extended, columns)
	for k := range p {
		var squares extended
		for i := k; i < n; i++ {
			squares = squares.plus(cells[i*columns+k].times(cells[i*columns+k]))
		}
		if squares.high == 0 {
			continue
		}
		head, diagonal := cells[k*columns+k], squares.root()
		if head.high >= 0 {
			diagonal = diagonal.negative()
		}
		cells[k*columns+k] = head.minus(diagonal)
		reflectExactly(cells, columns, k, squares.minus(head.times(diagonal)), products[:columns-k-1])
		cells[k*columns+k] = diagonal
	}
}

func reflectExactly(cells []extended, columns, k int, half extended, right []extended) {
	clear(right)
	for i := k * columns; i < len(cells); i += columns {
		v, row := cells[i+k], cells[i+k+1:i+columns]
		for j, a := range row {
			right[j] = right[j].plus(v.times(a))
		}
	}
	for j := range right {
		right[j] = right[j].over(half)
	}
	for i := k * columns; i < len(cells); i += columns {
		v, row := cells[i+k], cells[i+k+1:i+columns]
		for j, a := range right {
			row[j] = row[j].minus(v.times(a))
		}
	}
}

// exactInverse inverts the upper triangle R and rounds both to float64, row after row; it names the column (else −1) whose
// diagonal is 0.
func exactInverse(cells []extended, columns, p int) (inverse, upper []float64, singular int) {
	out := make([]extended, p*p)
	inverse, upper = make([]float64, p*p), make([]float64, p*p)
	for j := range p {
		if cells[j*columns+j].high == 0 {
			return nil, nil, j
		}
		out[j*p+j] = extended{high: 1}.over(cells[j*columns+j])
		for i := j - 1; i >= 0; i-- {
			var sum extended
			for k := i + 1; k <= j; k++ {
				sum = sum.plus(cells[i*columns+k].times(out[k*p+j]))
			}
			out[i*p+j] = sum.over(cells[i*columns+i]).negative()
		}
		for i := range j + 1 {
			inverse[i*p+j], upper[i*p+j] = out[i*p+j].value(), cells[i*columns+j].value()
		}
	}
	return inverse, upper, -1
}
