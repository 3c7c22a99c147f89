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
func swingDisturbed(p poles, step float64, reach [2]float64, drive float64) disturbed {
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
	return disturbed{turn(step), stepNoise(turn, kick, step, drive), [3]float64{reach[0], reach[1]}}
}

// rollDisturbed is what gusts do to the roll rate: a step of sideslip leaves it alone at first, then the roll carries it to where the Dutch roll
// begins. drive is in squares of the noise of the instrument a second.
func rollDisturbed(root float64, p poles, step, drive float64) disturbed {
	turn := func(t float64) (out [3][3]float64) {
		f := p.transition(t)
		out[0][0] = math.Exp(root * t)
		out[1], out[2] = [3]float64{0, f[0][0], f[0][1]}, [3]float64{0, f[1][0], f[1][1]}
		return out
	}
	return disturbed{turn(step), stepNoise(turn, [3]float64{1, 0, 1}, step, drive), [3]float64{1, 0, -1}}
}

// stepNoise is the covariance that gusts add in one step: drive·∫ F(s)·kick·kickᵀ·F(s)ᵀ ds by Simpson's rule.
func stepNoise(turn func(float64) [3][3]float64, kick [3]float64, step, drive float64) (out [3][3]float64) {
	for i, weight := range [3]float64{1.0 / 6, 4.0 / 6, 1.0 / 6} {
		moved := through(turn(float64(i)*step/2), kick)
		for a := range 3 {
			for b := range 3 {
				out[a][b] += float64(weight * drive * step * moved[a] * moved[b])
			}
		}
	}
	return out
}

// through is m·x.
func through(m [3][3]float64, x [3]float64) (out [3]float64) {
	for i, row := range m {
		out[i] = float64(row[0]*x[0]) + float64(row[1]*x[1]) + float64(row[2]*x[2])
	}
	return out
}

// whiten runs the Kalman filter over every column at once; they come back as innovations of unit variance. The sum of the logarithms
// of their variances is returned. The first sample starts from the motion that is fitted, whatever gusts did before.
//
// Source: A. C. Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, section 3.4 (from memory).
func (d disturbed) whiten(columns [][]float64) (logarithms float64) {
	h := d.reach
	states := make([][3]float64, len(columns))
	var p [3][3]float64
	for i := range columns[0] {
		if i > 0 {
			p = d.propagated(p)
		}
		ph := through(p, h)
		variance := h[0]*ph[0] + h[1]*ph[1] + h[2]*ph[2] + 1
		size, gain := 1/math.Sqrt(variance), [3]float64{ph[0] / variance, ph[1] / variance, ph[2] / variance}
		logarithms += math.Log(variance)
		for j, column := range columns {
			x := states[j]
			if i > 0 {
				x = through(d.turn, x)
			}
			innovation := column[i] - float64(h[0]*x[0]) - float64(h[1]*x[1]) - float64(h[2]*x[2])
			column[i] = innovation * size
			states[j] = [3]float64{x[0] + float64(gain[0]*innovation), x[1] + float64(gain[1]*innovation), x[2] + float64(gain[2]*innovation)}
		}
		for a := range 3 {
			for b := range 3 {
				p[a][b] -= float64(ph[a] * gain[b])
			}
		}
	}
	return logarithms
}

// propagated is F·P·Fᵀ + Q.
func (d disturbed) propagated(p [3][3]float64) [3][3]float64 {
	out := d.noise
	for i := range 3 {
		moved := through(p, d.turn[i]) // P is symmetric: this is row i of F·P
		for j := range 3 {
			out[i][j] += float64(moved[0]*d.turn[j][0]) + float64(moved[1]*d.turn[j][1]) + float64(moved[2]*d.turn[j][2])
		}
	}
	return out
}
