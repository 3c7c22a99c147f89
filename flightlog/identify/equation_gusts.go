package identify

import (
	"fmt"
	"math"
	"strings"
)

// verticalGust is the vertical over each horizontal component of gusts near the ground. Common practice, no source.
const verticalGust = 0.5

// gustAngles is the standard deviation of the flow angle of an axis that gusts hide in each segment, rad; 0 where the flight's gusts are
// not known. Without vanes nothing on board shows them, so that the reconstructed angle lacks them.
func (g *gathered) gustAngles(samples []block) []float64 {
	out := make([]float64, len(samples))
	for i, b := range samples {
		out[i] = g.segments[i].segment.Gusts / b.airspeed
		if g.axis == Longitudinal {
			out[i] *= verticalGust
		}
	}
	return out
}

// flattening is what an unseen flow angle of variance s² does to all values: with an error in column 0 the normal equations are
// (XᵀWX + Σ w·n·s²·e₀e₀ᵀ)·θ' = XᵀWy, so that to first order
//
//	θ' − θ = −Σ w·n·s²·θ₀·(XᵀWX)⁻¹e₀.
//
// The share is what the flow angle's own derivatives lose of themselves, for each response. Models turn away from gusts, which makes
// it rather larger.
//
// Source: errors in variables as in any text on regression, for instance Fuller, Measurement Error Models, chapter 1 (from memory).
func (r *regression) flattening(angles []float64) (bias []float64, shares []float64) {
	p := len(r.columns[0])
	for a := range r.values {
		noise := 0.0
		for s, angle := range angles {
			noise += r.weights[a][s] * float64(len(r.residuals[a][s])) * angle * angle
		}
		for j := range p {
			bias = append(bias, -noise*r.values[a][0]*r.inverse[a][j][0])
		}
		shares = append(shares, noise*r.inverse[a][0][0])
	}
	return bias, shares
}

// mostFlat is the share of a slope that gusts may take before it is not worth quoting. Common practice, no source.
const mostFlat = 0.25

// flattened widens the covariance by what gusts take, which moves all values together, and says where they take too much.
func (g *gathered) flattened(r *regression, covariance [][]float64, samples []block) []string {
	why := make([]string, len(r.values))
	bias, shares := r.flattening(g.gustAngles(samples))
	addOuter(covariance, bias, 1)
	by := "angle of attack"
	if g.axis == Lateral {
		by = "sideslip"
	}
	for a, share := range shares {
		if share > mostFlat {
			why[a] = fmt.Sprintf("gusts hide too much of the %s: they take about %.0f %% off what it does; fly in calmer air or with vanes, or take it from output error",
				by, 100*math.Min(1, share))
		}
	}
	return why
}

// judgeGusts refuses the derivatives by the flow angle of which gusts take too much.
func (g *gathered) judgeGusts(derivatives []Derivative, why []string) {
	terms := len(axisTerms(g.axis))
	for a, w := range why {
		if d := &derivatives[a*terms]; w != "" && (d.Determined || strings.HasPrefix(d.Why, tooLittle)) {
			d.Determined, d.Why = false, w
		}
	}
}
