package reconstruct

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog"
)

// Lag is how much later than its instant a satellite value is written.
type Lag struct {
	Value   float64 // s
	SD      float64 // s
	Steps   int     // changes of velocity that were compared
	Known   bool    // the flight shakes enough for an estimate
	Assumed bool    // Value is the usual one, not an estimate
}

// The lags that are tried, s. A map that took off too much gives a negative one.
const (
	lagLeast, lagMost = -0.25, 0.65
	lagCoarse         = 0.06 // the cost bends over tenths of a second
	lagFine           = 0.015
	lagHole           = 0.25 // s without samples over which acceleration is not known
	usualLag          = 0.15 // half-way between 0.1 and 0.2 s, usual of small receivers; common practice, no source
	usualLagSD        = 0.1
	lagWanted         = 0.04 // s: an sd above is no estimate: 0.04 s in a turn of 0.8 g is 0.3 m/s
)

// solve finds the lag: the least of the grid, then the bottom of a parabola about it.
func (p *lagProblem) solve() Lag {
	const usable = 50 // changes
	best, least := p.search(lagLeast, lagMost, lagCoarse)
	best, least = p.search(best-lagCoarse, best+lagCoarse, lagFine)
	const half = 0.03 // s: the cost is a parabola there
	before, after := square(p.misfit(best-half)), square(p.misfit(best+half))
	if bend := before + after - 2*least; bend > 0 {
		best += math.Max(-half, math.Min(half, half/2*(before-after)/bend))
	}
	misfit := p.misfit(best)
	lag := Lag{Value: best, Steps: len(misfit)}
	lag.SD = lagDeviation(misfit, p.misfit(best-half), p.misfit(best+half), 2*half)
	lag.Known = lag.Steps >= usable && lag.SD <= lagWanted && best > lagLeast+lagFine && best < lagMost-lagFine
	return lag
}

// search finds the least cost on a grid.
func (p *lagProblem) search(from, to, step float64) (best, least float64) {
	least = math.Inf(1)
	for i := range int(math.Round((to-from)/step)) + 1 {
		lag := from + float64(i)*step
		if c := square(p.misfit(lag)); c < least {
			best, least = lag, c
		}
	}
	return best, least
}

// misfit is what stays of the changes of velocity at a lag, axis after axis.
func (p *lagProblem) misfit(lag float64) []float64 {
	most := 0
	for _, v := range p.velocity {
		most += len(v.Time)
	}
	y, x := make([]float64, 0, most), make([][]float64, len(p.errors))
	for j := range x {
		x[j] = make([]float64, 0, most)
	}
	for k, v := range p.velocity {
		if len(p.force[k].Time) == 0 {
			continue
		}
		keep := comparable(v, p.force[k], lag)
		p.integrals(k, lag, keep, func(i int, force float64, errors []float64) {
			const wild = 4.0 // m/s: a change that no noise explains
			y = append(y, math.Max(-wild, math.Min(wild, v.Value[i]-v.Value[i-1]-force)))
			for j := range x {
				x[j] = append(x[j], errors[j])
			}
		})
	}
	return takeOut(y, x)
}

// comparable lists the samples whose change from the one before can be compared: no gap in either, and within what every lag covers.
func comparable(v flightlog.Channel, a *line, lag float64) []int {
	longest, first, last := 2.5*v.Step(), a.Time[0]+lagMost, a.Time[len(a.Time)-1]+lagLeast
	a = newLine(a.Channel) // with a place of its own, so that times rise
	keep := make([]int, 0, len(v.Time))
	for i := 1; i < len(v.Time); i++ {
		from, to := v.Time[i-1], v.Time[i]
		if to-from <= longest && from >= first && to <= last && a.whole(from-lag-lagHole/2, to-lag+lagHole/2, lagHole) {
			keep = append(keep, i)
		}
	}
	return keep
}

// integrals tells of each of some samples the integrals of acceleration and errors over the time from the sample before, a lag earlier. Samples
// mostly follow one another, and all lines of an axis have the same times: most of what is asked for is known from the sample before.
func (p *lagProblem) integrals(axis int, lag float64, samples []int, tell func(i int, force float64, errors []float64)) {
	times, lines := p.velocity[axis].Time, []*line{p.force[axis]}
	for _, r := range p.errors {
		lines = append(lines, r[axis])
	}
	before, now, change := make([]float64, len(lines)), make([]float64, len(lines)), make([]float64, len(lines))
	to := func(t float64, out []float64) {
		place := lines[0].seek(t)
		for k, l := range lines {
			out[k] = l.integralBehind(place, t)
		}
	}
	last := -1
	for _, i := range samples {
		if last != i-1 {
			to(times[i-1]-lag, before)
		}
		to(times[i]-lag, now)
		for k := range lines {
			change[k] = now[k] - before[k]
		}
		tell(i, change[0], change[1:])
		last, before, now = i, now, before
	}
}

// takeOut subtracts from y the least-squares combination of the columns x.
func takeOut(y []float64, x [][]float64) []float64 {
	n := len(x)
	left, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			left.SetSym(i, j, product(x[i], x[j]))
		}
		right.SetVec(i, product(x[i], y))
	}
	var chol mat.Cholesky
	var c mat.VecDense
	if len(y) == 0 || !chol.Factorize(left) || chol.SolveVecTo(&c, right) != nil {
		return y
	}
	for i := range y {
		for j := range n {
			y[i] -= c.AtVec(j) * x[j][i]
		}
	}
	return y
}

func product(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func square(v []float64) float64 { return product(v, v) }

// lagDeviation is the standard deviation of the least-squares lag: with slopes g_i of the misfits d_i on τ, and misfits whose
// neighbours are correlated (white noise of v makes them −1/2), var = Σ_i Σ_j g_i·g_j·cov(i−j)/(Σ g²)², neighbours up to the second.
func lagDeviation(misfit, before, after []float64, width float64) float64 {
	n := len(misfit)
	if n < 4 || len(before) != n || len(after) != n {
		return math.Inf(1)
	}
	slope := make([]float64, n)
	for i := range slope {
		slope[i] = (after[i] - before[i]) / width
	}
	squares := square(slope)
	if !(squares > 0) {
		return math.Inf(1)
	}
	own := square(misfit) / float64(n)
	sum := own * squares
	for apart := 1; apart < 3; apart++ {
		sum += 2 * product(misfit[apart:], misfit[:n-apart]) / float64(n) * product(slope[apart:], slope[:n-apart])
	}
	// neighbours may cancel to next to nothing by chance: keep a tenth of what uncorrelated misfits would give
	return math.Sqrt(math.Max(sum, 0.1*own*squares)) / squares
}
