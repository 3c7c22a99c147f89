package identify

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// madeSegment is a filter of a segment made up: a stable motion of n states, gusts last, some outputs, and readings that are missing.
func madeSegment(rng *rand.Rand, gusts, outputs, samples int) gustSegment {
	n := states + gusts
	var g gustSegment
	g.gains, g.unread = make([]gain, samples*outputs), make([]bool, samples*outputs)
	for k := range samples {
		var f [mostFiltered]filtered
		var h [mostOutputs]filtered
		for i := range n {
			for j := range n {
				if i < states || i == j {
					f[i][j] = 0.3 * rng.NormFloat64()
				}
			}
			for o := range outputs {
				h[o][i] = rng.NormFloat64()
			}
		}
		g.transition, g.output = append(g.transition, f), append(g.output, h)
		g.unread[k*outputs+k%outputs] = k%3 == 1
	}
	for k := range gusts + 1 {
		for i := range n {
			for j := range n {
				g.unit[k][i][j] = 0.1
			}
			g.unit[k][i][i] = 0.5 + 0.1*float64(k)
		}
	}
	return g
}

// plainFilter whitens one column by the equations of the books, in matrices. It returns innovations over their standard deviations, and the
// variances.
func plainFilter(g *gustSegment, gusts int, levels, noise, column []float64) (white, variances []float64) {
	n := states + gusts
	part := func(m *[mostFiltered]filtered) *mat.Dense {
		out := mat.NewDense(n, n, nil)
		for i := range n {
			out.SetRow(i, m[i][:n])
		}
		return out
	}
	p, x := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for k := range gusts {
		p.Set(states+k, states+k, levels[k])
	}
	q := mat.NewDense(n, n, nil)
	for k, v := range levels {
		var scaled mat.Dense
		scaled.Scale(v, part(&g.unit[k]))
		q.Add(q, &scaled)
	}
	for k := range g.transition {
		for o, r := range noise {
			if g.unread[k*len(noise)+o] {
				white, variances = append(white, 0), append(variances, 1)
				continue
			}
			h := mat.NewVecDense(n, g.output[k][o][:n])
			var ph mat.VecDense
			ph.MulVec(p, h)
			s := mat.Dot(h, &ph) + r
			e := column[k*len(noise)+o] - mat.Dot(h, x)
			x.AddScaledVec(x, e/s, &ph)
			var less mat.Dense
			less.Outer(1/s, &ph, &ph)
			p.Sub(p, &less)
			white, variances = append(white, e/math.Sqrt(s)), append(variances, s)
		}
		f := part(&g.transition[k])
		var fp, next mat.Dense
		fp.Mul(f, p)
		next.Mul(&fp, f.T())
		next.Add(&next, q)
		p.Copy(&next)
		var moved mat.VecDense
		moved.MulVec(f, x)
		x.CopyVec(&moved)
	}
	return white, variances
}

// Columns side by side, a single column, and the matrices of the books say the same.
func TestFilterAgainstPlainMatrices(t *testing.T) {
	const samples, outputs, width = 60, 4, 5
	for gusts := 1; gusts <= mostGusts; gusts++ {
		rng := rand.New(rand.NewPCG(7, uint64(gusts)))
		f := &gustFilter{segments: []gustSegment{madeSegment(rng, gusts, outputs, samples)}, outputs: outputs, gusts: gusts}
		g := &f.segments[0]
		levels, noise := []float64{0.3, 0.2, 0.1}[:gusts+1], []float64{0.5, 1, 0.2, 2}
		g.tune(gusts, levels, noise)
		columns := make([][]float64, width)
		for j := range columns {
			for range samples * outputs {
				columns[j] = append(columns[j], rng.NormFloat64())
			}
		}
		f.begin(0, width)
		var wide [width][]float64
		for k := range samples {
			rows := make([]float64, outputs*width)
			for i := range rows {
				rows[i] = columns[i%width][k*outputs+i/width]
			}
			f.whiten(k, rows)
			for i, v := range rows {
				wide[i%width] = append(wide[i%width], v)
			}
		}
		for j, column := range columns {
			white, variances := plainFilter(g, gusts, levels, noise, column)
			require.InDeltaSlice(t, white, wide[j], 1e-10)
			require.InDeltaSlice(t, variances, variancesOf(g, nil), 1e-10)
			f.begin(0, 1)
			single := append([]float64(nil), column...)
			for k := range samples {
				f.whiten(k, single[k*outputs:(k+1)*outputs])
			}
			require.InDeltaSlice(t, white, single, 1e-10)
			raw, want := make([]float64, len(column)), 0.0
			got := f.pass(0, column, raw)
			for i, e := range white {
				require.InDelta(t, e*math.Sqrt(variances[i]), raw[i], 1e-10)
				want += e*e + math.Log(variances[i])
			}
			require.InEpsilon(t, want, got, 1e-12)
		}
	}
}

// The gradient of the scoring is that of the likelihood, by differences of it, and its information the sum that is written in the comment.
func TestScoringAgainstDifferences(t *testing.T) {
	const samples, outputs = 50, 4
	rng := rand.New(rand.NewPCG(8, 1))
	f := &gustFilter{segments: []gustSegment{madeSegment(rng, 1, outputs, samples), madeSegment(rng, 1, outputs, samples)}, outputs: outputs, gusts: 1}
	n := &noises{outputs: []float64{0.5, 1, 0.2, 2}, levels: [][]float64{{0.3, 0.1}, {0.2, 0.4}}, flight: []int{1, 0}}
	s := scoring{n: n, f: f, residuals: [][]float64{make([]float64, samples*outputs), make([]float64, samples*outputs)}, innovations: make([][]float64, 2)}
	for _, r := range s.residuals {
		for k := range r {
			r[k] = 1.5 * rng.NormFloat64()
		}
	}
	cost := func() float64 { n.tune(f); return s.cost() }
	cost()
	gradient, information := s.score()
	all := []*float64{&n.outputs[0], &n.outputs[1], &n.outputs[2], &n.outputs[3], &n.levels[0][0], &n.levels[0][1], &n.levels[1][0], &n.levels[1][1]}
	require.Len(t, gradient, len(all))
	type run struct{ nu, s []float64 }
	filtered := func() (out run) {
		cost()
		for i := range f.segments {
			out.nu, out.s = append(out.nu, s.innovations[i]...), append(out.s, variancesOf(&f.segments[i], nil)...)
		}
		return out
	}
	base := filtered()
	slopes := make([]run, len(all))
	for a, v := range all {
		const h = 1e-4
		was := *v
		*v = was * math.Exp(h)
		up, high := filtered(), cost()
		*v = was * math.Exp(-h)
		low := cost()
		*v = was
		require.InDelta(t, -(high-low)/(2*h)/2, gradient[a], 2e-3*(1+math.Abs(gradient[a])), "noise %d", a)
		for k := range up.nu {
			slopes[a].nu, slopes[a].s = append(slopes[a].nu, (up.nu[k]-base.nu[k])/h), append(slopes[a].s, (up.s[k]-base.s[k])/h)
		}
	}
	for a := range all {
		for b := range all {
			want := 0.0
			for k, v := range base.s {
				want += 0.5*slopes[a].s[k]*slopes[b].s[k]/(v*v) + slopes[a].nu[k]*slopes[b].nu[k]/v
			}
			require.InDelta(t, want, information.At(a, b), 2e-3*(1+math.Abs(want)), "noises %d and %d", a, b)
		}
	}
}
