package estimate

import (
	"math"

	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
)

// glideScatter is how glides scatter: σ² inside flights, and the draw of vertical air, one a flight.
type glideScatter struct {
	within        float64 // σ² of a point of weight one
	withinDegrees int
	between       float64 // τ²: variance of a flight's draw
	drawDegrees   float64 // +Inf where τ is stated, not estimated
	flights       int
	warning       string
}

// estimateGlides finds σ² from the residuals inside flights and τ² from the moment equation of the flights' draws.
func estimateGlides(sets []glideSet) glideScatter {
	var out glideScatter
	sum, drawDegrees := 0.0, 0
	var fitted []glideSet
	for _, g := range sets {
		fit, err := g.withinFlights()
		if err != nil || fit.Degrees < 1 {
			continue
		}
		fitted = append(fitted, g)
		sum += fit.ResidualSS
		out.withinDegrees += fit.Degrees
		out.flights += len(g.flights)
		drawDegrees += len(g.flights) - 1
	}
	if out.withinDegrees == 0 {
		return out
	}
	out.within = sum / float64(out.withinDegrees)
	chi := func(between float64) float64 { return glideChiSquare(fitted, out.within, between) }
	out.between = solveBetween(chi, float64(out.withinDegrees+out.flights), out.within)
	out.drawDegrees = float64(drawDegrees)
	return out
}

// withStated puts a known standard deviation of the draw (m/s) in the place of the estimated one, unless the
// flights contradict it at the 99 % level.
func (s glideScatter) withStated(sets []glideSet, stated float64) glideScatter {
	if stated <= 0 || s.withinDegrees == 0 {
		return s
	}
	if !allSpeeds(fittable(sets)) {
		s.warning = "the stated vertical air is not used: some glides have no airspeed; how flights disagree stands in"
		return s
	}
	n := float64(s.flights)
	limit := float64(s.withinDegrees) + n*statistic.FisherQuantile(n, math.Inf(1))
	if glideChiSquare(fittable(sets), s.within, stated*stated) > limit {
		s.warning = "the glides disagree with one another by more than the stated vertical air allows; their own disagreement is used"
		return s
	}
	s.between, s.drawDegrees = stated*stated, math.Inf(1)
	return s
}

// glideChiSquare sums the generalised residuals of sets.
func glideChiSquare(sets []glideSet, within, between float64) float64 {
	q := 0.0
	for _, g := range sets {
		if fit, err := g.general(within, between, true); err == nil {
			q += fit.ResidualSS
		}
	}
	return q
}

// fittable keeps the sets that hold a parabola, a draw a flight, and something left over.
func fittable(sets []glideSet) []glideSet {
	var out []glideSet
	for _, g := range sets {
		if fit, err := g.withinFlights(); err == nil && fit.Degrees > 0 {
			out = append(out, g)
		}
	}
	return out
}

// solveBetween finds τ² ≥ 0 with chi(τ²) = target; chi falls with τ².
func solveBetween(chi func(float64) float64, target, unit float64) float64 {
	if unit <= 0 || chi(0) <= target {
		return 0
	}
	low, high := 0.0, unit
	for range 200 {
		if chi(high) <= target {
			break
		}
		low, high = high, 4*high
	}
	for high-low > 1e-10*high {
		if middle := (low + high) / 2; chi(middle) > target {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

func allSpeeds(sets []glideSet) bool {
	for _, g := range sets {
		if !g.speeds {
			return false
		}
	}
	return true
}

// general is the generalised least-squares fit under V = σ²·W⁻¹ + τ²·zzᵀ for each flight (z is the draught),
// by whitening: V^½ has the closed form of a rank-one change.
func (g glideSet) general(within, between float64, offset bool) (leastsquares.Fit, error) {
	rows, response, weight := g.problem(offset)
	next := 0
	for _, f := range g.flights {
		n := len(f.points)
		g.whiten(f, rows[next:next+n], response[next:next+n], weight[next:next+n], within, between)
		next += n
	}
	return leastsquares.Linear(rows, response, nil)
}

// whiten multiplies rows and response of a flight by V^(−½): with u = √W·z/σ, V = σ²·W^(−½)(I + τ²·uuᵀ)W^(−½), and
// (I + τ²·uuᵀ)^(−½) = I − (1 − 1/√(1 + τ²·|u|²))·uuᵀ/|u|². A flight that is played down counts by its share.
func (g glideSet) whiten(f flight, rows [][]float64, response, weight []float64, within, between float64) {
	n, share := len(f.points), math.Sqrt(f.share())
	u, norm := make([]float64, n), 0.0
	for j, p := range f.points {
		root := math.Sqrt(weight[j] / within)
		u[j] = root * g.draught(p)
		norm += u[j] * u[j]
		root *= share
		response[j] *= root
		for k := range rows[j] {
			rows[j][k] *= root
		}
	}
	if norm == 0 || between == 0 {
		return
	}
	shrink := (1 - 1/math.Sqrt(1+between*norm)) / norm
	project := func(get func(int) float64, set func(int, float64)) {
		dot := 0.0
		for j := range n {
			dot += u[j] * get(j)
		}
		for j := range n {
			set(j, get(j)-shrink*dot*u[j])
		}
	}
	project(func(j int) float64 { return response[j] }, func(j int, v float64) { response[j] = v })
	for k := range rows[0] {
		project(func(j int) float64 { return rows[j][k] }, func(j int, v float64) { rows[j][k] = v })
	}
}
