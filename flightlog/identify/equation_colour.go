package identify

import "math"

// longestColour is the time over which residuals are taken to be correlated, s: gusts pass a model within one or two seconds.
// Common practice, no source.
const longestColour = 3.0

// coloured is the covariance of all values with the colour of the residuals, also between responses: for responses a and b
//
//	C_ab = (XᵀW_aX)⁻¹·[Σ_blocks w_a·w_b·Σ_ij x_i·R_ab(j − i)·x_jᵀ]·(XᵀW_bX)⁻¹
//
// with R_ab the covariance of the residuals over time, pooled over the blocks in units of each block's scatter and tapered to zero at
// longestColour.//
// Source: Morelli and Klein, Accuracy of aerodynamic model parameters estimated from flight test data, J. Guidance, Control, and
// Dynamics 20, 1997 (from memory).
func (r *regression) coloured() [][]float64 {
	p, count := len(r.columns[0]), len(r.values)
	colour := r.colour()
	meats := make([][][][]float64, count)
	for a := range meats {
		meats[a] = make([][][]float64, count)
		for b := range meats[a] {
			meats[a][b] = zeros(p, p)
		}
	}
	for s, columns := range r.columns {
		empty := emptyColumns(columns)
		for lag := range min(len(colour[0][0]), len(columns[0])) {
			product := laggedProduct(columns, empty, lag)
			for a := range count {
				for b := range count {
					k := math.Sqrt(r.weights[a][s] * r.weights[b][s])
					addLagged(meats[a][b], product, k*colour[a][b][lag], k*colour[b][a][lag], lag)
				}
			}
		}
	}
	out := zeros(p*count, p*count)
	for a := range count {
		for b := range count {
			part := sandwich(r.inverse[a], meats[a][b], r.inverse[b])
			for i := range p {
				copy(out[a*p+i][b*p:(b+1)*p], part[i])
			}
		}
	}
	return out
}

// colour is the covariance of standardised residuals of response a with those of response b later by a lag: [a][b][lag].
func (r *regression) colour() [][][]float64 {
	count, lags, n := len(r.values), 0, 0
	for _, block := range r.residuals[0] {
		n += len(block)
		lags = max(lags, len(block))
	}
	lags = min(lags, max(1, int(math.Round(longestColour/r.step))))
	factor := 1 / (float64(n) * r.kept(n))
	out := make([][][]float64, count)
	for a := range out {
		out[a] = zeros(count, lags)
		for b := range count {
			for s := range r.residuals[a] {
				k := factor * math.Sqrt(r.weights[a][s]*r.weights[b][s])
				addCrossCovariance(out[a][b], r.residuals[a][s], r.residuals[b][s], k)
			}
			for lag := range out[a][b] {
				out[a][b][lag] *= 1 - float64(lag)/float64(lags)
			}
		}
	}
	return out
}

func addCrossCovariance(sum, one, later []float64, factor float64) {
	for lag := range min(len(sum), len(one)) {
		total := 0.0
		for i := range len(one) - lag {
			total += float64(one[i] * later[i+lag])
		}
		sum[lag] += factor * total
	}
}

// emptyColumns tells which columns hold zeros only, as those of other blocks' own unknowns do.
func emptyColumns(columns [][]float64) []bool {
	out := make([]bool, len(columns))
	for j, c := range columns {
		out[j] = inner(c, c) == 0
	}
	return out
}

// laggedProduct is Σ_i x_i·x_(i+lag)ᵀ.
func laggedProduct(columns [][]float64, empty []bool, lag int) [][]float64 {
	out := zeros(len(columns), len(columns))
	for i, one := range columns {
		for j, other := range columns {
			if empty[i] || empty[j] {
				continue
			}
			sum := 0.0
			for k, v := range other[lag:] {
				sum += float64(one[k] * v)
			}
			out[i][j] = sum
		}
	}
	return out
}

// addLagged adds a lagged product with the colour forwards, and its mirror image with the colour backwards.
func addLagged(meat, product [][]float64, forwards, backwards float64, lag int) {
	for i := range meat {
		for j := range meat {
			meat[i][j] += forwards * product[i][j]
			if lag > 0 {
				meat[i][j] += backwards * product[j][i]
			}
		}
	}
}

// sandwich is a·m·b.
func sandwich(a, m, b [][]float64) [][]float64 {
	return times(times(a, m), b)
}

func times(a, b [][]float64) [][]float64 {
	out := zeros(len(a), len(b[0]))
	for i := range a {
		for j := range out[i] {
			for k := range b {
				out[i][j] += float64(a[i][k] * b[k][j])
			}
		}
	}
	return out
}

// clustered is the covariance with blocks as the independent units, for blocks of an aircraft whose residuals nobody models:
// c·B·[Σ_blocks s·sᵀ]·B with s = w·Σ x·r, and c = G/(G − 1). See leastsquares.ClusterCovariance, which does it for one response.
func (r *regression) clustered() [][]float64 {
	p, count, groups := len(r.columns[0]), len(r.values), len(r.columns)
	out := zeros(p*count, p*count)
	for s := range r.columns {
		score := make([]float64, 0, p*count)
		for a := range count {
			raw := make([]float64, p)
			for j, c := range r.columns[s] {
				raw[j] = r.weights[a][s] * inner(r.residuals[a][s], c)
			}
			score = append(score, applied(r.inverse[a], raw)...)
		}
		addOuter(out, score, float64(groups)/math.Max(1, float64(groups-1)))
	}
	return out
}

// clusterSpare is from how many blocks beyond the columns on their scatter is worth looking at. Common practice, no source.
const clusterSpare = 8

// widened scales a covariance up where blocks scatter more than the colour of their residuals tells: per value, to the larger of both
// variances.
func (r *regression) widened(coloured [][]float64) [][]float64 {
	if len(r.columns) < len(r.columns[0])+clusterSpare {
		return coloured
	}
	clustered := r.clustered()
	out := zeros(len(coloured), len(coloured))
	factor := make([]float64, len(coloured))
	for i := range factor {
		factor[i] = math.Sqrt(math.Max(1, clustered[i][i]/coloured[i][i]))
	}
	for i := range out {
		for j := range out {
			out[i][j] = coloured[i][j] * factor[i] * factor[j]
		}
	}
	return out
}
