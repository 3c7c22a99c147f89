package decide

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// term is one non-zero entry of a row of the measurement matrix.
type term struct {
	q, c  int
	slope float64
}

// belief is the joint Gaussian over (quantity, configuration) after the update.
//
//	posterior mean = prior + K·(y − h(x) − H·(prior − x)),  K = P·Hᵀ·(H·P·Hᵀ + R)⁻¹
//
// with h and H taken at the posterior mean x itself.
type belief struct {
	theory    *theory
	observed  *observations
	mean      [][]float64 // [quantity][configuration]
	rows      [][]term    // H at the mean
	expected  []float64   // h at the mean
	cross     *mat.Dense  // P·Hᵀ, (quantity·configuration) × rows; nil without observations
	gain      *mat.Dense  // K
	chiSquare float64     // of all innovations
}

// anchor updates theory with observations. A direct measurement is linear; a trim slope is a product of
// two beliefs and is linearised about the result, again and again until it stands still.
func anchor(t *theory, o *observations) (*belief, error) {
	b := &belief{theory: t, observed: o, mean: copyRows(t.mean)}
	if len(o.rows) == 0 {
		return b, nil
	}
	const most = 200
	for step := range most {
		moved, err := b.update(step > 10)
		if err != nil {
			return nil, err
		}
		if moved < 1e-10 {
			return b, nil
		}
	}
	return nil, fmt.Errorf("anchoring did not settle after %d steps; a trim slope is far from what theory allows", most)
}

// update takes one step of the iterated linearisation and returns the greatest move in units of the
// prior standard deviation. Damped steps go half way.
func (b *belief) update(damped bool) (float64, error) {
	b.linearise()
	b.cross = b.crossCovariance()
	innovation := b.innovation()
	var cholesky mat.Cholesky
	if !cholesky.Factorize(b.innovationCovariance()) {
		return 0, fmt.Errorf("measurements repeat one another exactly; state their standard deviations")
	}
	var weights mat.VecDense
	if err := cholesky.SolveVecTo(&weights, innovation); err != nil {
		return 0, fmt.Errorf("measurements nearly repeat one another: %w", err)
	}
	b.chiSquare = mat.Dot(innovation, &weights)
	var gain mat.Dense
	if err := cholesky.SolveTo(&gain, b.cross.T()); err != nil {
		return 0, fmt.Errorf("measurements nearly repeat one another: %w", err)
	}
	b.gain = mat.DenseCopyOf(gain.T())
	return b.move(&weights, damped), nil
}

// move sets the mean from the weights of the innovations.
func (b *belief) move(weights *mat.VecDense, damped bool) float64 {
	greatest := 0.0
	for q := range b.mean {
		for c := range b.mean[q] {
			next := b.theory.mean[q][c]
			for j := range b.rows {
				next += b.cross.At(b.at(q, c), j) * weights.AtVec(j)
			}
			if damped {
				next = (next + b.mean[q][c]) / 2
			}
			sd := math.Sqrt(b.theory.covariance(q, c, q, c))
			if sd > 0 {
				greatest = math.Max(greatest, math.Abs(next-b.mean[q][c])/sd)
			}
			b.mean[q][c] = next
		}
	}
	return greatest
}

// at is the place of a belief in the stacked vector.
func (b *belief) at(q, c int) int { return q*len(b.theory.space.configs) + c }

// linearise sets expected values and slopes at the present mean.
func (b *belief) linearise() {
	o := b.observed
	b.rows = make([][]term, len(o.rows))
	b.expected = make([]float64, len(o.rows))
	for j, row := range o.rows {
		if !row.trim {
			b.expected[j] = b.mean[row.quantity][row.config]
			b.rows[j] = []term{{row.quantity, row.config, 1}}
			continue
		}
		rate, neutral := b.mean[o.rate][row.config], b.mean[o.neutral][row.config]
		b.expected[j] = rate * (row.cg - neutral)
		b.rows[j] = []term{{o.rate, row.config, row.cg - neutral}, {o.neutral, row.config, -rate}}
	}
}

// crossCovariance is P·Hᵀ.
func (b *belief) crossCovariance() *mat.Dense {
	t := b.theory
	cross := mat.NewDense(len(t.quantities)*len(t.space.configs), len(b.rows), nil)
	for q := range t.quantities {
		for c := range t.space.configs {
			for j, row := range b.rows {
				sum := 0.0
				for _, h := range row {
					sum += t.covariance(q, c, h.q, h.c) * h.slope
				}
				cross.Set(b.at(q, c), j, sum)
			}
		}
	}
	return cross
}

// innovationCovariance is H·P·Hᵀ + R.
func (b *belief) innovationCovariance() *mat.SymDense {
	s := mat.NewSymDense(len(b.rows), nil)
	for i, row := range b.rows {
		for j := range i + 1 {
			sum := b.observed.noise.At(i, j)
			for _, h := range row {
				sum += h.slope * b.cross.At(b.at(h.q, h.c), j)
			}
			s.SetSym(i, j, sum)
		}
	}
	return s
}

// innovation is what was measured less what theory alone expected, linearised at the present mean.
func (b *belief) innovation() *mat.VecDense {
	d := mat.NewVecDense(len(b.rows), nil)
	for j, row := range b.rows {
		v := b.observed.rows[j].value - b.expected[j]
		for _, h := range row {
			v -= h.slope * (b.theory.mean[h.q][h.c] - b.mean[h.q][h.c])
		}
		d.SetVec(j, v)
	}
	return d
}

// covariance is that of two beliefs after the update.
func (b *belief) covariance(q, c, r, d int) float64 {
	v := b.theory.covariance(q, c, r, d)
	if b.gain == nil {
		return v
	}
	for j := range b.rows {
		v -= b.gain.At(b.at(q, c), j) * b.cross.At(b.at(r, d), j)
	}
	return v
}

// sd is the standard deviation of one belief at model scale.
func (b *belief) sd(q, c int) float64 { return math.Sqrt(math.Max(0, b.covariance(q, c, q, c))) }

// fullMean is the mean at full size: anchored at model scale, and the computed step.
func (b *belief) fullMean(q, c int) float64 {
	return b.mean[q][c] + b.theory.space.configs[c].step[b.theory.quantities[q]]
}

// fullSD is the standard deviation at full size.
func (b *belief) fullSD(q, c int) float64 {
	variance := math.Max(0, b.covariance(q, c, q, c))
	_, sds := b.theory.fullSizeSD(q, c)
	for _, sd := range sds {
		variance += sd * sd
	}
	return math.Sqrt(variance)
}

func copyRows(rows [][]float64) [][]float64 {
	result := make([][]float64, len(rows))
	for i, row := range rows {
		result[i] = append([]float64(nil), row...)
	}
	return result
}
