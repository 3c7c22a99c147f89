package decide

import (
	"sync"

	"gonum.org/v1/gonum/floats"
)

// drawer makes joint draws of the anchored beliefs.
//
// A prior draw is taken from named standard normals, every measurement is perturbed by a draw of its own
// noise, and the draw is moved by the same gain as the mean:
//
//	draw = prior draw + K·(y − h − H·(prior draw − x) − noise draw)
//
// which has the mean and the covariance of the updated belief. Since each normal belongs to a named term,
// all configurations and all limits share them.
type drawer struct {
	n        int
	streams  *streams
	belief   *belief
	mixed    sync.Map    // correlated normals of a term and quantity, by name
	priors   [][]float64 // by place of the belief, of those that flights observe until model takes them over
	residual [][]float64 // one row an observation
}

func newDrawer(s *streams, b *belief) *drawer {
	d := &drawer{n: s.n, streams: s, belief: b, priors: make([][]float64, len(b.theory.quantities)*len(b.theory.space.configs))}
	d.measure()
	return d
}

// normal returns the normals of one term for one quantity, with the declared correlation to the normals
// of the same term of other quantities.
func (d *drawer) normal(q int, kind, a, b string) []float64 {
	mix, names := d.belief.theory.mix[q], d.belief.theory.quantities
	if mix[q] == 1 {
		return d.streams.normals("model", kind, a, b, names[q])
	}
	key := kind + "\x00" + a + "\x00" + b + "\x00" + names[q]
	if z, ok := d.mixed.Load(key); ok {
		return z.([]float64)
	}
	z := make([]float64, d.n)
	for r := 0; r <= q; r++ {
		addScaled(z, mix[r], func() []float64 { return d.streams.normals("model", kind, a, b, names[r]) })
	}
	d.mixed.Store(key, z)
	return z
}

// prior draws one belief before any flight.
func (d *drawer) prior(q, c int) []float64 {
	t := d.belief.theory
	x := make([]float64, d.n)
	for i := range x {
		x[i] = t.mean[q][c]
	}
	scale := t.inflation * t.size[q][c]
	addScaled(x, scale*t.errors[q].Bias, func() []float64 { return d.normal(q, "bias", "", "") })
	for k, choice := range t.space.names {
		addScaled(x, scale*t.spread[q]*t.level[q][k], func() []float64 { return d.normal(q, "level", choice, t.at[c][k]) })
	}
	addScaled(x, scale*t.spread[q]*t.errors[q].Interaction, func() []float64 { return d.normal(q, "interaction", t.space.configs[c].name, "") })
	addScaled(x, t.doubt[q][c], func() []float64 { return d.streams.normals("doubt", t.quantities[q]) })
	return x
}

// addScaled adds a multiple of draws that are only made when the multiple is not zero.
func addScaled(x []float64, scale float64, draws func() []float64) {
	if scale == 0 {
		return
	}
	floats.AddScaled(x, scale, draws())
}

// measure draws what every observation leaves unexplained of the prior draw, configurations side by side: no record and no prior draw belongs to
// two of them.
func (d *drawer) measure() {
	d.residual = make([][]float64, len(d.belief.rows))
	_ = sideBySide(d.belief.theory.space.all(), func(c int) error { d.measureIn(c); return nil }) // nothing in it can fail
}

// measureIn does so for the records of one configuration.
func (d *drawer) measureIn(c int) {
	start := 0
	for _, r := range d.belief.observed.records {
		if r.rows[0].config == c {
			for j := start; j < start+len(r.rows); j++ {
				d.residual[j] = d.unexplained(j)
			}
			d.disturb(r, start)
		}
		start += len(r.rows)
	}
}

// unexplained is what one observation leaves of the prior draw, without any noise.
func (d *drawer) unexplained(j int) []float64 {
	b := d.belief
	w := make([]float64, d.n)
	for i := range w {
		w[i] = b.observed.rows[j].value - b.expected[j]
	}
	for _, h := range b.rows[j] {
		at, mean := b.at(h.q, h.c), b.mean[h.q][h.c]
		if d.priors[at] == nil {
			d.priors[at] = d.prior(h.q, h.c)
		}
		for i, x := range d.priors[at] {
			w[i] -= h.slope * (x - mean)
		}
	}
	return w
}

// disturb takes the noise draws off the residuals of a record, which begin at start: its own noise, then that of shared sources by name.
func (d *drawer) disturb(r record, start int) {
	lower, _ := semiCholesky(r.own)
	for k := range r.rows {
		z := normals(d.streams.seed, d.n, "noise", r.key, string(rune('a'+k)))
		for j := k; j < len(r.rows); j++ {
			addScaled(d.residual[start+j], -lower[j][k], func() []float64 { return z })
		}
	}
	o := d.belief.observed
	for _, source := range o.sources {
		for j := start; j < start+len(r.rows); j++ {
			addScaled(d.residual[j], -o.common[source][j], func() []float64 { return d.streams.normals("shared source", source) })
		}
	}
}

// model draws one belief at model scale after all flights. It takes the prior draw over, so that each belief is asked for by one goroutine only.
func (d *drawer) model(q, c int) []float64 {
	at := d.belief.at(q, c)
	x := d.priors[at]
	if d.priors[at] = nil; x == nil {
		x = d.prior(q, c)
	}
	for j, w := range d.residual {
		addScaled(x, d.belief.gain.At(at, j), func() []float64 { return w })
	}
	return x
}

// full draws one belief at full size: the computed step, and errors of the step that all configurations
// share and that no model flight shrinks.
func (d *drawer) full(q, c int) []float64 {
	t := d.belief.theory
	x := d.model(q, c)
	step := t.space.configs[c].step[t.quantities[q]]
	for i := range x {
		x[i] += step
	}
	names, sds := t.fullSizeSD(q, c)
	for s, name := range names {
		addScaled(x, sds[s], func() []float64 { return d.streams.normals("full size", name, t.quantities[q]) })
	}
	return x
}
