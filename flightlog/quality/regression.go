package quality

import "math"

// regression gathers the normal equations of y = Σ cᵢ·xᵢ.
type regression struct {
	a  [][]float64
	b  []float64
	yy float64
	n  int
}

func newRegression(terms int) *regression {
	r := &regression{a: make([][]float64, terms), b: make([]float64, terms)}
	for i := range r.a {
		r.a[i] = make([]float64, terms)
	}
	return r
}

func (r *regression) add(y float64, x ...float64) {
	for i, xi := range x {
		for j, xj := range x {
			r.a[i][j] += xi * xj
		}
		r.b[i] += xi * y
	}
	r.yy += y * y
	r.n++
}

// solve gives the coefficients, the standard deviation of the first one for independent residuals, and the residual sum of squares.
// ok is false when the terms do not differ.
func (r *regression) solve() (c []float64, sd, rest float64, ok bool) {
	n := len(r.b)
	c = append(c, r.b...)
	inverse := make([]float64, n) // first column of the inverse
	inverse[0] = 1
	a := make([][]float64, n)
	for i := range a {
		a[i] = append([]float64(nil), r.a[i]...)
	}
	for i := range n {
		p := i
		for k := i + 1; k < n; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[p][i]) {
				p = k
			}
		}
		if math.Abs(a[p][i]) <= 1e-10*math.Abs(r.a[i][i]) || a[p][i] == 0 {
			return nil, 0, 0, false
		}
		a[i], a[p], c[i], c[p], inverse[i], inverse[p] = a[p], a[i], c[p], c[i], inverse[p], inverse[i]
		for k := range n {
			if k == i {
				continue
			}
			f := a[k][i] / a[i][i]
			for j := i; j < n; j++ {
				a[k][j] -= f * a[i][j]
			}
			c[k] -= f * c[i]
			inverse[k] -= f * inverse[i]
		}
	}
	rest = r.yy
	for i := range n {
		c[i] /= a[i][i]
		inverse[i] /= a[i][i]
		rest -= c[i] * r.b[i]
	}
	rest = math.Max(rest, 0)
	sd = math.Sqrt(rest / math.Max(1, float64(r.n-n)) * math.Max(inverse[0], 0))
	return c, sd, rest, true
}
