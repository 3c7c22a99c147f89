package reconstruct

import (
	"math"
)

// gusts are the level and the length of the changes of the wind.
type gusts struct {
	level    float64 // m/s, sd of each horizontal component
	vertical float64 // m/s, sd
	length   float64 // m, over which correlation falls to 1/e
	known    bool
}

const (
	usualGust       = 0.4   // m/s, a light breeze low over a field; common practice, no source
	usualGustLength = 50.0  // m; common practice, no source
	leastGust       = 0.03  // m/s: still air is never quite still
	shortestGust    = 10.0  // m
	longestGust     = 300.0 // m: longer ones are wind
)

// estimateGusts takes level and length from the triangle's residuals along the flow: the white noise of both sensors is gone from its autocovariance at lags other than zero, what stays falls as
// level²·exp(−τ·V/length) for a first-order process. Across the flow nothing shows gusts without vanes: they are taken as strong there.
func estimateGusts(t *Triangle, heightAbove float64) gusts {
	g := gusts{level: usualGust, length: usualGustLength}
	if t.Enough {
		if level, length, ok := t.alongGusts(); ok {
			g = gusts{level: level, length: length, known: true}
		}
	}
	g.vertical = g.level * verticalShare(heightAbove)
	return g
}

func (t *Triangle) alongGusts() (level, length float64, ok bool) {
	r, _, _ := t.residuals()
	mean, speed := 0.0, 0.0
	for i, p := range t.air {
		mean += r[i] / float64(len(r))
		speed += p.speed / float64(len(r))
	}
	for i := range r {
		r[i] -= mean
	}
	step := medianStep(t.air)
	if !(step > 0) || step > 1 {
		return 0, 0, false
	}
	at := func(lag int) float64 {
		sum, n := 0.0, 0
		for i := lag; i < len(r); i++ {
			if math.Abs(t.air[i].time-t.air[i-lag].time-float64(lag)*step) < step/2 {
				sum += r[i] * r[i-lag]
				n++
			}
		}
		return sum / math.Max(1, float64(n))
	}
	return fitDecay(at, step, speed)
}

// fitDecay fits level²·exp(−τ/T) to the autocovariance at lags up to two seconds: T from the ratio of its sum to its first moment
// would be spoilt by noise at long lags, so it is the one of a few lengths that leaves least squares, the level in closed form.
func fitDecay(at func(int) float64, step, speed float64) (level, length float64, ok bool) {
	lags := int(math.Max(3, math.Round(2/step)))
	values := make([]float64, lags+1)
	for i := 1; i <= lags; i++ {
		values[i] = at(i)
	}
	best := math.Inf(1)
	variance := 0.0
	for l := shortestGust; l <= longestGust; l *= 1.1 {
		var ee, ev, vv float64
		for i := 1; i <= lags; i++ {
			e := math.Exp(-float64(i) * step * speed / l)
			ee, ev, vv = ee+e*e, ev+e*values[i], vv+values[i]*values[i]
		}
		if misfit := vv - ev*ev/ee; misfit < best {
			best, variance, length = misfit, ev/ee, l
		}
	}
	if !(variance > leastGust*leastGust) {
		return leastGust, usualGustLength, true
	}
	return math.Sqrt(variance), length, true
}

// verticalShare is the level of vertical over horizontal gusts at a height [m] low over the ground:
// σ_w/σ_u = (0.177 + 0.000823·h)^0.4, h in feet up to 1000. MIL-F-8785C, 3.7.3.4, low-altitude model, from memory.
func verticalShare(height float64) float64 {
	feet := math.Max(10, math.Min(1000, height/0.3048))
	return math.Pow(0.177+0.000823*feet, 0.4)
}

func medianStep(air []triangleSample) float64 {
	if len(air) < 2 {
		return 0
	}
	times := make([]float64, len(air))
	for i, p := range air {
		times[i] = p.time
	}
	l := newLine(channelOf(times))
	return l.Step()
}
