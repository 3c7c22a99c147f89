package main

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
	"wingproof/plots"
)

// trimLine is the weighted straight line through the trim slopes, drawn on to the neutral point, with its 95 % band: what the slopes
// have of their own, taken as independent, and what all flights share.
func trimLine(f study.Fit) plots.Curve {
	t := f.TrimSlopes
	if len(t.Slope) < 2 || f.NeutralPoint.Value == nil {
		return plots.Curve{}
	}
	rows, weights := make([][]float64, len(t.CG)), make([]float64, len(t.CG))
	for i, cg := range t.CG {
		rows[i], weights[i] = []float64{1, cg - t.CG[0]}, 1/t.Covariance[i][i]
	}
	line, err := leastsquares.Linear(rows, t.Slope, weights)
	if err != nil {
		return plots.Curve{}
	}
	shared := sharedLines(t, rows, weights)
	var out plots.Curve
	from, to := t.CG[0], math.Max(t.CG[len(t.CG)-1], *f.NeutralPoint.Value)
	const steps = 8
	for i := range steps + 1 {
		x := from + (to-from)*float64(i)/steps
		row := []float64{1, x - t.CG[0]}
		y, half := along(line.Coefficients, row), bandAt(line.Unscaled, shared, row, t.Degrees)
		out.X, out.Y, out.Low, out.High = append(out.X, x), append(out.Y, y), append(out.Low, y-half), append(out.High, y+half)
	}
	return out
}

// sharedLines is what one standard deviation of each shared source does to the line.
func sharedLines(t estimate.TrimSlopes, rows [][]float64, weights []float64) [][]float64 {
	var sources []string
	for source := range t.Common {
		sources = append(sources, source)
	}
	slices.Sort(sources)
	var out [][]float64
	for _, source := range sources {
		if shift, err := leastsquares.Linear(rows, t.Common[source], weights); err == nil {
			out = append(out, shift.Coefficients)
		}
	}
	return out
}

// bandAt is half the width of the band at a row of the design.
func bandAt(covariance, shared [][]float64, row []float64, degrees float64) float64 {
	variance, systematic := 0.0, 0.0
	for a := range row {
		variance += row[a] * along(covariance[a], row)
	}
	for _, shift := range shared {
		systematic += along(shift, row) * along(shift, row)
	}
	return math.Hypot(statistic.StudentQuantile(degrees)*math.Sqrt(variance), evidence.Normal95*math.Sqrt(systematic))
}

func along(coefficients, row []float64) float64 {
	sum := 0.0
	for i, c := range coefficients {
		sum += c * row[i]
	}
	return sum
}
