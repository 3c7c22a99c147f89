package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// controlTrust is the partial correlation from which on the answer to a control is believed: common practice, no source;
// tried on rehearsed flights of steady cards and of inputs, where it never named a wrong side.
const controlTrust = 0.3

// weighControl compares a control with what the model does: the elevator of a foreplane raises the nose with its trailing edge down,
// the aileron rolls right, a rudder's trailing edge left yaws the nose left.
func (d *draft) weighControl(g *Guess, q Quantity, i int) {
	r, moves := d.answer(q, d.si(i, q, *g))
	if math.Abs(r) < controlTrust {
		return
	}
	if g.pulses || !g.Mapped {
		direction := "longer pulses"
		if !g.pulses {
			direction = "larger numbers"
		}
		side := "positive"
		if r < 0 {
			side = "negative"
		}
		g.Why += fmt.Sprintf("; in this log %s go with the %s (correlation %.2f), so their angles come out %s", direction, moves, r, side)
		return
	}
	if r > 0 {
		g.confirm(1, fmt.Sprintf("positive goes with the %s (correlation %.2f)", moves, r))
		return
	}
	g.turn(math.Min(r, -0.5), fmt.Sprintf("positive goes against the %s (correlation %.2f), so the sign is turned", moves, r))
}

// answer is the partial correlation of a control with the angular acceleration that a positive deflection gives; 0 when the
// log does not tell. Damping, and the force that goes with the angle of attack or sideslip, are taken out.
func (d *draft) answer(q Quantity, control []float64) (r float64, moves string) {
	const half = 0.1 // s: an input lasts half a second
	rate, force, sign := PitchRate, DownAcceleration, 1.0
	moves = "nose rising"
	switch q {
	case Aileron:
		rate, force, moves = RollRate, RightAcceleration, "right wing going down"
	case RudderLeft, RudderRight:
		rate, force, sign, moves = YawRate, RightAcceleration, -1, "nose going left"
	}
	if !d.oriented(rate) {
		return 0, ""
	}
	turning := d.series(rate)
	acceleration := d.grid.slope(turning, half)
	known := [][]float64{d.grid.smooth(turning, half)}
	if f := d.series(force); f != nil {
		known = append(known, d.grid.smooth(f, half))
	}
	if other := d.series(Aileron); other != nil && rate == YawRate {
		known = append(known, d.grid.smooth(other, half))
	}
	r, moved := partial(acceleration, d.grid.smooth(control, half), known)
	if moved < 1e-3 {
		return 0, ""
	}
	return sign * r, moves
}

// partial is the correlation of two series after what a third set explains is taken out of both, and the spread of what is
// left of the second.
func partial(y, x []float64, known [][]float64) (r, moved float64) {
	var rows [][]float64
	for i := range min(len(y), len(x)) {
		row := []float64{y[i], x[i]}
		ok := statistic.Finite(y[i]) && statistic.Finite(x[i])
		for _, k := range known {
			row = append(row, k[i])
			ok = ok && statistic.Finite(k[i])
		}
		if ok {
			rows = append(rows, row)
		}
	}
	if len(rows) < gridLeast {
		return 0, 0
	}
	columns := make([][]float64, 2+len(known))
	for k := range columns {
		columns[k] = make([]float64, len(rows))
		for i, row := range rows {
			columns[k][i] = row[k]
		}
		centre(columns[k])
	}
	// Gram–Schmidt: each known series is freed of those before it, then taken out of y and x
	for k := 2; k < len(columns); k++ {
		for _, target := range append([]int{0, 1}, after(k, len(columns))...) {
			takeOut(columns[target], columns[k])
		}
	}
	return statistic.Correlation(columns[1], columns[0]), spread(columns[1])
}

func after(k, n int) []int {
	var out []int
	for j := k + 1; j < n; j++ {
		out = append(out, j)
	}
	return out
}

func centre(x []float64) {
	mean := 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for i := range x {
		x[i] -= mean
	}
}

// takeOut removes from y what goes along x.
func takeOut(y, x []float64) {
	var xx, xy float64
	for i := range x {
		xx += x[i] * x[i]
		xy += x[i] * y[i]
	}
	if xx == 0 {
		return
	}
	for i := range x {
		y[i] -= xy / xx * x[i]
	}
}
