package identify

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
)

// motion is a model for the bound, written anew: rates and outputs for states, gusts behind them, inputs and parameters.
type motion struct {
	trim       []float64 // four states, then gusts of zero
	parameters []float64 // the truth
	prior      []float64 // sd of what is known beforehand; 0 is nothing
	gusts      []float64 // sd of each, m/s
	rate       float64   // one over their correlation time
	noise      []float64 // sd of the outputs
	shake      []float64 // sd of what a noisy input adds to each state in one sample
	derivative func(x, in, parameters []float64) []float64
	output     func(x, in, parameters []float64) []float64
}

// linear is the motion about its trim for some parameters, over one sample.
type linear struct {
	f, g, h, d *mat.Dense
	drift, off []float64 // what the trim itself does when parameters are not those that trim it
	q, r       *mat.Dense
}

// jacobian by central differences.
func jacobian(f func(x []float64) []float64, at []float64) *mat.Dense {
	const h = 1e-6
	rows := len(f(at))
	out := mat.NewDense(rows, len(at), nil)
	for j := range at {
		x := append([]float64(nil), at...)
		x[j] += h
		up := f(x)
		x[j] -= 2 * h
		down := f(x)
		for i := range rows {
			out.Set(i, j, (up[i]-down[i])/(2*h))
		}
	}
	return out
}

// linearise puts the whole motion into one matrix exponential: states, gusts, inputs held, and a one for the drift.
func (m *motion) linearise(parameters []float64, inputs int, step float64) linear {
	n := len(m.trim)
	none := make([]float64, inputs)
	rates := func(x []float64) []float64 {
		dx := m.derivative(x, none, parameters)
		for k := range m.gusts {
			dx = append(dx, -m.rate*x[4+k])
		}
		return dx
	}
	by := func(in []float64) []float64 {
		return append(m.derivative(m.trim, in, parameters), make([]float64, len(m.gusts))...)
	}
	all := mat.NewDense(n+inputs+1, n+inputs+1, nil)
	all.Slice(0, n, 0, n).(*mat.Dense).Copy(jacobian(rates, m.trim))
	all.Slice(0, n, n, n+inputs).(*mat.Dense).Copy(jacobian(by, none))
	for i, v := range rates(m.trim) {
		all.Set(i, n+inputs, v)
	}
	all.Scale(step, all)
	var exp mat.Dense
	exp.Exp(all)
	out := linear{f: mat.DenseCopyOf(exp.Slice(0, n, 0, n)), g: mat.DenseCopyOf(exp.Slice(0, n, n, n+inputs)), drift: mat.Col(nil, n+inputs, &exp)[:n]}
	out.h = jacobian(func(x []float64) []float64 { return m.output(x, none, parameters) }, m.trim)
	out.d = jacobian(func(in []float64) []float64 { return m.output(m.trim, in, parameters) }, none)
	out.off = m.output(m.trim, none, parameters)
	out.q, out.r = mat.NewDense(n, n, nil), mat.NewDense(len(m.noise), len(m.noise), nil)
	const pieces = 20
	for piece := range pieces { // ∫ exp(As)·B·Bᵀ·exp(As)ᵀ ds by midpoints
		var part, e mat.Dense
		part.Scale((float64(piece)+0.5)/pieces, all.Slice(0, n, 0, n))
		e.Exp(&part)
		for k, sd := range m.gusts {
			column := mat.NewVecDense(n, mat.Col(nil, 4+k, &e))
			var outer mat.Dense
			outer.Outer(2*m.rate*sd*sd*step/pieces, column, column)
			out.q.Add(out.q, &outer)
		}
	}
	for i, a := range m.shake {
		for j, b := range m.shake {
			out.q.Set(i, j, out.q.At(i, j)+a*b)
		}
	}
	for i, sd := range m.noise {
		out.r.Set(i, i, sd*sd)
	}
	return out
}

// innovations runs the Kalman filter through a record; they come out one after another, whitened by the Cholesky factor of their
// covariance, with the logarithms of its diagonal.
func (l *linear) innovations(x0 []float64, gusts []float64, inputs, record [][]float64) (white, logs []float64) {
	n := len(x0)
	x, p := mat.NewVecDense(n, append([]float64(nil), x0...)), mat.NewDense(n, n, nil)
	for k, sd := range gusts {
		p.Set(4+k, 4+k, sd*sd)
	}
	for k, y := range record {
		nu := mat.NewVecDense(len(y), append([]float64(nil), y...))
		var predicted, direct mat.VecDense
		predicted.MulVec(l.h, x)
		direct.MulVec(l.d, mat.NewVecDense(len(inputs[k]), inputs[k]))
		nu.SubVec(nu, &predicted)
		nu.SubVec(nu, &direct)
		nu.SubVec(nu, mat.NewVecDense(len(y), l.off))
		var hp, s mat.Dense
		hp.Mul(l.h, p)
		s.Mul(&hp, l.h.T())
		s.Add(&s, l.r)
		var c mat.Cholesky
		c.Factorize(symmetric(&s))
		var lower mat.TriDense
		c.LTo(&lower)
		var e mat.VecDense
		_ = e.SolveVec(&lower, nu)
		for i := range y {
			white, logs = append(white, e.AtVec(i)), append(logs, math.Log(lower.At(i, i)))
		}
		var gain, back, kp mat.Dense
		_ = c.SolveTo(&back, &hp)
		gain.CloneFrom(back.T())
		var step mat.VecDense
		step.MulVec(&gain, nu)
		x.AddVec(x, &step)
		kp.Mul(&gain, &hp)
		p.Sub(p, &kp)
		var fx, gu mat.VecDense
		fx.MulVec(l.f, x)
		gu.MulVec(l.g, mat.NewVecDense(len(inputs[k]), inputs[k]))
		x.AddVec(&fx, &gu)
		x.AddVec(x, mat.NewVecDense(n, l.drift))
		var fp, fpf mat.Dense
		fp.Mul(l.f, p)
		fpf.Mul(&fp, l.f.T())
		p.Add(&fpf, l.q)
	}
	return white, logs
}

func symmetric(d *mat.Dense) *mat.SymDense {
	n, _ := d.Dims()
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.SetSym(i, j, 0.5*(d.At(i, j)+d.At(j, i)))
		}
	}
	return s
}

// record draws outputs of the true motion.
func (m *motion) record(l *linear, inputs [][]float64, rng *rand.Rand) [][]float64 {
	n := len(m.trim)
	x := make([]float64, n)
	for k, sd := range m.gusts {
		x[4+k] = sd * rng.NormFloat64()
	}
	var root mat.Cholesky
	q := symmetric(l.q)
	for i := range n {
		q.SetSym(i, i, q.At(i, i)*(1+1e-9)+1e-24)
	}
	root.Factorize(q)
	var lower mat.TriDense
	root.LTo(&lower)
	var out [][]float64
	for _, in := range inputs {
		y := append([]float64(nil), l.off...)
		for i := range y {
			for j := range x {
				y[i] += l.h.At(i, j) * x[j]
			}
			for j := range in {
				y[i] += l.d.At(i, j) * in[j]
			}
			y[i] += m.noise[i] * rng.NormFloat64()
		}
		out = append(out, y)
		next := append([]float64(nil), l.drift...)
		for i := range n {
			for j := range n {
				next[i] += l.f.At(i, j) * x[j]
			}
			for j := range in {
				next[i] += l.g.At(i, j) * in[j]
			}
		}
		z := make([]float64, n)
		for j := range z {
			z[j] = rng.NormFloat64()
			for i := j; i < n; i++ {
				next[i] += lower.At(i, j) * z[j]
			}
		}
		x = next
	}
	return out
}

// information is Fisher's, of all parameters of one segment; the last four shift the initial state. Innovations and their variances are
// differentiated through the whole filter, its gain included, on one drawn record.
func (m *motion) information(inputs [][]float64, step float64, rng *rand.Rand) *mat.SymDense {
	truth := m.linearise(m.parameters, len(inputs[0]), step)
	record := m.record(&truth, inputs, rng)
	size := len(m.parameters) + 4
	var white, logs [][]float64
	for j := range size {
		const h = 1e-4
		var e, s [2][]float64
		for side, sign := range []float64{1, -1} {
			parameters, x0 := append([]float64(nil), m.parameters...), make([]float64, len(m.trim))
			if j < len(parameters) {
				parameters[j] += sign * h
			} else {
				x0[j-len(parameters)] = sign * h
			}
			l := m.linearise(parameters, len(inputs[0]), step)
			e[side], s[side] = l.innovations(x0, m.gusts, inputs, record)
		}
		de, ds := make([]float64, len(e[0])), make([]float64, len(s[0]))
		for k := range de {
			de[k], ds[k] = (e[0][k]-e[1][k])/(2*h), (s[0][k]-s[1][k])/(2*h)
		}
		white, logs = append(white, de), append(logs, ds)
	}
	out := mat.NewSymDense(size, nil)
	for i := range size {
		for j := i; j < size; j++ {
			// whitened innovations e = ν/√s: ∂e = ∂ν/√s − e·∂ln√s, and E e² = 1; the second sum restores what the scale took
			out.SetSym(i, j, dot(white[i], white[j])+dot(logs[i], logs[j]))
		}
	}
	for j, sd := range m.prior {
		if sd > 0 {
			out.SetSym(j, j, out.At(j, j)+1/(sd*sd))
		}
	}
	return out
}
