package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"

	"gonum.org/v1/gonum/stat/distuv"
)

const (
	curvatureChance = 5e-4 // two-sided chance at which a straight line is called curved
	leastRange      = 0.5  // share of the points that is kept in any case
)

// linearRange drops points from the top of the lift range where the line bends there.
//
// Inside flights (each keeps its own level, the slope may change with CG) a term in CL² is added; it counts as curvature when its t
// exceeds the 0.05 % level and it bends the line by more than the scatter of a point. Then the knee is sought: the straight line is left
// at some CL with the square of the excess, and the points above the lowest knee that the data do not reject (95 %) go. Stopping
// where curvature is no longer significant would leave the beginning of every bend in. At least half of the points stay.
func linearRange(flights []flight, r relation) ([]flight, []string) {
	total, first := countPoints(flights), math.NaN()
	for curved(flights, r) {
		knee, found := kneeOf(flights, r, int(math.Ceil(leastRange*float64(total))))
		if !found {
			return flights, []string{fmt.Sprintf("%s against CL stays curved down to CL %.2f; the straight line is an average slope", r.name, topLift(flights, 0))}
		}
		if math.IsNaN(first) {
			first = topLift(flights, 0)
		}
		flights = cutAbove(flights, knee)
	}
	if math.IsNaN(first) {
		return flights, nil
	}
	return flights, []string{fmt.Sprintf("%s against CL bends at high lift: %s between CL %.2f and %.2f left out of the straight range",
		r.name, count(total-countPoints(flights), "point"), topLift(flights, 0), first)}
}

// kneeOf is the lowest CL at which the line may begin to bend: the least sum of squares over knees at the points' own CL, and the
// lowest knee within the 95 % of it that F allows. At least keep points stay at or below it.
func kneeOf(flights []flight, r relation, keep int) (knee float64, found bool) {
	lifts := allLifts(flights)
	if keep >= len(lifts) {
		return 0, false
	}
	type candidate struct{ knee, squares, free float64 }
	var candidates []candidate
	least := math.Inf(1)
	for i := keep - 1; i < len(lifts)-1; i++ {
		if lifts[i] == lifts[i+1] {
			continue
		}
		fit, err := leastsquares.Linear(bendProblem(flights, r, func(lift float64) float64 { return square(math.Max(0, lift-lifts[i])) }))
		free := float64(fit.Degrees - len(flights))
		if err != nil || free < 1 {
			continue
		}
		candidates = append(candidates, candidate{lifts[i], fit.ResidualSS, free})
		least = math.Min(least, fit.ResidualSS)
	}
	for _, c := range candidates {
		if c.squares <= least*(1+square(statistic.StudentQuantile(c.free))/c.free) {
			return c.knee, true
		}
	}
	return 0, false
}

// allLifts are the lift coefficients of all points, sorted.
func allLifts(flights []flight) []float64 {
	var lifts []float64
	for _, f := range flights {
		for _, p := range f.points {
			lifts = append(lifts, p.Lift)
		}
	}
	slices.Sort(lifts)
	return lifts
}

// curved tests the points for a term in CL².
func curved(flights []flight, r relation) bool {
	var centre, low, high, n float64
	low, high = math.Inf(1), math.Inf(-1)
	for _, f := range flights {
		for _, p := range f.points {
			centre += p.Lift
			n++
			low, high = math.Min(low, p.Lift), math.Max(high, p.Lift)
		}
	}
	centre /= n
	fit, err := leastsquares.Linear(bendProblem(flights, r, func(lift float64) float64 { return square(lift - centre) }))
	if err != nil {
		return false
	}
	last := len(fit.Coefficients) - 1
	free := float64(fit.Degrees - len(flights)) // centring took one level a flight
	if free < 2 {
		return false
	}
	scatter := math.Sqrt(fit.ResidualSS / free)
	c := fit.Coefficients[last]
	bow := math.Abs(c) * square(high-low) / 8
	limit := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: free}.Quantile(1 - curvatureChance/2)
	return bow > scatter && math.Abs(c) > limit*scatter*math.Sqrt(fit.Unscaled[last][last])
}

// bendProblem centres y, CL, h·CL and a bend on each flight's weighted mean.
func bendProblem(flights []flight, r relation, bend func(lift float64) float64) (rows [][]float64, response, weight []float64) {
	_, slopeByCG, middle := commonSlopes(flights, r)
	for _, f := range flights {
		l := flightLine(f, r)
		mean := 0.0
		for j, p := range f.points {
			mean += f.weight[j] * bend(p.Lift) / l.weight
		}
		for j, p := range f.points {
			dx := p.Lift - l.meanLift
			row := []float64{dx, bend(p.Lift) - mean}
			if slopeByCG != 0 {
				row = []float64{dx, dx * (f.cg - middle), row[1]}
			}
			rows = append(rows, row)
			response = append(response, r.response(p)-l.mean)
			weight = append(weight, f.weight[j])
		}
	}
	return rows, response, weight
}

func countPoints(flights []flight) int {
	n := 0
	for _, f := range flights {
		n += len(f.points)
	}
	return n
}

// topLift is the lift coefficient of the point that has skip points above it.
func topLift(flights []flight, skip int) float64 {
	lifts := allLifts(flights)
	return lifts[len(lifts)-1-skip]
}

// cutAbove keeps the points up to a lift coefficient; flights without any go.
func cutAbove(flights []flight, lift float64) []flight {
	var out []flight
	for _, f := range flights {
		cut := flight{name: f.name, cg: f.cg}
		for j, p := range f.points {
			if p.Lift <= lift {
				cut.points = append(cut.points, p)
				cut.weight = append(cut.weight, f.weight[j])
			}
		}
		if len(cut.points) > 0 {
			out = append(out, cut)
		}
	}
	return out
}

// commonSlopes fits dy/dCL = b0 + b1·(h − centre) inside flights, by least squares; b1 is 0 with one CG.
func commonSlopes(flights []flight, r relation) (b0, b1, centre float64) {
	var s0, s1, s2, t0, t1 float64
	for _, f := range flights {
		centre += f.cg / float64(len(flights))
	}
	for _, f := range flights {
		l, h := flightLine(f, r), f.cg-centre
		s0 += l.sxx
		s1 += l.sxx * h
		s2 += l.sxx * h * h
		t0 += l.sxy
		t1 += l.sxy * h
	}
	if s0 == 0 {
		return 0, 0, centre
	}
	if det := s0*s2 - s1*s1; det > 1e-9*s0*s2 {
		return (t0*s2 - t1*s1) / det, (s0*t1 - s1*t0) / det, centre
	}
	return t0 / s0, 0, centre
}
