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
			for j := range n {
				c[i][j] += v * b[k][j]
			}
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
	ap := product(a, p, n)
	for i := range n {
		for j := i; j < n; j++ {
			sum := 0.0
			for k := range n {
				sum += ap[i][k] * a[j][k]
			}
			c[i][j], c[j][i] = sum, sum
		}
	}
	return c
}

// observe takes one output into the covariance.
func (g *gustSegment) observe(p *[mostFiltered]filtered, h *filtered, noise float64, n int, to *gain) {
	var ph filtered
	for j, v := range h[:n] {
		if v == 0 {
			continue
		}
		for i := range n {
			ph[i] += p[j][i] * v
		}
	}
	s := noise
	for i := range n {
		s += h[i] * ph[i]
	}
	to.variance = s
	for i := range n {
		to.k[i] = ph[i] / s
	}
	for i := range n {
		k, row := to.k[i], &p[i]
		for j := range n {
			row[j] -= k * ph[j]
		}
	}
}
