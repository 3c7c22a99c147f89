package leastsquares

import "math"

// triangularise turns a matrix of row-major cells and the given number of columns into R by Householder reflections of its first
// p columns; what stands right of them is reflected along. R and Qᵀy are then in the first p rows; below the diagonal
// stays what the reflections left.
//
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 5.2 (from memory).
func triangularise(cells []float64, columns, p int, products []float64) {
	n := len(cells) / columns
	for k := range p {
		squares := 0.0
		for i := k; i < n; i++ {
			v := cells[i*columns+k]
			squares += float64(v * v)
		}
		if squares == 0 {
			continue
		}
		head := cells[k*columns+k]
		diagonal := -math.Copysign(math.Sqrt(squares), head)
		cells[k*columns+k] = head - diagonal // the reflector v stands in column k
		reflect(cells, columns, k, squares-float64(head*diagonal), products)
		cells[k*columns+k] = diagonal
	}
}

// reflect takes v·(vᵀA)/half off the columns right of k, half being |v|²/2.
func reflect(cells []float64, columns, k int, half float64, products []float64) {
	right := products[:columns-k-1]
	clear(right)
	for i := k * columns; i < len(cells); i += columns {
		v, row := cells[i+k], cells[i+k+1:i+columns]
		for j, a := range row {
			right[j] += float64(v * a)
		}
	}
	for j := range right {
		right[j] /= half
	}
	for i := k * columns; i < len(cells); i += columns {
		v, row := cells[i+k], cells[i+k+1:i+columns]
		for j, a := range right {
			row[j] -= float64(v * a)
		}
	}
}

// inverseOf inverts the upper triangle that stands in the first p rows and columns of cells; false when it is singular.
func inverseOf(cells []float64, columns, p int) ([]float64, bool) {
	out := make([]float64, p*p)
	for j := range p {
		if cells[j*columns+j] == 0 {
			return nil, false
		}
		out[j*p+j] = 1 / cells[j*columns+j]
		for i := j - 1; i >= 0; i-- {
			sum := 0.0
			for k := i + 1; k <= j; k++ {
				sum += float64(cells[i*columns+k] * out[k*p+j])
			}
			out[i*p+j] = -sum / cells[i*columns+i]
		}
	}
	return out, true
}

// inflation returns, for each column, |x_j|²·[(XᵀX)⁻¹]_jj: the square of 1/sine of the angle between it and the span of
// the others, called the variance inflation factor.
func inflation(cells []float64, columns int, inverse []float64, p int) []float64 {
	out := make([]float64, p)
	for j := range p {
		var length, inverseLength float64
		for i := range j + 1 {
			v := cells[i*columns+j]
			length += float64(v * v)
		}
		for _, v := range inverse[j*p+j : (j+1)*p] {
			inverseLength += float64(v * v)
		}
		out[j] = length * inverseLength
	}
	return out
}

// conditionOf is the condition number, in Frobenius norms, of a design with columns of length one: √p·√Σ inflation.
func conditionOf(inflation []float64) float64 {
	sum := 0.0
	for _, v := range inflation {
		sum += v
	}
	return math.Sqrt(float64(len(inflation)) * sum)
}

// solveUpper replaces b by R⁻¹·b, with the inverse at hand; solveLower by R⁻ᵀ·b.
func solveUpper(inverse, b []float64) {
	p := len(b)
	for i := range p {
		sum := 0.0
		for k := i; k < p; k++ {
			sum += float64(inverse[i*p+k] * b[k])
		}
		b[i] = sum
	}
}

func solveLower(inverse, b []float64) {
	p := len(b)
	for i := p - 1; i >= 0; i-- {
		sum := 0.0
		for k := range i + 1 {
			sum += float64(inverse[k*p+i] * b[k])
		}
		b[i] = sum
	}
}
