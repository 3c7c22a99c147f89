package estimate

import (
	"fmt"

	"wingproof/flightlog/statistic"
)

// LiftCurveSlope is the untrimmed dCL/dα [1/rad], elevator held.
//
// In trim at one CG the elevator moves with angle of attack and the two cannot be told apart. From
// CL = CL0 + CL_α·α + CL_δe·δe follows, for the slopes with CL of every trimmed flight,
//
//	dα/dCL = A + B·dδe/dCL,   A = 1/CL_α,   B = −CL_δe/CL_α.
//
// Both slopes go linearly with CG, so A is what dα/dCL comes to at the neutral point, where dδe/dCL vanishes. dδe/dCL has errors of its
// own, and with few flights its course is not known well, so no standard deviation is hung on A: the interval holds every A for which some B
// leaves u = dα/dCL − A − B·dδe/dCL without a level and without a trend in CG,
//
//	min over B of  [mean(u)²/M + trend(u)²/S] / v(B)  ≤  t²,
//
// M and S the variances of mean and trend for unit variance of a flight, v(B) the variance of u between flights from the residuals about
// both lines. That set keeps its 95 % also where the CG hardly changes dδe/dCL: it then has no end, and the result is not_determined.
//
// Source: T. W. Anderson and H. Rubin, Annals of Mathematical Statistics 20, 1949, for the statistic; P. Guggenberger, F. Kleibergen,
// S. Mavroeidis and L. Chen, Econometrica 80, 2012, for its use with one parameter left over (both from memory). In two
// unknowns it is an ellipse, whose ends have closed forms.
func LiftCurveSlope(points []Point, s Systematics, pooled *Scatter) Result {
	alpha, elevator := prepare(points, alphaRelation()), prepare(points, elevatorRelation())
	r := label("lift_curve_slope", perRadian, "flight lines of angle of attack and elevator against CL, spread by CG", alpha)
	r.Warnings = append(r.Warnings, spanWords(alpha.lines)...)
	pairs := pairUp(alpha.lines, elevator.lines)
	switch {
	case len(pairs) == 0:
		return undetermined(r, "no flight holds angle of attack and elevator at two different lift coefficients: fly slow, middling and fast, trimmed, in each flight")
	case oneCG(elevatorOf(pairs)):
		return undetermined(r, "flown at one CG only: elevator and angle of attack move together and their lift cannot be told apart: fly a second CG")
	}
	sigma2, _ := within([][]line{alpha.lines})
	pairs, used, words, err := chooseSpread(pairs, sigma2, pooled.orNone())
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error())
	}
	r.Degrees = used.degrees
	set := fitPairs(pairs, used.weigh).steepness(used, statistic.StudentQuantile(r.Degrees))
	if set.Set != SetInterval {
		return undetermined(r, "elevator lift cannot be told from wing lift: "+travelWords(cgTravel(elevatorOf(pairs)), set.G))
	}
	return thin(invertedBetween(r, set.Value, set.SD, set.Low, set.High, s.perLift(set.Value, -1)))
}

// invertedBetween fills 1/x from x, the ends of its interval, its standard deviation and its sources.
func invertedBetween(r Result, x, sd, low, high float64, common map[string]float64) Result {
	if low <= 0 {
		return undetermined(r, "the change of angle of attack with CL is not clearly above zero: fly more flights over a wider range of speeds")
	}
	inverse := map[string]float64{}
	for name, v := range common {
		inverse[name] = -v / (x * x)
	}
	r = fill(r, 1/x, sd/(x*x), 1/high, 1/low, inverse)
	if reach := (high - low) / 2; reach > weakShare*x {
		return weaken(r, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side", 100*reach/x))
	}
	return r
}
