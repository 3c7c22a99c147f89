package identify

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"wingproof/flightlog/leastsquares"
)

// road is one way of turning segments into a fit.
type road struct {
	method string
	rows   func([]block) []block         // what is regressed
	spread func(*regression) [][]float64 // covariance of the values
	traces bool                          // the rows are samples that can be shown over time
}

// fit regresses and draws up the result.
func (g *gathered) fit(way road) (Fit, error) {
	samples := g.blocks(asReported())
	rows := way.rows(samples)
	used := movedColumns(samples, axisTerms(g.axis))
	x := describe(rows, samples, used, g.axis)
	r, err := regress(narrowed(rows, used))
	if errors.Is(err, leastsquares.ErrUndetermined) {
		return Fit{}, fmt.Errorf("identify: %s: %w", x.summary(), err)
	}
	if err != nil {
		return Fit{}, err
	}
	covariance := way.spread(&r)
	gusty := make([]string, len(r.values))
	if way.traces {
		gusty = g.flattened(&r, covariance, samples)
	}
	out := g.header(way.method, samples)
	out.Condition = x.Condition * x.Condition
	out.Derivatives = g.derivatives(&r, used, covariance)
	g.judge(out.Derivatives, &x)
	g.judgeGusts(out.Derivatives, gusty)
	out.Covariance = g.placed(covariance, used, out.Derivatives)
	out.Correlations = correlatedPairs(out.Derivatives, out.Covariance)
	g.common(out.Derivatives, &r, used, way)
	if way.traces {
		out.Histories = g.histories(&r, rows)
	}
	out.Warnings = append(append(g.lonely(), g.warnings...), x.Warnings...)
	return out, nil
}

// header is what a fit says before its numbers.
func (g *gathered) header(method string, samples []block) Fit {
	out := Fit{
		Axis: g.axis, Method: method, Flights: g.flights, Segments: len(samples), Power: g.power,
		MomentX: g.setup.MomentX, MomentZ: g.setup.MomentZ, Iterations: 1,
	}
	n := float64(len(samples))
	for _, b := range samples {
		out.LiftCoefficient += b.lift / n
		out.Airspeed += b.airspeed / n
		out.Density += b.density / n
	}
	return out
}

// narrowed keeps the columns that are used.
func narrowed(blocks []block, used []int) []block {
	out := make([]block, len(blocks))
	for i, b := range blocks {
		out[i] = b
		out[i].columns = make([][]float64, len(used))
		for k, j := range used {
			out[i].columns[k] = b.columns[j]
		}
	}
	return out
}

// derivatives lists all derivatives of the axis, response by response; the regression holds the used columns only.
func (g *gathered) derivatives(r *regression, used []int, covariance [][]float64) []Derivative {
	var out []Derivative
	for a, e := range axisResponses(g.axis) {
		at := make(map[int]int, len(used))
		for k, j := range used {
			at[j] = k
		}
		for j, name := range e.names {
			d := Derivative{Quantity: name}
			if k, ok := at[j]; ok {
				i := a*len(used) + k
				d.Value, d.SD, d.WhiteSD = r.values[a][k], math.Sqrt(covariance[i][i]), math.Sqrt(r.white[a][k])
				d.Determined = true
			}
			out = append(out, d)
		}
	}
	return out
}

// placed spreads the covariance of the used columns over all derivatives; what is not determined has zeros.
func (g *gathered) placed(covariance [][]float64, used []int, derivatives []Derivative) [][]float64 {
	terms, n := len(axisTerms(g.axis)), len(derivatives)
	out := zeros(n, n)
	place := func(i int) int { return i/len(used)*terms + used[i%len(used)] }
	for i := range covariance {
		for j := range covariance {
			a, b := place(i), place(j)
			if derivatives[a].Determined && derivatives[b].Determined {
				out[a][b] = covariance[i][j]
			}
		}
	}
	return out
}

// notablePair is the correlation from which two estimates are listed as moving together; 0.9 is where books call it a problem
// (Klein and Morelli, from memory).
const notablePair = 0.7

// correlatedPairs lists the pairs whose estimates move together, most first.
func correlatedPairs(derivatives []Derivative, covariance [][]float64) []Pair {
	var out []Pair
	for i := range derivatives {
		for j := range i {
			scale := math.Sqrt(covariance[i][i] * covariance[j][j])
			if scale > 0 && math.Abs(covariance[i][j]) >= notablePair*scale {
				out = append(out, Pair{One: derivatives[j].Quantity, Other: derivatives[i].Quantity, Correlation: covariance[i][j] / scale})
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return math.Abs(out[i].Correlation) > math.Abs(out[j].Correlation) })
	return out
}

// histories are the coefficients as measured and as fitted.
func (g *gathered) histories(r *regression, rows []block) []History {
	out := make([]History, len(rows))
	for s, b := range rows {
		h := History{Flight: b.flight, Kind: b.kind, Control: b.control, Start: b.start, Step: b.step, Input: b.input}
		for a, e := range axisResponses(g.axis) {
			fitted := make([]float64, len(b.responses[a]))
			for i, v := range b.responses[a] {
				fitted[i] = v - r.residuals[a][s][i]
			}
			h.Signals = append(h.Signals, Signal{
				Name: e.name, Unit: "", Measured: b.responses[a], Fitted: fitted, Autocorrelation: neighbours(r.residuals[a][s]),
			})
		}
		out[s] = h
	}
	return out
}

// neighbours is the correlation of each value with the next.
func neighbours(v []float64) float64 {
	var sum, squares float64
	for i := range v {
		squares += v[i] * v[i]
		if i > 0 {
			sum += v[i] * v[i-1]
		}
	}
	if squares == 0 {
		return 0
	}
	return sum / squares
}

// lonely warns of what one flight cannot show.
func (g *gathered) lonely() []string {
	if len(g.flights) > 1 {
		return nil
	}
	return []string{fmt.Sprintf("all input manoeuvres are from flight %s: what differs from flight to flight is not in the standard deviations; fly them on another day too", g.flights[0])}
}
