package leastsquares

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// local is the problem made linear at a point: |R·D·δ + c|² + what no step can reach.
type local struct {
	lengths   []float64 // D: |√W·J_j|
	upper     []float64 // R, with columns of length one, row after row
	projected []float64 // c, the residuals seen from the tangent plane
}

// linearise makes the problem linear at the point; careful asks for the better differences.
func (s *search) linearise(careful bool) (local, error) {
	s.iterations++
	if s.problem.Residuals == nil {
		return s.lineariseSums()
	}
	if err := s.differentiate(careful); err != nil {
		return local{}, err
	}
	columns, p := s.p+1, s.p
	scale, err := s.prepare()
	if err != nil {
		return local{}, err
	}
	triangularise(s.cells, columns, p, s.products)
	out := newLocal(p)
	for j := range p {
		for i := range j + 1 {
			out.lengths[j] = math.Hypot(out.lengths[j], s.cells[i*columns+j])
		}
		for i := range j + 1 {
			out.upper[i*p+j] = s.cells[i*columns+j] / unless0(out.lengths[j])
		}
		out.lengths[j] /= scale[j]
		out.projected[j] = s.cells[j*columns+p]
	}
	s.measureReach(out.lengths)
	return out, nil
}

func newLocal(p int) local {
	memory := make([]float64, p*(p+2))
	return local{lengths: memory[:p:p], projected: memory[p : 2*p : 2*p], upper: memory[2*p:]}
}

func (s *search) measureReach(lengths []float64) {
	s.reach = 0
	for j, length := range lengths {
		s.reach += math.Abs(float64(length * s.point[j]))
	}
}

// prepare weights the Jacobian, puts the residuals beside it and scales columns by powers of two, which it returns.
func (s *search) prepare() ([]float64, error) {
	columns, p := s.p+1, s.p
	scale := make([]float64, p)
	for i, row := range s.jacobian {
		for j, v := range row {
			if s.root != nil && s.problem.Jacobian != nil {
				if s.root[i] == 0 {
					v = 0
				}
				v *= s.root[i]
				row[j] = v
			}
			if !statistic.Finite(v) {
				return nil, fmt.Errorf("row %d of the Jacobian is not finite for parameter %d at %v", i, j, s.point)
			}
			scale[j] = max(scale[j], math.Abs(v))
		}
		s.cells[i*columns+p] = s.residuals[i]
	}
	for j := range scale {
		scale[j] = powerOfTwo(scale[j])
	}
	for _, row := range s.jacobian {
		for j := range row {
			row[j] *= scale[j]
		}
	}
	return scale, nil
}

// lineariseSums is linearise for a problem that gives JᵀWJ and JᵀWr: R is its Cholesky factor.
func (s *search) lineariseSums() (local, error) {
	p := s.p
	matrix, gradient := square(p), make([]float64, p)
	squares, err := s.problem.Normal(s.point, matrix, gradient)
	if err != nil {
		return local{}, fmt.Errorf("the normal sums: %w", err)
	}
	out := newLocal(p)
	for j := range p {
		if !statistic.Finite(matrix[j][j:]...) || !statistic.Finite(gradient[j], squares) || matrix[j][j] < 0 {
			return local{}, fmt.Errorf("row %d of the normal sums is not finite, or its diagonal is negative, at %v", j, s.point)
		}
		out.lengths[j] = math.Sqrt(matrix[j][j])
	}
	for i := range p {
		out.projected[i] = gradient[i] / unless0(out.lengths[i])
		for j := i; j < p; j++ {
			out.upper[i*p+j] = matrix[i][j] / unless0(out.lengths[i]) / unless0(out.lengths[j])
		}
	}
	factorise(out.upper, out.projected)
	s.measureReach(out.lengths)
	return out, nil
}

// factorise replaces the upper triangle of a symmetric matrix M by R with RᵀR = M, and g by R⁻ᵀg; a row whose pivot is lost
// in rounding becomes 0.
func factorise(upper, g []float64) {
	p := len(g)
	for i := range p {
		for k := range i {
			v := upper[k*p+i]
			for j := i; j < p; j++ {
				upper[i*p+j] -= float64(v * upper[k*p+j])
			}
			g[i] -= float64(v * g[k])
		}
		row := upper[i*p+i : (i+1)*p]
		if !(row[0] > float64(p)*0x1p-52) {
			clear(row)
			g[i] = 0
			continue
		}
		pivot := math.Sqrt(row[0])
		for j := range row {
			row[j] /= pivot
		}
		g[i] /= pivot
	}
}
