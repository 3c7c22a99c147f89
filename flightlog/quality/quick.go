package quality

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// latest is by how many cells a response may lag behind its control.
const latest = 4

// lagged is a series as it was latest cells ago, and how it differed from that later on, up to now. Of a fit to all of them the first
// coefficient is the sum over the delays.
func lagged(v []float64) [][]float64 {
	out := make([][]float64, 1+latest)
	for k := range out {
		out[k] = missing(len(v))
	}
	for i := latest; i < len(v); i++ {
		out[0][i] = v[i-latest]
		for k := range latest {
			out[1+k][i] = v[i-k] - v[i-latest]
		}
	}
	return out
}

// change is how fast a series changes, per second, from the cells on either side.
func change(v []float64) []float64 {
	out := missing(len(v))
	for i := 1; i+1 < len(v); i++ {
		out[i] = (v[i+1] - v[i-1]) / (2 * cell)
	}
	return out
}

// pushing is what a control's quick movements push with: the angle times the dynamic pressure over its usual value.
func (e *evidence) pushing(control flightlog.Quantity) []float64 {
	out := quickPart(e.s.values[control])
	const k = 5 // cells: airspeed changes slowly against a control
	speed := e.speed(k)
	var inAir []float64
	for b, v := range speed {
		if e.s.inFlight(b, k) && !math.IsNaN(v) {
			inAir = append(inAir, v)
		}
	}
	usual := statistic.Median(inAir)
	if !(usual > 0) {
		return out
	}
	for i := range out {
		if v := speed[min(i/k, len(speed)-1)]; !math.IsNaN(v) {
			out[i] *= math.Max(0.2, math.Min(5, v*v/(usual*usual)))
		}
	}
	return out
}

// spreadInAir is the root mean square of a quick part in flight.
func (e *evidence) spreadInAir(v []float64) float64 {
	squares, n := 0.0, 0
	for i, x := range v {
		if e.s.flying[i] && !math.IsNaN(x) {
			squares += x * x
			n++
		}
	}
	return math.Sqrt(squares / math.Max(1, float64(n)))
}

// quickPart is a series less its mean over half a second on either side.
func quickPart(v []float64) []float64 {
	const side = 5 // cells
	out := missing(len(v))
	sum, bad := 0.0, 0
	add := func(x, sign float64) {
		if math.IsNaN(x) {
			bad += int(sign)
			return
		}
		sum += sign * x
	}
	for i := range v {
		add(v[i], 1)
		if i >= 2*side+1 {
			add(v[i-2*side-1], -1)
		}
		if m := i - side; i >= 2*side && bad == 0 {
			out[m] = v[m] - sum/(2*side+1)
		}
	}
	return out
}

// slipping is the velocity along Y in cells, good for its quick part; nil without a yaw rate or anything that tells the bank.
func (e *evidence) slipping() []float64 {
	bank := e.s.values[flightlog.RollAngle]
	if bank == nil {
		bank = leaned(e.s.values[flightlog.RollRate])
	}
	if bank == nil || !e.s.has(flightlog.YawRate) {
		return nil
	}
	return e.sideMotion(bank)
}

// leaned is a rate integrated with a leak of two seconds and a half, which keeps what goes on within one; nil without a rate.
func leaned(rate []float64) []float64 {
	if rate == nil {
		return nil
	}
	const leak = 2.5 // s
	out := make([]float64, len(rate))
	now := 0.0
	for i, x := range rate {
		if math.IsNaN(x) {
			now = 0
		} else {
			now += (x - now/leak) * cell
		}
		out[i] = now
	}
	return out
}
