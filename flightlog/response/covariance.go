package response

import "math"

// average gives the poles and their covariance averaged over what the strength of gusts may be. A few swings tell it within a factor of two or so, and
// both the poles and how well they are known depend on it; taken as known, it leaves intervals a tenth too short. The logarithm of
// the strength counts as equally likely everywhere before the fit, and by its restricted likelihood after it.
func (q problem) average(best found, b band) (found, [2][2]float64, error) {
	degrees := float64(len(q.values) - q.linear())
	var mean [2]float64
	var cov [2][2]float64
	total := 0.0
	for i := -3; i <= 3; i++ {
		g := gusts{best.gusts.reach, best.gusts.drive * math.Exp(0.7*float64(i))}
		if best.gusts.drive == 0 && i != 0 {
			continue
		}
		f, err := q.search(best.poles, g, b, fine)
		if err != nil {
			continue // this strength of gusts leads out of the band: it does not count
		}
		jacobian := f.slopes
		if jacobian[0] == nil {
			if jacobian, err = q.slopes(f.poles, g); err != nil {
				continue
			}
		}
		weight := math.Exp(-degrees / 2 * math.Log(f.trial.sum/best.trial.sum))
		one := f.covariance(jacobian, len(q.values)-q.linear()-2)
		x := [2]float64{f.poles.decay - best.poles.decay, f.poles.square - best.poles.square}
		for a := range 2 {
			mean[a] += float64(weight * x[a])
			for c := range 2 {
				cov[a][c] += float64(weight * (one[a][c] + float64(x[a]*x[c])))
			}
		}
		total += weight
	}
	if !(total > 0) {
		return best, cov, errLost
	}
	for a := range 2 {
		mean[a] /= total
	}
	for a := range 2 {
		for c := range 2 {
			cov[a][c] = cov[a][c]/total - float64(mean[a]*mean[c])
		}
	}
	best.poles = best.poles.plus(mean)
	return best, cov, nil
}

// covariance of decay and square, residual colour included:
//
//	(JᵀJ)⁻¹·(Σ_lag R(lag)·Σ_i J_i·J_i+lagᵀ)·(JᵀJ)⁻¹,
//
// with R the autocorrelation of its residuals. It is never below the white one.
//
// Source: E. A. Morelli and V. Klein, Determining the accuracy of aerodynamic model parameters estimated from flight test data,
// 1994 (from memory).
func (f found) covariance(jacobian [2][]float64, degrees int) [2][2]float64 {
	white := times2(inverse2(information(jacobian)), f.trial.sum/float64(degrees))
	r, n := f.trial.residuals, len(f.trial.residuals)
	var meat [2][2]float64
	for lag := range n / 5 { // longer lags are mostly chance: common practice, no source
		colour := lagged(r, r, lag) / float64(n)
		for a := range 2 {
			for b := range 2 {
				pair := lagged(jacobian[a], jacobian[b], lag)
				if lag > 0 {
					pair += lagged(jacobian[b], jacobian[a], lag)
				}
				meat[a][b] += float64(colour * pair)
			}
		}
	}
	half := inverse2(information(jacobian))
	coloured := product2(product2(half, meat), half)
	grow := [2]float64{1, 1}
	for i := range 2 {
		if ratio := coloured[i][i] / white[i][i]; ratio > 1 {
			grow[i] = math.Sqrt(ratio)
		}
	}
	for i := range 2 {
		for j := range 2 {
			white[i][j] *= grow[i] * grow[j]
		}
	}
	return white
}

// lagged is Σ a_i·b_i+lag.
func lagged(a, b []float64, lag int) float64 { return dot(a[:len(a)-lag], b[lag:]) }

func times2(a [2][2]float64, k float64) [2][2]float64 {
	for i := range a {
		for j := range a[i] {
			a[i][j] *= k
		}
	}
	return a
}

func product2(a, b [2][2]float64) (out [2][2]float64) {
	for i := range 2 {
		for j := range 2 {
			out[i][j] = float64(a[i][0]*b[0][j]) + float64(a[i][1]*b[1][j])
		}
	}
	return out
}
