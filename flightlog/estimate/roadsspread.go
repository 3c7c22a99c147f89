package estimate

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// variancePart is a variance with the degrees of freedom behind it.
type variancePart struct{ variance, degrees float64 }

// satterthwaite gives the degrees of freedom of a sum of independent variances: (Σv)²/Σ(v²/degrees), at most manyDegrees.
//
// Source: F. E. Satterthwaite, Biometrics Bulletin 2, 1946 (from memory).
func satterthwaite(parts []variancePart) float64 {
	sum, under := 0.0, 0.0
	for _, p := range parts {
		sum += p.variance
		if p.variance > 0 && !math.IsInf(p.degrees, 1) {
			under += square(p.variance) / p.degrees
		}
	}
	if square(sum) >= manyDegrees*under {
		return manyDegrees
	}
	return square(sum) / under
}

// spreadTest is how far numbers lie from a model of them.
type spreadTest struct {
	chiSquare float64
	freedom   int     // numbers − parameters; 0 when nothing can be tested
	limit     float64 // of chiSquare at 95 %
}

// spread tests whether values are rows·b for some b, with a covariance that is the sum of parts of which some stand on few degrees of
// freedom. χ² = rᵀV⁻¹r over q = numbers − parameters is judged against
//
//	q·F(q, ν)·(1 + 2(q − 1)/(q(q + 2))·Σh),   ν = q(q + 2)/(3·Σh),   h = tr(P·V_part)²/degrees,
//
// P = V⁻¹ − V⁻¹X(XᵀV⁻¹X)⁻¹XᵀV⁻¹. For independent numbers about one mean tr(P·V_part) is 1 − weight, and this is Welch's test; with
// two numbers it is Satterthwaite's t. When only one part is uncertain, all else being known, the limit is q·F(q, ν) with ν = q²/h. That it holds for shared parts as well follows from the same first-order argument: the share
// tr(P·V_part)/q is how much χ² moves when a part's variance is off.
//
// Source: B. L. Welch, On the comparison of several mean values, Biometrika 38, 1951 (from memory).
func spread(values []float64, rows [][]float64, parts []errorPart) spreadTest {
	n, p := len(rows), len(rows[0])
	out := spreadTest{freedom: n - p}
	projector, ok := residualProjector(rows, total(parts))
	if out.freedom < 1 || !ok {
		return spreadTest{}
	}
	for i := range n {
		for k := range n {
			out.chiSquare += values[i] * projector.At(i, k) * values[k]
		}
	}
	out.chiSquare = math.Max(0, out.chiSquare)
	q, h, uncertain := float64(out.freedom), 0.0, 0
	for _, part := range parts {
		share := 0.0
		for i := range n {
			for k := range n {
				share += projector.At(i, k) * part.covariance[k][i]
			}
		}
		if share > 0 && !math.IsInf(part.degrees, 1) {
			h += square(share) / part.degrees
			uncertain++
		}
	}
	if uncertain == 1 {
		out.limit = q * fisher95(q, square(q)/h)
		return out
	}
	out.limit = q * fisher95(q, q*(q+2)/(3*h)) * (1 + 2*(q-1)/(q*(q+2))*h)
	return out
}

// residualProjector is V⁻¹ − V⁻¹X(XᵀV⁻¹X)⁻¹XᵀV⁻¹.
func residualProjector(rows, covariance [][]float64) (*mat.Dense, bool) {
	n, p := len(rows), len(rows[0])
	var all []int
	x := mat.NewDense(n, p, nil)
	for i, row := range rows {
		all = append(all, i)
		x.SetRow(i, row)
	}
	inverse, ok := inverseOf(covariance, all)
	if !ok {
		return nil, false
	}
	var ix, normal, solved, hat mat.Dense
	ix.Mul(inverse, x)
	normal.Mul(x.T(), &ix)
	if solved.Solve(&normal, ix.T()) != nil {
		return nil, false
	}
	hat.Mul(&ix, &solved)
	out := mat.NewDense(n, n, nil)
	out.Sub(inverse, &hat)
	return out, true
}

// fisher95 is the 95 % quantile of the F distribution; many or unbounded degrees below give χ² over degrees.
func fisher95(d1, d2 float64) float64 {
	if !(d2 < 1e6) {
		return distuv.ChiSquared{K: d1}.Quantile(0.95) / d1
	}
	return distuv.F{D1: d1, D2: math.Max(d2, 0.5)}.Quantile(0.95)
}
