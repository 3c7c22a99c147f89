package estimate

import "math"

// The three shapes of a Fieller set: everything between Low and High; everything but what lies between
// them; every number there is.
const (
	SetInterval = "interval"
	SetOutside  = "outside"
	SetAll      = "all"
)

// Fieller is the confidence set of a ratio of two estimates.
type Fieller struct {
	Value     float64 // numerator/denominator
	SD        float64 // first-order (delta method) standard deviation
	Low, High float64 // bounds of the set, or of the gap when Set is outside; NaN when Set is all
	Set       string  // interval, outside or all
	G         float64 // (t·sd/value)² of the denominator; from 1 on the set is unbounded
}

// FiellerSet is the set of ratios x for which a − x·b lies within t standard deviations of zero:
//
//	(a − x·b)² ≤ t²·(vaa − 2x·vab + x²·vbb).
//
// a and b are the estimates of numerator and denominator, vaa, vab and vbb their covariance, t the quantile
// of Student's t. It never fails: a denominator that may be zero gives an unbounded set, and says so.
//
// Source: F. A. Graybill and H. K. Iyer, Regression Analysis: Concepts and Applications, ch. 6 (inverse
// regression is the same set).
func FiellerSet(a, b, vaa, vab, vbb, t float64) Fieller {
	f := Fieller{Value: a / b, G: t * t * vbb / (b * b)}
	f.SD = math.Sqrt(math.Max(0, vaa-2*f.Value*vab+f.Value*f.Value*vbb)) / math.Abs(b)
	// A·x² − 2B·x + C ≤ 0
	A, B, C := b*b-t*t*vbb, a*b-t*t*vab, a*a-t*t*vaa
	disc := B*B - A*C
	switch {
	case !allFinite(a, b, vaa, vab, vbb, t) || (A <= 0 && disc < 0) || A == 0:
		f.Set, f.Low, f.High = SetAll, math.NaN(), math.NaN()
		return f
	case A > 0:
		f.Set = SetInterval
	default:
		f.Set = SetOutside
	}
	root := math.Sqrt(math.Max(0, disc))
	f.Low, f.High = (B-root)/A, (B+root)/A
	if f.Low > f.High {
		f.Low, f.High = f.High, f.Low
	}
	return f
}
