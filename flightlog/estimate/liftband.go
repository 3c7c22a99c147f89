package estimate

import (
	"math"
	"slices"

	"wingproof/flightlog/statistic"
)

// Band is a lift curve with its pointwise 95 % band, for a figure. All slices share one length.
type Band struct {
	Alpha    []float64 // rad
	Lift     []float64
	Low      []float64
	High     []float64
	CG       float64 // full-size m aft of datum
	LiftFrom float64 // range of CL that the data hold; the line beyond it is drawn out
	LiftTo   float64
	Warnings []string // why the band is empty, when it is
}

// LiftBand gives the trimmed lift curve at a CG over the given angles of attack, with the band that each
// point of it lies in with 95 %, shared errors included. The band is empty, with a warning, where the lift
// curve is not determined.
func LiftBand(points []Point, cg float64, s Systematics, pooled *Scatter, alphas []float64) Band {
	out := Band{CG: cg}
	data := prepare(points, alphaRelation())
	l, _, words, err := regress(data.lines, slopeTarget, pooled.orNone().alphaSlope)
	out.Warnings = append(slices.Clone(data.warnings), words...)
	if err != nil || !allFinite(cg) {
		return out.empty("the lift curve is not determined")
	}
	steepness, _ := l.at(cg)
	if !(steepness > 0) {
		return out.empty("angle of attack does not rise with CL")
	}
	out.LiftFrom, out.LiftTo = math.Inf(1), math.Inf(-1)
	for _, p := range data.points {
		out.LiftFrom, out.LiftTo = math.Min(out.LiftFrom, p.Lift), math.Max(out.LiftTo, p.Lift)
	}
	middle := (out.LiftFrom + out.LiftTo) / 2
	centre, _, _, err := regress(data.lines, valueTarget(middle), componentOf(pooled.orNone().alpha, valueTarget(middle)))
	if err != nil {
		return out.empty("the lift curve is not determined")
	}
	alphaAtMiddle, _ := centre.at(cg)
	for _, alpha := range alphas {
		lift := middle + (alpha-alphaAtMiddle)/steepness
		half, ok := halfBand(data.lines, lift, cg, steepness, s, pooled)
		if !ok {
			continue
		}
		out.Alpha, out.Lift = append(out.Alpha, alpha), append(out.Lift, lift)
		out.Low, out.High = append(out.Low, lift-half), append(out.High, lift+half)
	}
	return out
}

// halfBand is the 95 % reach in CL of the line at one point: that of α at this CL, over dα/dCL.
func halfBand(lines []line, lift, cg, steepness float64, s Systematics, pooled *Scatter) (float64, bool) {
	if !allFinite(lift) {
		return 0, false
	}
	l, used, _, err := regress(lines, valueTarget(lift), componentOf(pooled.orNone().alpha, valueTarget(lift)))
	if err != nil {
		return 0, false
	}
	_, sd := l.at(cg)
	common := s.perLift(steepness*lift, -1)
	common[SourceAlpha] = s.Alpha
	common = s.withCG(common, l.perCG(), cg-l.centre)
	return math.Hypot(statistic.StudentQuantile(used.degrees)*sd, statistic.Normal975*commonSD(common)) / steepness, true
}

func (b Band) empty(reason string) Band {
	b.Alpha, b.Lift, b.Low, b.High = nil, nil, nil, nil
	b.Warnings = append(b.Warnings, reason)
	return b
}
