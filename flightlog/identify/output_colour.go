package identify

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Constants of the look at residuals; common practice, no source.
const (
	whiteBlock  = 0.25 // s: means over as much show the colour that gusts leave
	whiteSigmas = 3.0
	colourBlock = 0.04 // s: colour is slow beside it
	longestOwn  = 2.0  // s: residuals farther apart count as independent
	blocksLeast = 8
)

// whitened are the rows of a road: residuals over their standard deviation, by segment, samples × outputs.
func (it *iteration) whitened(w whitener) [][]float64 {
	outputs := len(it.p.layout.outputs)
	out := make([][]float64, len(it.residuals))
	for i, r := range it.residuals {
		out[i] = append([]float64(nil), r...)
		w.begin(i, 1)
		for k := 0; k*outputs < len(r); k++ {
			w.whiten(k, out[i][k*outputs:(k+1)*outputs])
		}
	}
	return out
}

// growth compares, for each output, the variance of means over a quarter of a second with what white residuals would have: one when they
// are white. limit is what chance may make of it.
func (it *iteration) growth(rows [][]float64) (most, limit float64) {
	outputs := len(it.p.layout.outputs)
	var sum, square [mostOutputs]float64
	samples, blocks := 0, 0
	for i, r := range rows {
		n := max(1, int(math.Round(whiteBlock/it.p.tracks[i].segment.Step)))
		for at := 0; at+n*outputs <= len(r); at += n * outputs {
			for o := range outputs {
				total := 0.0
				for k := range n {
					e := r[at+k*outputs+o]
					total += e
					square[o] += e * e
				}
				sum[o] += total * total
			}
			samples += n
			blocks++
		}
	}
	if blocks < blocksLeast {
		return 1, 1
	}
	for o := range outputs {
		if square[o] > 0 {
			most = math.Max(most, sum[o]/square[o])
		}
	}
	return most, 1 + whiteSigmas*math.Sqrt(2/float64(blocks))
}

// exact tells whether the motion is followed to the precision of its integration, so that nothing is left to be looked at.
func (it *iteration) exact() bool {
	floors := it.noiseFloors()
	for o, v := range it.p.noise {
		if v > 2*floors[o] {
			return false
		}
	}
	return true
}

// coloured is the covariance of the common parameters with the colour of the residuals in it,
//
//	(Σ SᵀS)⁻¹ [Σ_i Σ_j S_iᵀ R(i−j) S_j] (Σ SᵀS)⁻¹,
//
// S the whitened sensitivities that gave the equations, without what the segment's own parameters can do, R the autocorrelation matrix of the whitened residuals
// of all segments.
//
// Source: Morelli and Klein, Accuracy of aerodynamic model parameters estimated from flight test data, J. Guidance 20, 1997 (from memory).
func (it *iteration) coloured(e *equations) [][]float64 {
	p, bread := it.p, e.covariance()
	for i := range e.segments {
		if !e.segments[i].ok {
			return rowsOf(bread)
		}
	}
	var blocks []*mat.Dense // outputs × (common + residual) of each block, segment by segment
	starts := make([]int, len(p.tracks)+1)
	for i, t := range p.tracks {
		blocks = append(blocks, it.reduced(e, i, max(1, int(math.Round(colourBlock/t.segment.Step))))...)
		starts[i+1] = len(blocks)
	}
	correlation := autocorrelations(blocks, starts, p.commons(), it.colourLags())
	meat := mat.NewSymDense(p.commons(), nil)
	for i := range p.tracks {
		addColour(meat, blocks[starts[i]:starts[i+1]], correlation, p.commons())
	}
	var half, whole mat.Dense
	half.Mul(bread, meat)
	whole.Mul(&half, bread)
	out := zeros(p.commons(), p.commons())
	for i := range out {
		for j := range out {
			out[i][j] = 0.5 * (whole.At(i, j) + whole.At(j, i))
		}
	}
	return out
}

// colourLags is how many blocks residuals are correlated over.
func (it *iteration) colourLags() int {
	step := it.p.tracks[0].segment.Step
	return int(math.Round(longestOwn / (step * math.Max(1, math.Round(colourBlock/step)))))
}

// reduced gives the mean sensitivities of each block of samples, own parameters eliminated, and behind them the sum of its residuals.
func (it *iteration) reduced(e *equations, segment, samples int) []*mat.Dense {
	p, n := it.p, e.common
	outputs, own := len(p.layout.outputs), len(p.tracks[segment].own)
	s := &e.segments[segment]
	solved := mat.NewDense(own, n, nil)
	_ = s.factor.SolveTo(solved, s.cross) // the same factors gave the fit
	var out []*mat.Dense
	rows := &it.rows[segment]
	for k := range p.tracks[segment].samples {
		if k%samples == 0 {
			out = append(out, mat.NewDense(outputs, n+1, nil))
		}
		into := out[len(out)-1]
		for o := range outputs {
			at := k*outputs + o
			for j := range n {
				v := rows.row(j)[at]
				for a := range own {
					v -= rows.row(n + a)[at] * solved.At(a, j)
				}
				into.Set(o, j, into.At(o, j)+v/float64(samples))
			}
			into.Set(o, n, into.At(o, n)+rows.residuals()[at])
		}
	}
	return out
}

// autocorrelations are those of the summed residuals, lag by lag, each outputs × outputs and tapered towards the last lag (Bartlett).
func autocorrelations(blocks []*mat.Dense, starts []int, residual, lags int) []*mat.Dense {
	outputs, _ := blocks[0].Dims()
	out := make([]*mat.Dense, lags+1)
	for l := range out {
		out[l] = mat.NewDense(outputs, outputs, nil)
		taper := (1 - float64(l)/float64(lags+1)) / float64(len(blocks))
		for s := range len(starts) - 1 {
			for b := starts[s]; b+l < starts[s+1]; b++ {
				for i := range outputs {
					for j := range outputs {
						out[l].Set(i, j, out[l].At(i, j)+taper*blocks[b].At(i, residual)*blocks[b+l].At(j, residual))
					}
				}
			}
		}
	}
	return out
}

// addColour adds Σ S_bᵀ R(c−b) S_c of one segment.
func addColour(meat *mat.SymDense, blocks []*mat.Dense, correlation []*mat.Dense, n int) {
	for b := range blocks {
		outputs, _ := blocks[b].Dims()
		forward := mat.NewDense(outputs, n, nil) // ½R(0)S_b + Σ R(l)S_{b+l}
		for l := 0; l < len(correlation) && b+l < len(blocks); l++ {
			var product mat.Dense
			product.Mul(correlation[l], blocks[b+l].Slice(0, outputs, 0, n))
			if l == 0 {
				product.Scale(0.5, &product)
			}
			forward.Add(forward, &product)
		}
		var part mat.Dense
		part.Mul(blocks[b].Slice(0, outputs, 0, n).T(), forward)
		for i := range n {
			for j := i; j < n; j++ {
				meat.SetSym(i, j, meat.At(i, j)+part.At(i, j)+part.At(j, i))
			}
		}
	}
}
