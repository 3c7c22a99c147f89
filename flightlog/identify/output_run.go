package identify

// whitener turns rows of outputs into rows of unit variance that do not depend on one another.
type whitener interface {
	// begin starts a segment with rows of a width.
	begin(segment, width int)
	// whiten changes the rows [outputs × width] of a sample in place.
	whiten(sample int, rows []float64)
}

// runner integrates a segment with its sensitivities. Its memory serves all segments.
type runner struct {
	columns []state   // ∂x/∂parameter
	rows    []float64 // outputs × width: sensitivities and, last, the residual
	normal  []float64 // width × width, upper triangle: Σ rowsᵀ·rows
	at, mid linearised
	middle  state
}

// sized gives memory for a segment.
func (r *runner) sized(columns, outputs int) {
	width := columns + 1
	if cap(r.columns) < columns {
		r.columns = make([]state, columns)
	}
	if cap(r.rows) < outputs*width {
		r.rows = make([]float64, outputs*width)
	}
	r.columns, r.rows = r.columns[:columns], r.rows[:outputs*width]
	for j := range r.columns {
		r.columns[j] = state{}
	}
}

// residuals integrates the motion of a track and writes measured minus modelled outputs, sample by sample. It tells whether the motion
// stayed finite.
func (r *runner) residuals(t *track, l *layout, out []float64) bool {
	x := t.initial(l)
	outputs := len(l.outputs)
	for k := range t.samples {
		at := k * t.parts
		t.plant.linearise(&x, &t.inputs[at], &r.at)
		for i := range outputs {
			out[k*outputs+i] = t.measured[k*outputs+i] - r.at.out[i]
		}
		for i, biased := range l.biased {
			out[k*outputs+biased] -= t.own[l.bias()+i]
		}
		if k+1 == t.samples {
			break
		}
		for i := range t.parts {
			t.advance(&x, at+i)
		}
		if !x.finite() {
			return false
		}
	}
	return true
}

func (t *track) initial(l *layout) (x state) {
	copy(x[:], t.own[l.initial():l.initial()+states])
	return x
}

// advance moves the state on by one step of the classical Runge–Kutta rule, inputs straight between places of the grid.
func (t *track) advance(x *state, at int) {
	s, h := &t.scratch, t.step
	s.half = t.middle(at)
	t.plant.rate(x, &t.inputs[at], &s.k1)
	s.y.along(x, h/2, &s.k1)
	t.plant.rate(&s.y, &s.half, &s.k2)
	s.y.along(x, h/2, &s.k2)
	t.plant.rate(&s.y, &s.half, &s.k3)
	s.y.along(x, h, &s.k3)
	t.plant.rate(&s.y, &t.inputs[at+1], &s.k4)
	for i := range x {
		x[i] += h / 6 * (s.k1[i] + 2*s.k2[i] + 2*s.k3[i] + s.k4[i])
	}
}

// scratch is what one step needs; kept here so that nothing is allocated on the way.
type scratch struct {
	k1, k2, k3, k4, y state
	half              instant
}

func (y *state) along(x *state, h float64, k *state) {
	for i := range y {
		y[i] = x[i] + h*k[i]
	}
}

// middle is half way between two places of the grid.
func (t *track) middle(at int) (half instant) {
	a, b := &t.inputs[at], &t.inputs[at+1]
	for i := range half {
		half[i] = 0.5 * (a[i] + b[i])
	}
	for i := range t.controls {
		half[i] = t.middles[at][i]
	}
	return half
}

// sensitivities adds up the normal equations of a track's whitened rows.
func (r *runner) sensitivities(p *problem, segment int, w whitener) {
	outputs, width := len(p.layout.outputs), p.commons()+len(p.tracks[segment].own)+1
	r.normal = make([]float64, width*width)
	r.visit(p, segment, w, func(rows []float64) { r.accumulate(rows, outputs, width) })
}

// visit integrates motion and sensitivities of a track and shows the whitened rows of each sample. The columns are the common
// parameters, the segment's own, and the residual.
func (r *runner) visit(p *problem, segment int, w whitener, show func(rows []float64)) {
	t, l := p.tracks[segment], p.layout
	columns, outputs := p.commons()+len(t.own), len(l.outputs)
	r.sized(columns, outputs)
	w.begin(segment, columns+1)
	t.differentiateSurfaces(t.own[l.edge():], p.late)
	x := t.initial(l)
	for i := range states {
		r.columns[p.commons()+l.initial()+i][i] = 1
	}
	for k := range t.samples {
		at := k * t.parts
		t.plant.linearise(&x, &t.inputs[at], &r.at)
		r.fill(p, t, k)
		w.whiten(k, r.rows)
		show(r.rows)
		if k+1 == t.samples {
			break
		}
		for i := range t.parts {
			r.advance(p, t, &x, at+i)
		}
	}
}

// fill writes the rows of one sample: what each output gains for a unit of each parameter, and the residual.
func (r *runner) fill(p *problem, t *track, sample int) {
	l, m := p.layout, &r.at
	at, outputs, width := sample*t.parts, len(l.outputs), len(r.columns)+1
	for i := range outputs {
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
		row[width-1] = t.measured[sample*outputs+i] - m.out[i]
	}
	for j, biased := range l.biased {
		row := r.rows[biased*width : (biased+1)*width]
		row[p.commons()+l.bias()+j] = 1
		row[width-1] -= t.own[l.bias()+j]
	}
}

// bySurface is ∂(output)/∂(surface) at a fixed state.
func (m *linearised) bySurface(output, surface int) float64 {
	c := &m.surface[surface]
	return m.outForce[0][output]*c[0] + m.outForce[1][output]*c[1] + m.outForce[2][output]*c[2]
}

// accumulate adds the products of the whitened rows.
func (r *runner) accumulate(rows []float64, outputs, width int) {
	for i := range outputs {
		row := rows[i*width : (i+1)*width]
		for a, ra := range row {
			if ra == 0 {
				continue
			}
			into := r.normal[a*width+a : (a+1)*width]
			rest := row[a:]
			for b := range into {
				into[b] += ra * rest[b]
			}
		}
	}
}

// advance moves motion and sensitivities on. Over one step the model is taken as linear about the middle, where
//
//	S(t+h) = Φ·S + Ψ·B,   Φ = exp(hA),   Ψ = ∫exp(A·s) ds,
//
// both by their series to the fourth order.
func (r *runner) advance(p *problem, t *track, x *state, at int) {
	r.middle = *x
	t.advance(x, at)
	for i := range r.middle {
		r.middle[i] = 0.5 * (r.middle[i] + x[i])
	}
	m := &r.mid
	t.plant.linearise(&r.middle, &t.scratch.half, m)
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
