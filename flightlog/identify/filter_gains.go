package identify

// tune works out the gains for the variances of gusts, then of a noisy input, and of outputs.
func (g *gustSegment) tune(gusts int, levels, noise []float64) {
	n := states + gusts
	var p, q [mostFiltered]filtered
	for k, v := range levels {
		if k < gusts {
			p[states+k][states+k] = v
		}
		for i := range n {
			q[i].add(v, &g.unit[k][i])
		}
	}
	for sample := range g.transition {
		for o, r := range noise {
			to := &g.gains[sample*len(noise)+o]
			if g.unread[sample*len(noise)+o] {
				*to = gain{variance: 1}
				continue
			}
			to.observe(&p, &g.output[sample][o], r, n)
		}
		p = congruent(&g.transition[sample], &p, n)
		for i := range n {
			p[i].add(1, &q[i])
		}
	}
}

// observe takes one output, which sees the state by h, into the covariance p.
func (g *gain) observe(p *[mostFiltered]filtered, h *filtered, noise float64, n int) {
	var ph filtered
	for i := range n {
		ph[i] = h.dot(&p[i]) // p is symmetric
	}
	g.variance = noise + h.dot(&ph)
	over := 1 / g.variance
	for i := range n {
		g.k[i] = ph[i] * over
		p[i].add(-g.k[i], &ph)
	}
}
