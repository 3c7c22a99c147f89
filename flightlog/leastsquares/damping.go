package leastsquares

import "math"

// parts are the singular values and right vectors of R·D·M⁻¹, M the metric of the search, with −c seen from the left
// vectors. With them the step of any damping λ is Σ v_k·s_k·u_k/(s_k² + λ): no further system has to be solved.
type parts struct {
	values  []float64 // s
	vectors []float64 // v as columns, row after row
	seen    []float64 // u
}

// decompose finds the singular values by turning pairs of columns until all stand at right angles.
//
// Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 8.6, one-sided Jacobi (from memory).
func (l local) decompose(metric []float64) parts {
	p := len(metric)
	columns := make([]float64, p*p)
	out := parts{values: make([]float64, p), vectors: make([]float64, p*p), seen: make([]float64, p)}
	for j := range p {
		out.vectors[j*p+j] = 1
		for i := range j + 1 {
			columns[i*p+j] = l.upper[i*p+j] * (l.lengths[j] / unless0(metric[j]))
		}
	}
	for range 40 { // six to ten sweeps are usual
		if !turnPairs(columns, out.vectors, p) {
			break
		}
	}
	largest := 0.0
	for k := range p {
		for i := range p {
			out.values[k] = math.Hypot(out.values[k], columns[i*p+k])
		}
		largest = max(largest, out.values[k])
	}
	for k, value := range out.values {
		if value <= float64(p)*0x1p-53*largest {
			out.values[k] = 0 // lost in rounding: no step along it
			continue
		}
		for i := range p {
			out.seen[k] -= float64(columns[i*p+k] / value * l.projected[i])
		}
	}
	return out
}

// turnPairs turns each pair of columns once, and says whether any needed it.
func turnPairs(columns, vectors []float64, p int) bool {
	turned := false
	for k := range p {
		for l := k + 1; l < p; l++ {
			var kk, ll, kl float64
			for i := range p {
				a, b := columns[i*p+k], columns[i*p+l]
				kk, ll, kl = kk+float64(a*a), ll+float64(b*b), kl+float64(a*b)
			}
			if math.Abs(kl) <= 0x1p-52*math.Sqrt(float64(kk*ll)) {
				continue
			}
			turned = true
			zeta := (ll - kk) / (2 * kl)
			tangent := math.Copysign(1/(math.Abs(zeta)+math.Sqrt(1+float64(zeta*zeta))), zeta)
			cosine := 1 / math.Sqrt(1+float64(tangent*tangent))
			turn(columns, p, k, l, cosine, cosine*tangent)
			turn(vectors, p, k, l, cosine, cosine*tangent)
		}
	}
	return turned
}

func turn(cells []float64, p, k, l int, cosine, sine float64) {
	for i := 0; i < len(cells); i += p {
		a, b := cells[i+k], cells[i+l]
		cells[i+k] = float64(cosine*a) - float64(sine*b)
		cells[i+l] = float64(sine*a) + float64(cosine*b)
	}
}

// within returns the step to the least linearised sum of squares inside the radius, to a tenth of it, its length, and by how much
// it should lower the sum.
func (d parts) within(radius float64) (step []float64, length, fall float64) {
	damping := 0.0
	const closeEnough = 0.1 // J. J. Moré, 1978 (from memory)
	for range 60 {
		var slope float64
		length, slope = d.lengthAt(damping)
		if length <= radius*(1+closeEnough) && (damping == 0 || length >= radius*(1-closeEnough)) {
			break
		}
		// Newton's method on 1/length, which is nearly straight in the damping
		damping = max(0, damping+length*length/slope*(length/radius-1))
	}
	p := len(d.values)
	step = make([]float64, p)
	for k, s := range d.values {
		if s == 0 {
			continue
		}
		share := s * d.seen[k] / (float64(s*s) + damping)
		left := damping / (float64(s*s) + damping)
		fall += float64(d.seen[k]*d.seen[k]) * (1 - left) * (1 + left)
		for i := range p {
			step[i] += float64(d.vectors[i*p+k] * share)
		}
	}
	return step, length, fall
}

// lengthAt returns the length of the step under a damping, and Σ z_k²/(s_k² + λ).
func (d parts) lengthAt(damping float64) (length, slope float64) {
	for k, s := range d.values {
		if s == 0 {
			continue
		}
		z := s * d.seen[k] / (float64(s*s) + damping)
		length = math.Hypot(length, z)
		slope += float64(z*z) / (float64(s*s) + damping)
	}
	return length, slope
}
