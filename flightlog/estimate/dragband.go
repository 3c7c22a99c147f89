package estimate

import (
	"math"
	"slices"
)

// PolarBand is a drag polar with its pointwise 95 % band, for a figure. All slices share one length.
type PolarBand struct {
	Lift     []float64
	Drag     []float64
	Low      []float64
	High     []float64
	LiftFrom float64 // range of CL that the glides hold; the curve beyond it is drawn out
	LiftTo   float64
	Warnings []string // why the band is empty, when it is
}

// DragBand gives the polar of DragPolar (same fit, same arguments) at the given lift coefficients, with the band
// that the drag at each of them lies in with 95 %: from the full covariance of CDmin, k and CL_m, shared errors
// included. At CL 0 it is the interval of zero_lift_drag. Lift coefficients that are no finite numbers are passed
// over; the band is empty, with a warning, where the polar is not determined.
func DragBand(points []Point, s Systematics, pooled *Scatter, lifts []float64) PolarBand {
	g, fit := fitPolar(prepareGlides(points), s, pooled)
	out := PolarBand{Warnings: slices.Clone(g.warnings)}
	if fit.warning != "" {
		out.Warnings = append(out.Warnings, fit.warning)
	}
	switch {
	case fit.reason != "":
		out.Warnings = append(out.Warnings, fit.reason)
		return out
	case fit.coefficient[2] <= 0:
		out.Warnings = append(out.Warnings, noRise)
		return out
	}
	out.LiftFrom, out.LiftTo = math.Inf(1), math.Inf(-1)
	for _, p := range g.points {
		out.LiftFrom, out.LiftTo = math.Min(out.LiftFrom, p.Lift), math.Max(out.LiftTo, p.Lift)
	}
	for _, lift := range lifts {
		_, degrees, low, high := fit.spread(at(lift))
		r := fill(Result{Degrees: degrees}, fit.value(at(lift)), 0, low, high, fit.commonAt(lift, s))
		if r.State != Determined {
			continue
		}
		out.Lift, out.Drag = append(out.Lift, lift), append(out.Drag, *r.Value)
		out.Low, out.High = append(out.Low, *r.Low), append(out.High, *r.High)
	}
	return out
}
