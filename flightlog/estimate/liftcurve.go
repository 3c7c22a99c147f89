package estimate

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// weakShare is the half-length of a 95 % interval, relative to the value, from which a slope is called weak.
const weakShare = 0.25

// weakAlpha is the same for an angle of attack: two degrees.
const weakAlpha = 2 * math.Pi / 180

// TrimmedLiftCurve gives the slope dCL/dα [1/rad] and the angle of attack at CL 0 [rad] of steady flight, in
// which the elevator moves along, at a stated cg (full-size m aft of datum).
//
// Each flight's α(CL) is one line, because α carries the large errors (a flight's draw of vertical air tilts its
// whole line) and CL small ones, which are corrected for; slope and zero-lift angle go linearly with CG where
// several were flown. The linear range is found by the data (see Result.Warnings). pooled may be nil.
func TrimmedLiftCurve(points []Point, cg float64, s Systematics, pooled *Scatter) (slope, zeroLiftAlpha Result) {
	data := prepare(points, alphaRelation())
	words := spanWords(data.lines)
	slope = label("trimmed_lift_curve_slope", "1/rad", "flight lines of angle of attack against CL, elevator moving along", data)
	zeroLiftAlpha = label("zero_lift_alpha", "rad", "flight lines of angle of attack against CL, elevator moving along", data)
	slope.Warnings = append(slope.Warnings, words...)
	zeroLiftAlpha.Warnings = append(zeroLiftAlpha.Warnings, words...)
	if !allFinite(cg) {
		const reason = "the CG to evaluate at is not a finite number"
		return undetermined(slope, reason), undetermined(zeroLiftAlpha, reason)
	}
	slope.CG, slope.HasCG = cg, true
	zeroLiftAlpha.CG, zeroLiftAlpha.HasCG = cg, true
	return slopeAt(slope, data.lines, cg, s, pooled), zeroLiftAt(zeroLiftAlpha, data.lines, cg, s, pooled)
}

// slopeAt inverts dα/dCL at the CG.
func slopeAt(r Result, lines []line, cg float64, s Systematics, pooled *Scatter) Result {
	l, used, words, err := regress(lines, slopeTarget, pooled.orNone().alphaSlope)
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error())
	}
	r.Degrees = used.degrees
	steepness, sd := l.at(cg)
	common := s.withCG(s.perLift(steepness, -1), l.perCG(), cg-l.centre)
	return thin(inverted(atCG(r, l, lines, cg), steepness, sd, common))
}

// inverted fills 1/x from x, its standard deviation and its sources.
func inverted(r Result, x, sd float64, common map[string]float64) Result {
	reach := statistic.StudentQuantile(r.Degrees) * sd
	if x-reach <= 0 {
		return undetermined(r, "the change of angle of attack with CL is not clearly above zero: fly more flights over a wider range of speeds")
	}
	inverse := map[string]float64{}
	for name, v := range common {
		inverse[name] = -v / (x * x)
	}
	r = fill(r, 1/x, sd/(x*x), 1/(x+reach), 1/(x-reach), inverse)
	if reach > weakShare*x {
		return weaken(r, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side", 100*reach/x))
	}
	return r
}

func zeroLiftAt(r Result, lines []line, cg float64, s Systematics, pooled *Scatter) Result {
	l, used, words, err := regress(lines, valueTarget(0), pooled.orNone().zeroLiftAlpha)
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error())
	}
	r.Degrees = used.degrees
	alpha, sd := l.at(cg)
	common := s.withCG(map[string]float64{SourceAlpha: s.Alpha}, l.perCG(), cg-l.centre)
	r = fillStudent(atCG(r, l, lines, cg), alpha, sd, common)
	if r.High != nil && *r.High-*r.Low > 2*weakAlpha {
		r = weaken(r, "the 95 % interval reaches 2 degrees or more to either side")
	}
	return thin(r)
}

// atCG warns where the evaluation leaves the CGs that were flown.
func atCG(r Result, l lineInCG, lines []line, cg float64) Result {
	asked := numbers(lines, slopeTarget)
	travel := cgTravel(asked)
	outside := math.Abs(cg-l.centre) > travel/2+math.Max(0.5*travel, sameCG)
	if l.single && outside {
		r.Warnings = append(r.Warnings, fmt.Sprintf("flown at one CG only (%s): the change with CG to %s is left out", millimetres(l.centre), millimetres(cg)))
	} else if outside {
		r.Warnings = append(r.Warnings, fmt.Sprintf("the CG of %s lies well outside the %s of travel that was flown", millimetres(cg), millimetres(travel)))
	}
	return r
}
