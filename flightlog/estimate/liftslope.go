package estimate

import (
	"fmt"
	"math"

	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
)

// LiftCurveSlope is the untrimmed dCL/dα [1/rad], elevator held.
//
// In trim at one CG the elevator moves with angle of attack and the two cannot be told apart. From
// CL = CL0 + CL_α·α + CL_δe·δe follows, for the slopes with CL of every trimmed flight,
//
//	dα/dCL = 1/CL_α − (CL_δe/CL_α)·dδe/dCL,
//
// a line across flights at different CGs whose value at dδe/dCL = 0 (CG at the neutral point) is 1/CL_α. Since
// dδe/dCL has its own errors, its course with CG is used in its place (two-stage least squares; CG is the
// instrument). Where the CG spread does not clearly change dδe/dCL the result is not_determined.
//
// Source: W. H. Greene, Econometric Analysis, chapter on instrumental variables (from memory).
func LiftCurveSlope(points []Point, s Systematics, pooled *Scatter) Result {
	alpha, elevator := prepare(points, alphaRelation()), prepare(points, elevatorRelation())
	r := label("lift_curve_slope", "1/rad", "flight lines of angle of attack and elevator against CL, spread by CG (two-stage least squares)", alpha)
	first, used, words, err := regress(elevator.lines, slopeTarget, pooled.orNone().elevatorSlope)
	r.Warnings = append(r.Warnings, words...)
	switch {
	case err != nil:
		return undetermined(r, err.Error())
	case len(first.coefficients) < 2:
		return undetermined(r, "flown at one CG only: elevator and angle of attack move together and their lift cannot be told apart; a second CG would do")
	}
	g := square(statistic.StudentQuantile(used.degrees)) * first.covariance[1][1] / square(first.coefficients[1])
	if !(g <= weakG) {
		return undetermined(r, "elevator lift cannot be told from wing lift: "+travelWords(cgTravel(numbers(elevator.lines, slopeTarget)), g))
	}
	scatter := componentOf([][]line{alpha.lines}, slopeTarget)
	if pool := pooled.orNone().alphaSlope; pool.degrees > scatter.degrees {
		scatter = pool
	}
	own, err := secondStage(alpha.lines, elevator.lines, scatter)
	if err != nil {
		return undetermined(r, err.Error())
	}
	factor, degrees := own.chiSquare, own.degrees
	if pooled != nil {
		if q, d := pooled.secondStages(scatter); d > degrees {
			factor, degrees = q, d
		}
	}
	if degrees < 1 {
		return undetermined(r, fmt.Sprintf("%s leave no degree of freedom; more flights, or scatter pooled over configurations, would do", count(own.flights, "flight")))
	}
	r.Degrees = float64(degrees)
	sd := own.sd(factor / float64(degrees))
	return thin(inverted(r, own.steepness, sd, s.perLift(own.steepness, -1)))
}

// stage is the second of the two stages of one configuration.
type stage struct {
	steepness float64 // 1/CL_α
	unscaled  float64
	chiSquare float64
	degrees   int
	flights   int
}

// secondStage regresses dα/dCL on the fitted course of dδe/dCL; the residuals are those of the slopes that were really flown.
func secondStage(alpha, elevator []line, scatter component) (stage, error) {
	a, e := paired(numbers(alpha, slopeTarget), numbers(elevator, slopeTarget))
	first, err := fitInCG(e, func(number) float64 { return 1 })
	if err != nil || len(first.coefficients) < 2 {
		return stage{}, fmt.Errorf("no flights at two CGs hold both angle of attack and elevator: %w", leastsquares.ErrUndetermined)
	}
	var rows [][]float64
	var response, weight []float64
	for i, n := range a {
		course := first.coefficients[0] + first.coefficients[1]*(e[i].cg-first.centre)
		rows = append(rows, []float64{1, course})
		response = append(response, n.value)
		weight = append(weight, 1/scatter.variance(n))
	}
	fit, err := leastsquares.Linear(rows, response, weight)
	if err != nil {
		return stage{}, err
	}
	out := stage{steepness: fit.Coefficients[0], unscaled: fit.Unscaled[0][0], degrees: len(a) - 2, flights: len(a)}
	for i, n := range a {
		out.chiSquare += weight[i] * square(n.value-fit.Coefficients[0]-fit.Coefficients[1]*e[i].value)
	}
	return out, nil
}

// paired keeps the flights that both lists hold, in the order of the first.
func paired(a, e []number) (first, second []number) {
	for _, n := range a {
		for _, m := range e {
			if m.flight == n.flight && m.cg == n.cg {
				first, second = append(first, n), append(second, m)
				break
			}
		}
	}
	return first, second
}

// secondStages sums Σ r²/v and degrees over all configurations.
func (s *Scatter) secondStages(scatter component) (chiSquare float64, degrees int) {
	for i := range s.alpha {
		one, err := secondStage(s.alpha[i], s.elevator[i], scatter)
		if err != nil {
			continue
		}
		chiSquare += one.chiSquare
		degrees += one.degrees
	}
	return chiSquare, degrees
}

func (s stage) sd(factor float64) float64 { return math.Sqrt(s.unscaled * factor) }
