package identify

import "math"

// EquationErrorSpectrum is EquationError in the frequency domain: the same coefficients, each segment taken through a finite Fourier
// transform over the band that its input excited, and regressed as complex numbers. A constant has no line at a whole number of
// periods, and the one shape that a straight drift has there is taken off, so that biases and slow drifts of gyros, forces or flow
// angles do no harm; noise above the band does none either. What swings slower than the band, phugoid and slow gusts among it, is left
// out of the fit, at the price of wider intervals.
//
// Source: Morelli, Real-time parameter estimation in the frequency domain, J. Guidance, Control, and Dynamics 23, 2000 (from memory);
// the removal of the drift is derived in driftLines.
func EquationErrorSpectrum(segments []Segment, axis Axis, setup Setup) (Fit, error) {
	g, err := gather(segments, axis, setup)
	if err != nil {
		return Fit{}, err
	}
	return g.fit(frequencyDomain())
}

// frequencyDomain regresses lines of the spectrum.
func frequencyDomain() road {
	return road{
		method: "equation error, frequency domain", rows: spectra,
		spread: func(r *regression) [][]float64 { return r.widened(r.byLine()) },
	}
}

// spectra turns each block into real and imaginary parts of the lines in its band.
func spectra(samples []block) []block {
	out := make([]block, len(samples))
	for i, b := range samples {
		n := len(b.columns[0])
		circle := newTurns(n)
		lines := bandOf(b.input, circle, b.step)
		out[i] = b
		out[i].columns, out[i].responses = circle.lines(b.columns, lines), circle.lines(b.responses, lines)
		// the constant has no lines; what edges do has, and stays free
		own := append([][]float64{driftLines(n, lines)}, circle.lines(b.apart[1:], lines)...)
		out[i].apart, out[i].fresh = orthonormal(own), 1
	}
	return out
}

// The band of a transform. Its lower end leaves out what lasts as long as the segment; its upper end holds bandShare of the power of
// the surface, but no less than lowestTop, where short periods and Dutch rolls of models lie, and no more than highestTop, where smoothing
// has halved everything. Common practice, no source.
const (
	fewestPeriods = 2    // in a segment
	bandShare     = 0.98 // of the power
	lowestTop     = 1.5  // Hz
	highestTop    = 4.0  // Hz
	topOfSampling = 0.15 // of the sample rate
)

// bandOf lists the whole numbers of periods in a segment that are transformed.
func bandOf(input []float64, circle turns, step float64) []int {
	n := len(circle.cos)
	length := float64(n) * step
	highest := int(math.Min(highestTop, topOfSampling/step) * length)
	top := highest
	if len(input) == n {
		power, total := make([]float64, highest+1), 0.0
		for k := 1; k <= highest; k++ {
			re, im := circle.line(input, k)
			power[k] = re*re + im*im
			total += power[k]
		}
		sum := 0.0
		for top = 1; top < highest; top++ {
			if sum += power[top]; sum >= bandShare*total {
				break
			}
		}
		top = min(highest, max(top, int(lowestTop*length)))
	}
	var lines []int
	for k := fewestPeriods; k <= top; k++ {
		lines = append(lines, k)
	}
	return lines
}

// lines are those of each column: all real parts, then all imaginary ones.
func (t turns) lines(columns [][]float64, lines []int) [][]float64 {
	out := make([][]float64, len(columns))
	for j, c := range columns {
		out[j] = make([]float64, 2*len(lines))
		for i, k := range lines {
			out[j][i], out[j][len(lines)+i] = t.line(c, k)
		}
	}
	return out
}

// driftLines is the transform of a straight line through n samples: Σ i·exp(−2πi·k·i/n) = −n/2 + i·(n/2)·cot(πk/n), a geometric
// series summed up, here over n/2.
func driftLines(n int, lines []int) []float64 {
	out := make([]float64, 2*len(lines))
	for i, k := range lines {
		out[i], out[len(lines)+i] = -1, 1/math.Tan(math.Pi*float64(k)/float64(n))
	}
	return out
}

// byLine is the covariance with the lines of each block as independent, each with a scatter of its own: residuals of different lines
// hardly know of each other, but gusts make the low ones larger. A line that the fit follows closely shows too small a residual, which is
// divided by one less its leverage.
//
// Source: MacKinnon and White, Some heteroskedasticity-consistent covariance matrix estimators, J. Econometrics 29, 1985, their third
// (from memory).
func (r *regression) byLine() [][]float64 {
	p, count := len(r.columns[0]), len(r.values)
	out := zeros(p*count, p*count)
	for s, columns := range r.columns {
		half := len(columns[0]) / 2
		for i := range half {
			score := make([]float64, 0, p*count)
			for a := range count {
				raw, residual := make([]float64, p), r.residuals[a][s]
				weight := r.weights[a][s] / (1 - r.leverage(a, s, i, half))
				for j, c := range columns {
					raw[j] = weight * (float64(c[i]*residual[i]) + float64(c[half+i]*residual[half+i]))
				}
				score = append(score, applied(r.inverse[a], raw)...)
			}
			addOuter(out, score, 1)
		}
	}
	return out
}

// leverage is how much of a line the fit follows, the mean of both its parts.
func (r *regression) leverage(a, s, i, half int) float64 {
	h := 0.0
	for _, at := range [...]int{i, half + i} {
		x := make([]float64, len(r.columns[s]))
		for j, c := range r.columns[s] {
			x[j] = c[at]
		}
		h += r.weights[a][s] * inner(x, applied(r.inverse[a], x)) / 2
		for _, own := range r.apart[s] {
			h += own[at] * own[at] / 2
		}
	}
	const most = 0.9 // a line that decides all by itself must not divide by nothing
	return math.Min(most, h)
}

// applied is a matrix on a vector.
func applied(m [][]float64, v []float64) []float64 {
	out := make([]float64, len(m))
	for i, row := range m {
		out[i] = inner(row, v)
	}
	return out
}

// addOuter adds factor·v·vᵀ.
func addOuter(sum [][]float64, v []float64, factor float64) {
	for i := range sum {
		for j := range sum {
			sum[i][j] += factor * v[i] * v[j]
		}
	}
}
