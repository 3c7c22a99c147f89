package main

import (
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/plots"
)

// sweepFigures draws each quantity against the first size, a line for each value of the second.
func sweepFigures(p *program.Program, c condition, r *sweepResult) ([]report.NamedFigure, error) {
	var out []report.NamedFigure
	for _, quantity := range sweptQuantities() {
		first := numberOf(r.numbers(p, c, 0), quantity)
		if math.IsNaN(first.Value) {
			continue
		}
		unit, factor := drawn(first.Unit)
		size := r.sweep.ranges[0].size
		data := plots.SweepData{Quantity: quantityName(quantity), Unit: unit, Size: sizeName(size), SizeUnit: strings.Replace(size.Unit, "deg", "°", 1)}
		data.Title = capital(data.Quantity) + " against " + data.Size
		for k := range r.sweep.second() {
			data.Lines = append(data.Lines, r.line(p, c, quantity, factor, k))
		}
		if now := r.sweep.now; !slices.ContainsFunc(now, math.IsNaN) {
			data.Baseline = &plots.SweepBaseline{Size: now[0], Value: factor * numberOf(r.numbers(p, c, -1), quantity).Value}
		}
		figure, err := plots.Sweep(data)
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: quantity, Figure: figure})
	}
	return out, nil
}

// line is a quantity over the first size at value k of the second, with the error of the grid carried between the ends, where
// it was estimated.
func (r *sweepResult) line(p *program.Program, c condition, quantity string, factor float64, k int) plots.SweepLine {
	l := plots.SweepLine{}
	if len(r.sweep.ranges) > 1 {
		size, value := r.sweep.ranges[1].size, strings.Replace(short(r.sweep.ranges[1].at(k)), "-", "−", 1)
		l.Level = strings.TrimSpace(sizeName(size) + " " + value + " " + size.Unit)
		if size.Surface == r.sweep.ranges[0].size.Surface {
			l.Level = strings.TrimPrefix(l.Level, size.Surface+" ")
		}
		if size.Unit == "deg" {
			l.Level = strings.TrimSuffix(l.Level, " deg") + "°"
		}
	}
	n, step := r.sweep.ranges[0].count, r.sweep.second()
	from := numberOf(r.numbers(p, c, k), quantity).Grid
	to := numberOf(r.numbers(p, c, (n-1)*step+k), quantity).Grid
	for i := range n {
		v := numberOf(r.numbers(p, c, i*step+k), quantity).Value
		l.Curve.X, l.Curve.Y = append(l.Curve.X, r.sweep.ranges[0].at(i)), append(l.Curve.Y, factor*v)
		if math.IsNaN(from) || math.IsNaN(to) {
			continue
		}
		t := float64(i) / float64(n-1)
		half := math.Abs(factor) * ((1-t)*from + t*to)
		l.Curve.Low, l.Curve.High = append(l.Curve.Low, factor*v-half), append(l.Curve.High, factor*v+half)
	}
	return l
}
