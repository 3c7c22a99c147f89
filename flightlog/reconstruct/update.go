package reconstruct

import "math"

// slopes is a row H of the measurement matrix, without its zeros.
type slopes struct {
	n     int
	at    [16]uint8
	value [16]float64
}

func (h *slopes) add(at int, value float64) {
	h.at[h.n], h.value[h.n] = uint8(at), value
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

// spread puts P·Hᵀ into a vector and gives H·P·Hᵀ. Four rows of P are added at a time, so that sums are fetched and stored a quarter as often.
func (h *slopes) spread(p *matrix, column *vector, n int) (variance float64) {
	h.fill()
	*column = vector{}
	sum := column[:n]
	for k := 0; k < h.n; k += rowsAtOnce {
		row := func(i int) []float64 { return p.row(int(h.at[k+i]))[:len(sum)] }
		a, b, c, d := row(0), row(1), row(2), row(3)
		wa, wb, wc, wd := h.value[k], h.value[k+1], h.value[k+2], h.value[k+3]
		for i := range sum {
			sum[i] += wa*a[i] + wb*b[i] + wc*c[i] + wd*d[i]
		}
	}
	return h.of(column)
}

const rowsAtOnce = 4

// fill makes what stands behind the last slope up to a multiple of rowsAtOnce nothing.
func (h *slopes) fill() {
	for k := h.n; k%rowsAtOnce != 0; k++ {
		h.at[k], h.value[k] = 0, 0
	}
}

// gain is what one scalar measurement does to the estimate; the smoother goes back by it. Slopes and innovation are over the standard deviation √s of
// the innovation, so that in their unit the variance of the innovation is one.
type gain struct {
	h          slopes
	k          vector  // P·Hᵀ
	innovation float64 // measured − expected
	variance   float64 // s
}

// normalise divides by √s what is in the unit of the measurement.
func (g *gain) normalise() {
	inverse := 1 / math.Sqrt(g.variance)
	for m := range g.h.n {
		g.h.value[m] *= inverse
	}
	for i := range g.k {
		g.k[i] *= inverse
	}
	g.innovation *= inverse
}

// update takes in one scalar measurement. Measurements at one instant have independent errors, so that one after another is as good as all at once and
// needs no inverse (Bierman, Factorization Methods for Discrete Sequential Estimation, ch. II).
//
//	K = P·Hᵀ/s,  x ← x + K·innovation,  P ← P − K·(P·Hᵀ)ᵀ
//
// where s is one, so that K is the gain's column.
func (b *belief) update(g *gain) {
	b.p.less(&g.k, b.n)
	var d vector
	for i := range b.n {
		d[i] = g.k[i] * g.innovation
	}
	b.correct(&d)
}

// sound tells whether the covariance still is one: finite, and no variance negative.
func (b *belief) sound() bool {
	for i := range b.n {
		if v := *b.p.at(i, i); !(v >= 0 && v <= math.MaxFloat64) || math.IsNaN(b.x[i]) {
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

	column, told vector // room for P·Hᵀ and a product of Λ or P
}

// undo goes back over one measurement:
//
//	λ ← λ − Hᵀ·(innovation/s + Kᵀ·λ)
//	Λ ← (I − K·H)ᵀ·Λ·(I − K·H) + Hᵀ·H/s
//
// where s is one.
func (a *adjoint) undo(g *gain) {
	n, lk := a.n, &a.told
	a.all.times(&g.k, lk, n) // Λ·K
	push, twice := g.innovation, 1.0
	for i := range n {
		push += a.first[i] * g.k[i]
		twice += lk[i] * g.k[i]
	}
	h := &g.h
	for m := range h.n {
		at, weight := int(h.at[m]), h.value[m]
		a.first[at] -= weight * push
		row := a.all.row(at)
		for j := range n {
			row[j] -= weight * lk[j]
		}
		for i := range n {
			*a.all.at(i, at) -= weight * lk[i]
		}
	}
	for m := range h.n {
		row := a.all.row(int(h.at[m]))
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

// deviation is the standard deviation of H·x after smoothing.
func (a *adjoint) deviation(b *belief, h *slopes) float64 { return math.Sqrt(a.smoothed(&b.p, h)) }

// smoothed is the variance of H·x after smoothing, H·P·Hᵀ − (P·Hᵀ)ᵀ·Λ·(P·Hᵀ).
func (a *adjoint) smoothed(p *matrix, h *slopes) float64 {
	variance := h.spread(p, &a.column, a.n)
	a.all.times(&a.column, &a.told, a.n)
	for i := range a.n {
		variance -= a.told[i] * a.column[i]
	}
	return math.Max(variance, 0)
}
