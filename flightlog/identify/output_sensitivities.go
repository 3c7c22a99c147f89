package identify

// runner carries the sensitivities of a segment along its motion. Its memory serves all segments.
type runner struct {
	columns []state   // ∂x/∂parameter
	rows    []float64 // outputs × width: sensitivities and, last, the residual
	at, mid linearised
	middle  state
}

// sized gives memory for a segment.
func (r *runner) sized(columns, outputs int) {
	width := columns + 1
	r.columns, r.rows = sized(r.columns, columns), sized(r.rows, outputs*width)
	clear(r.columns)
}

// sensitivities carries the sensitivities along the motion of a segment and whitens them.
func (r *runner) sensitivities(p *problem, segment int, motion *modelled, w whitener, into *whitened) {
	residuals, course := motion.residuals[segment], motion.course[segment]
	t, l := p.tracks[segment], p.layout
	columns, outputs := p.commons()+len(t.own), len(l.outputs)
	r.sized(columns, outputs)
	into.shape(columns+1, t.samples*outputs)
	w.begin(segment, columns+1)
	t.differentiateSurfaces(t.own[l.edge():], p.late)
	for i := range states {
		r.columns[p.commons()+l.initial()+i][i] = 1
	}
	for k := range t.samples {
		at := k * t.parts
		t.plant.observe(&course[at], &t.inputs[at], &r.at)
		r.fill(p, t, k, residuals[k*outputs:(k+1)*outputs])
		w.whiten(k, r.rows)
		into.put(k, outputs, r.rows)
		if k+1 == t.samples {
			break
		}
		for i := at; i < at+t.parts; i++ {
			r.advance(p, t, course, i)
		}
	}
}

// fill writes the rows of one sample: what each output gains for a unit of each parameter, and the residual.
func (r *runner) fill(p *problem, t *track, sample int, residuals []float64) {
	l, m := p.layout, &r.at
	at, width := sample*t.parts, len(r.columns)+1
	for i, residual := range residuals {
		row := r.rows[i*width : (i+1)*width]
		c := &m.outState[i]
		for j := range r.columns {
			s := &r.columns[j]
			row[j] = c[0]*s[0] + c[1]*s[1] + c[2]*s[2] + c[3]*s[3]
		}
		for j, term := range l.common {
			row[j] += m.outForce[term.coefficient][i] * m.terms[term.coefficient][term.regressor]
		}
		own := row[p.commons():]
		for j, term := range l.constant {
			own[j] += m.outForce[term.coefficient][i] * m.terms[term.coefficient][term.regressor]
		}
		for j := range t.lag {
			row[len(l.common)+j] += m.bySurface(i, t.lag[j].surface) * t.lag[j].at(at)
		}
		for j := range t.moved {
			own[l.edge()+j] += m.bySurface(i, t.moved[j].surface) * t.moved[j].at(at)
		}
		row[width-1] = residual
	}
	for j, biased := range l.biased {
		r.rows[biased*width+p.commons()+l.bias()+j] = 1
	}
}

// bySurface is ∂(output)/∂(surface) at a fixed state.
func (m *linearised) bySurface(output, surface int) float64 {
	c := &m.surface[surface]
	return m.outForce[0][output]*c[0] + m.outForce[1][output]*c[1] + m.outForce[2][output]*c[2]
}

// advance moves the sensitivities on. Over one step the model is taken as linear about the middle, where
//
//	S(t+h) = Φ·S + Ψ·B,   Φ = exp(hA),   Ψ = ∫exp(A·s) ds,
//
// both by their series to the fourth order.
func (r *runner) advance(p *problem, t *track, course []state, at int) {
	for i := range r.middle {
		r.middle[i] = 0.5 * (course[at][i] + course[at+1][i])
	}
	m := &r.mid
	t.plant.linearise(&r.middle, &t.middles[at], m)
	phi, psi := exponential(&m.byState, t.step)
	var force [coefficients]state
	for c := range force {
		force[c] = psi.times(&m.byForce[c])
	}
	for j := range r.columns {
		r.columns[j] = phi.times(&r.columns[j])
	}
	l := p.layout
	for j, term := range l.common {
		r.columns[j].along(&r.columns[j], m.terms[term.coefficient][term.regressor], &force[term.coefficient])
	}
	own := r.columns[p.commons():]
	for j, term := range l.constant {
		own[j].along(&own[j], m.terms[term.coefficient][term.regressor], &force[term.coefficient])
	}
	for j := range t.lag {
		t.lag[j].push(at, m, &force, &r.columns[len(l.common)+j])
	}
	for j := range t.moved {
		t.moved[j].push(at, m, &force, &own[l.edge()+j])
	}
}

// push adds what a movement of a surface does to a sensitivity in one step.
func (m *movement) push(at int, l *linearised, force *[coefficients]state, column *state) {
	change := m.over(at)
	if change == 0 {
		return
	}
	for c := range force {
		column.along(column, change*l.surface[m.surface][c], &force[c])
	}
}
