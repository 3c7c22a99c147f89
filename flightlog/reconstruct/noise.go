package reconstruct

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// noise is everything random that the filter believes in, as variances unless said otherwise.
type noise struct {
	rate, force  [3]float64     // spectral densities: variance of a sample × its step
	measured     [kinds]float64 // of one sample
	lagSD        [kinds]float64 // s, sd of an assumed lag
	gustLevel    float64        // m/s, sd of each horizontal component
	gustVertical float64        // m/s, sd
	gustLength   float64        // m
	verticalAir  float64        // m/s, sd

	upwashForgets float64 // 1/s; zero where the flight can tell the upwash
	walk          walks
}

// walks are the variances per second of what wanders slowly.
type walks struct {
	wind, forceBias, rateBias, scale, attitudeBias, heightBias float64
}

func defaultWalks() walks {
	return walks{walkWind, walkForceBias, walkRateBias, walkScale, walkAttitudeBias, walkHeightBias}
}

// Least noise of a sample, sd: what rounding, sampling in time and what the equations leave out cost even a perfect sensor.
// Common practice, no source.
func leastNoise(k kind) float64 {
	switch k {
	case rollAngle, pitchAngle, headingAngle, vaneAlpha, vaneBeta:
		return 0.03 * degree
	case airspeed:
		return 0.05
	case height:
		return 0.05
	}
	return 0.02
}

// In gusts the upwash of a vane cannot be told from the flight: the model turns against every gust, so that its motion tells of gusts what
// the filter, which must not know the model, ascribes to the vane. (A rehearsed vane of 1.08 came out as 0.9 in gusts of 0.5 m/s.)
// Then the upwash wanders about the usual value within seconds, so that no stretch of the flight can teach it.
const (
	calmForUpwash = 0.06 // m/s of gusts; from a simulation of that feedback: at 0.1° of gust angle the error is a hundredth
	upwashTime    = 3.0  // s
)

const (
	leastRateNoise  = 0.05 * degree // rad/s, a sample
	leastForceNoise = 0.03          // m/s², a sample
)

// block is the number of differences whose mean square is taken together: the median over blocks passes manoeuvres by.
const block = 32

// whiteNoise is the standard deviation of the noise that one sample does not share with the next. With white noise of variance σ²
// on a random walk that gains q a step, second differences over one and two samples have mean squares 6σ²+2q and 6σ²+4q, so that
// σ² = (2·D₁ − D₂)/6. Motion that is curved makes D₂ too large; then fourth differences, 70σ² and free of curvature, tell more.
func whiteNoise(v []float64) float64 {
	one := medianSquare(v, func(i int) float64 { return v[i] - 2*v[i+1] + v[i+2] }, 2)
	two := medianSquare(v, func(i int) float64 { return v[i] - 2*v[i+2] + v[i+4] }, 4)
	four := medianSquare(v, func(i int) float64 { return v[i] - 4*v[i+1] + 6*v[i+2] - 4*v[i+3] + v[i+4] }, 4) / 70
	variance := (2*one - two) / 6
	if !(variance > four/4) {
		variance = four
	}
	if math.IsNaN(variance) {
		return 0
	}
	return math.Sqrt(math.Max(0, variance))
}

// medianSquare is the median over blocks of the mean square of a difference that reaches ahead.
func medianSquare(v []float64, difference func(int) float64, reach int) float64 {
	var means []float64
	sum, n := 0.0, 0
	for i := 0; i+reach < len(v); i++ {
		d := difference(i)
		sum += d * d
		if n++; n == block || i+reach+1 == len(v) && len(means) == 0 {
			means = append(means, sum/float64(n))
			sum, n = 0, 0
		}
	}
	return statistic.Median(means)
}

// airborneValues are those of a channel between two times, all of them if too few lie there.
func airborneValues(c flightlog.Channel, start, end float64) []float64 {
	var out []float64
	for i, t := range c.Time {
		if t >= start && t <= end {
			out = append(out, c.Value[i])
		}
	}
	if len(out) < 2*block {
		return c.Value
	}
	return out
}

// newNoise estimates the noise of every channel over the time in the air.
func newNoise(in *input, s Setup, g gusts, start, end float64) noise {
	n := noise{walk: defaultWalks(), verticalAir: s.verticalAir(), lagSD: in.lagSD, gustLevel: g.level, gustVertical: g.vertical, gustLength: g.length}
	if g.level > calmForUpwash {
		n.upwashForgets = 1 / upwashTime
	}
	for k := range 3 {
		n.rate[k] = density(in.rates[k], start, end, leastRateNoise)
		n.force[k] = density(in.forces[k], start, end, leastForceNoise)
	}
	for k := range kinds {
		sd := math.Max(leastNoise(k), whiteNoise(airborneValues(in.measured[k], start, end)))
		n.measured[k] = sd * sd
	}
	return n
}

// density is the spectral density of a channel's noise, variance × step.
func density(c flightlog.Channel, start, end, least float64) float64 {
	sd := math.Max(least, whiteNoise(airborneValues(c, start, end)))
	return sd * sd * c.Step()
}
