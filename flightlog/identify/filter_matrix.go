package identify

// exponentialOf is exp(h·a) of the leading n × n part by its series to the sixth order.
func exponentialOf(a *[mostFiltered]filtered, n int, h float64) (out [mostFiltered]filtered) {
	var term [mostFiltered]filtered
	for i := range n {
		term[i][i], out[i][i] = 1, 1
	}
	for order := 1; order <= 6; order++ {
		term = product(a, &term, n)
		for i := range n {
			for j := range n {
				term[i][j] *= h / float64(order)
				out[i][j] += term[i][j]
			}
		}
	}
	return out
}

// product is a·b of the leading n × n parts.
func product(a, b *[mostFiltered]filtered, n int) (c [mostFiltered]filtered) {
	for i := range n {
		for k := range n {
			v := a[i][k]
			if v == 0 {
				continue
			}
			c[i].add(v, &b[k])
		}
	}
	return c
}

// power is aⁿ for a whole number of steps from one on.
func power(a [mostFiltered]filtered, steps, n int) [mostFiltered]filtered {
	out := a
	for range steps - 1 {
		out = product(&a, &out, n)
	}
	return out
}

// gathering is the covariance after some steps of a of which each adds one.
func gathering(a, one *[mostFiltered]filtered, steps, n int) [mostFiltered]filtered {
	out := *one
	for range steps - 1 {
		out = congruent(a, &out, n)
		for i := range n {
			for j := range n {
				out[i][j] += one[i][j]
			}
		}
	}
	return out
}

// congruent is a·p·aᵀ for a symmetric p.
func congruent(a, p *[mostFiltered]filtered, n int) (c [mostFiltered]filtered) {
	for i := range n {
		var ap filtered
		for k := range n {
			ap[k] = a[i].dot(&p[k])
		}
		for j := i; j < n; j++ {
			sum := ap.dot(&a[j])
			c[i][j], c[j][i] = sum, sum
		}
	}
	return c
}

var _ [6]float64 = filtered{} // dot and add are written out for six entries

// dot is Σ a_i·b_i; what a layout does not use is zero. Written out, since filters spend their time here.
func (a *filtered) dot(b *filtered) float64 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] + a[3]*b[3] + a[4]*b[4] + a[5]*b[5]
}

// add is a += k·b.
func (a *filtered) add(k float64, b *filtered) {
	a[0] += k * b[0]
	a[1] += k * b[1]
	a[2] += k * b[2]
	a[3] += k * b[3]
	a[4] += k * b[4]
	a[5] += k * b[5]
}
