package leastsquares

import (
	"fmt"
)

// ClusterCovariance is the sandwich covariance of a fit whose rows are independent only between clusters
// (flights):
//
//	c·(XᵀWX)⁻¹·(Σ_g X_gᵀW_g r_g r_gᵀW_g X_g)·(XᵀWX)⁻¹,   c = G/(G−1)·(n−1)/(n−p),
//
// the small-sample factor for G clusters, n rows and p parameters; a row of weight 0 counts as absent, and so does a
// cluster of such rows. It needs more clusters than parameters, and is too short with fewer than some thirty.
//
// Source: A. C. Cameron and D. L. Miller, A Practitioner's Guide to Cluster-Robust Inference, J. Human
// Resources 50, 2015, section II (from memory).
func ClusterCovariance(fit Fit, rows [][]float64, weight []float64, cluster []string) ([][]float64, error) {
	n, p := len(rows), len(fit.Coefficients)
	if len(cluster) != n || len(fit.Residuals) != n || (weight != nil && len(weight) != n) {
		return nil, fmt.Errorf("%d rows, %d clusters, %d residuals, %d weights: lengths must agree", n, len(cluster), len(fit.Residuals), len(weight))
	}
	scores, groups := clusterScores(fit, rows, weight, cluster)
	if groups <= p {
		return nil, fmt.Errorf("%d clusters for %d parameters; more clusters than parameters are needed: %w", groups, p, ErrUndetermined)
	}
	meat := square(p)
	for i := range p {
		for j := range p {
			for _, s := range scores {
				meat[i][j] += float64(s[i] * s[j])
			}
		}
	}
	counted := float64(fit.Degrees + p)
	factor := float64(groups) / float64(groups-1) * (counted - 1) / (counted - float64(p))
	return Scaled(product(product(fit.Unscaled, meat), fit.Unscaled), factor), nil
}

// clusterScores sums w·r·x over each cluster, clusters in order of first appearance.
func clusterScores(fit Fit, rows [][]float64, weight []float64, cluster []string) ([][]float64, int) {
	index := map[string]int{}
	var scores [][]float64
	for i, row := range rows {
		if weightAt(weight, i) == 0 {
			continue
		}
		g, seen := index[cluster[i]]
		if !seen {
			g = len(scores)
			index[cluster[i]] = g
			scores = append(scores, make([]float64, len(row)))
		}
		for j, x := range row {
			scores[g][j] += float64(weightAt(weight, i) * fit.Residuals[i] * x)
		}
	}
	return scores, len(scores)
}

func product(a, b [][]float64) [][]float64 {
	out := make([][]float64, len(a))
	for i := range a {
		out[i] = make([]float64, len(b[0]))
		for j := range out[i] {
			for k := range b {
				out[i][j] += float64(a[i][k] * b[k][j])
			}
		}
	}
	return out
}
