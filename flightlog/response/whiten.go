package response

import "math"

// disturbed is the model of what gusts and the instrument add to a free motion: motions that white noise sets going again and again, and white
// noise of unit size in the signal. There are at most three states; those that are not used stay zero.
type disturbed struct {
	turn  [3][3]float64 // of the states in one step
	noise [3][3]float64 // covariance that gusts add to them in one step
	reach [3]float64    // how the signal sees the states
}

// swingDisturbed is one swing, seen by a signal of rate. A gust steps the flow angle, sideslip or angle of attack; the rate of
// turn follows later, through the moments. So the kick of a gust is the change of the two states that the signal does not see at once. drive is
// the intensity of gusts, 1/s of unit amplitude, over that of the instrument.
func swingDisturbed(p poles, step float64, reach [2]float64, drive float64) *disturbed {
	kick := [3]float64{reach[1], -reach[0], 0}
	size := math.Sqrt(p.frequency2()*kick[0]*kick[0] + kick[1]*kick[1])
	if size > 0 {
		kick[0], kick[1] = kick[0]/size, kick[1]/size
	}
	turn := func(t float64) (out [3][3]float64) {
		f := p.transition(t)
		out[0], out[1] = [3]float64{f[0][0], f[0][1]}, [3]float64{f[1][0], f[1][1]}
		return out
	}
	return &disturbed{turn(step), stepNoise(turn, kick, step, drive), [3]float64{reach[0], reach[1]}}
}

// rollDisturbed is what gusts do to the roll rate: a step of sideslip leaves it alone at first, then the roll carries it to where the Dutch roll
// begins. drive is in squares of the noise of the instrument a second.
func rollDisturbed(root float64, p poles, step, drive float64) *disturbed {
	turn := func(t float64) (out [3][3]float64) {
		f := p.transition(t)
		out[0][0] = math.Exp(root * t)
		out[1], out[2] = [3]float64{0, f[0][0], f[0][1]}, [3]float64{0, f[1][0], f[1][1]}
		return out
	}
	return &disturbed{turn(step), stepNoise(turn, [3]float64{1, 0, 1}, step, drive), [3]float64{1, 0, -1}}
}

// stepNoise is the covariance that gusts add in one step: drive·∫ F(s)·kick·kickᵀ·F(s)ᵀ ds by Simpson's rule.
func stepNoise(turn func(float64) [3][3]float64, kick [3]float64, step, drive float64) (out [3][3]float64) {
	for i, weight := range [3]float64{1.0 / 6, 4.0 / 6, 1.0 / 6} {
		f := turn(float64(i) * step / 2)
		moved := through(&f, &kick)
		for a := range 3 {
			for b := range 3 {
				out[a][b] += float64(weight * drive * step * moved[a] * moved[b])
			}
		}
	}
	return out
}

// through is m·x.
func through(m *[3][3]float64, x *[3]float64) [3]float64 {
	return [3]float64{along(&m[0], x), along(&m[1], x), along(&m[2], x)}
}

// along is Σ a_i·b_i.
func along(a, b *[3]float64) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

// weight is what a filter makes of the innovation of one sample: what it adds to the states, and the factor to unit variance.
type weight struct {
	gain [3]float64
	size float64
}

// whiten runs the Kalman filter over every column; they come back as innovations of unit variance. The sum of the logarithms of their
// variances is returned. The first sample starts from the motion that is fitted, whatever gusts did before. The gains depend on no column
// and are worked out once, into weights.
//
// Source: A. C. Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, section 3.4 (from memory).
func (d *disturbed) whiten(columns [][]float64, weights []weight) (logarithms float64) {
	logarithms = d.weigh(weights)
	for _, column := range columns {
		d.innovate(column, weights)
	}
	return logarithms
}

// mostProduct is where a product of variances, none of which is below one, gives way to its logarithm, far from where numbers end.
const mostProduct = 1e150

// weigh fills in the weights of all samples and returns the sum of the logarithms of the variances.
func (d *disturbed) weigh(out []weight) (logarithms float64) {
	var p [3][3]float64
	product := 1.0
	for i := range out {
		if i > 0 {
			p = d.propagated(&p)
		}
		ph := through(&p, &d.reach)
		variance := along(&d.reach, &ph) + 1
		gain := [3]float64{ph[0] / variance, ph[1] / variance, ph[2] / variance}
		out[i] = weight{gain, 1 / math.Sqrt(variance)}
		if product *= variance; product > mostProduct {
			logarithms, product = logarithms+math.Log(product), 1
		}
		for a := range 3 {
			p[a][0] -= float64(gain[a] * ph[0])
			p[a][1] -= float64(gain[a] * ph[1])
			p[a][2] -= float64(gain[a] * ph[2])
		}
	}
	return logarithms + math.Log(product)
}

// innovate takes one column through the filter.
func (d *disturbed) innovate(column []float64, weights []weight) {
	h, f := d.reach, d.turn
	var x [3]float64
	for i := range weights {
		w := &weights[i]
		if i > 0 {
			x = through(&f, &x)
		}
		innovation := column[i] - along(&h, &x)
		column[i] = innovation * w.size
		x[0] += float64(w.gain[0] * innovation)
		x[1] += float64(w.gain[1] * innovation)
		x[2] += float64(w.gain[2] * innovation)
	}
}

// propagated is F·P·Fᵀ + Q.
func (d *disturbed) propagated(p *[3][3]float64) [3][3]float64 {
	out := d.noise
	f := &d.turn
	for i := range 3 {
		moved := through(p, &f[i]) // P is symmetric: this is row i of F·P
		for j := range i + 1 {
			out[i][j] += along(&moved, &f[j])
			out[j][i] = out[i][j]
		}
	}
	return out
}
