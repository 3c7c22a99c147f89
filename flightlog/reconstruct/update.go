package reconstruct

import "math"

// slopes is a row H of the measurement matrix, without its zeros.
type slopes struct {
	n     int
	at    [16]int
	value [16]float64
}

func (h *slopes) add(at int, value float64) {
	h.at[h.n], h.value[h.n] = at, value
	h.n++
}

// addThree adds three neighbouring slopes.
func (h *slopes) addThree(at int, v [3]float64) {
	for k := range 3 {
		h.add(at+k, v[k])
	}
}

// of is the product H·v.
func (h *slopes) of(v *vector) float64 {
	sum := 0.0
	for k := range h.n {
		sum += h.value[k] * v[h.at[k]]
	}
	return sum
}

// spread gives P·Hᵀ and H·P·Hᵀ.
func (h *slopes) spread(p *matrix, n int) (column vector, variance float64) {
	for k := range h.n {
		row, weight := p[h.at[k]][:n], h.value[k]
		for i := range row {
			column[i] += weight * row[i]
		}
	}
	return column, h.of(&column)
}

// gain is what one scalar measurement did to the estimate; the smoother goes back by it.
type gain struct {
	h          slopes
	k          vector  // P·Hᵀ/s
	innovation float64 // measured − expected
	variance   float64 // s, of the innovation
}

// update takes in one scalar measurement; g holds its slopes, innovation and, as variance, that of the innovation, and column
// is P·Hᵀ. Measurements at one instant have independent errors, so that one after another is as good as all at once and
// needs no inverse (Bierman, Factorization Methods for Discrete Sequential Estimation, ch. II).
//
//	K = P·Hᵀ/s,  x ← x + K·innovation,  P ← P − K·(P·Hᵀ)ᵀ
func (b *belief) update(g *gain, column *vector) {
	n := b.n
	inverse := 1 / g.variance
	var d vector
	for i := range n {
		g.k[i] = column[i] * inverse
		d[i] = g.k[i] * g.innovation
	}
	for i := range n {
		k, row := g.k[i], &b.p[i]
		for j := i; j < n; j++ {
			v := row[j] - k*column[j]
			row[j] = v
			b.p[j][i] = v
		}
	}
	b.correct(&d)
}

// sound tells whether the covariance still is one: finite, and no variance negative.
func (b *belief) sound() bool {
	for i := range b.n {
		if !(b.p[i][i] >= 0) || math.IsInf(b.p[i][i], 0) || math.IsNaN(b.x[i]) {
			return false
		}
	}
	return !math.IsNaN(b.attitude[0])
}

// adjoint is what later measurements say about an earlier estimate, in the modified Bryson–Frazier form: the
// smoothed correction is −P·λ and the smoothed covariance P − P·Λ·P, with λ and Λ run back from zero at the end.
// In exact arithmetic that equals Rauch, Tung & Striebel (1965); it needs no inverse of P and no P at every step.
// Bierman, Fixed interval smoothing with discrete measurements, Int. J. Control 18 (1973).
type adjoint struct {
	n     int
	first vector
	all   matrix
}

// undo goes back over one measurement:
//
//	λ ← λ − Hᵀ·(innovation/s + Kᵀ·λ)
//	Λ ← (I − K·H)ᵀ·Λ·(I − K·H) + Hᵀ·H/s
func (a *adjoint) undo(g *gain) {
	n := a.n
	inverse := 1 / g.variance
	k := g.k[:n]
	var lk vector // Λ·K
	push, twice := 0.0, 0.0
	for i := range n {
		row := a.all[i][:n]
		sum := 0.0
		for j := range row {
			sum += row[j] * k[j]
		}
		lk[i] = sum
		twice += sum * k[i]
		push += a.first[i] * k[i]
	}
	push += g.innovation * inverse
	twice += inverse
	h := &g.h
	for m := range h.n {
		at, weight := h.at[m], h.value[m]
		a.first[at] -= weight * push
		row := a.all[at][:n]
		for j := range row {
			row[j] -= weight * lk[j]
		}
		for i := range n {
			a.all[i][at] -= weight * lk[i]
		}
	}
	for m := range h.n {
		row := &a.all[h.at[m]]
		for l := range h.n {
			row[h.at[l]] += h.value[m] * h.value[l] * twice
		}
	}
}

// retreat goes back over one stride: λ ← Φᵀ·λ, Λ ← Φᵀ·Λ·Φ.
func (a *adjoint) retreat(t *transition) {
	t.backward(&a.first)
	t.carryBack(&a.all, a.n)
}

// smoothed is the variance of H·x after smoothing, H·P·Hᵀ − (P·Hᵀ)ᵀ·Λ·(P·Hᵀ).
func (a *adjoint) smoothed(p *matrix, h *slopes) float64 {
	column, variance := h.spread(p, a.n)
	for i := range a.n {
		row := a.all[i][:a.n]
		sum := 0.0
		for j := range row {
			sum += row[j] * column[j]
		}
		variance -= sum * column[i]
	}
	return math.Max(variance, 0)
}
