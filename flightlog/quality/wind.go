package quality

import (
	"cmp"
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// triangle is the wind triangle of a flight in blocks: V = s·|v_ground − wind|, with V the true airspeed that the log gives,
// v_ground the velocity over the earth with its vertical part, and s the scale of the airspeed.
type triangle struct {
	north, east, up []float64 // velocity over the earth, m/s
	speed           []float64 // true airspeed of the log, m/s
	use             []bool
	windNorth       float64 // velocity of the air over the earth, m/s
	windEast        float64
	scale           float64 // logged over true
	guess, scaleSD  float64 // belief about it
	inliers         float64 // share of the blocks that agree
	sd              float64 // robust spread of what is left, m/s
	coverage        float64 // 1 when all headings are flown alike, 0 when one is
	blocks          int     // in use
}

// A block of a second agrees with the triangle to within this, m/s: gusts of a fifth of a wind of 5 m/s, and the lag
// of satellite navigation in a quick turn or deceleration (0.2 s at 3 m/s²).
const agrees = 1.6

// triangles fits wind and scale twice: with a free scale, as a wrong unit asks for, and with one that a tube may have, as a tube
// that blocks on the way asks for. ok is false when the recording lacks a side or is too short.
func (e *evidence) triangles() (free, near triangle, ok bool) {
	if !e.s.has(flightlog.Airspeed, flightlog.GroundSpeed, flightlog.GroundTrack) {
		return free, near, false
	}
	var t triangle
	e.sides(&t)
	if t.blocks < leastBlocks {
		return free, near, false
	}
	t.coverage = t.headings()
	t.scaleSD = 0.4
	free = t.best(append(t.parts(), t.fromAfar(1), t.fromAfar(t.middle())))
	t.scaleSD = 0.03
	near = t.best(append(t.parts(), t.fromAfar(1)))
	return free, near, true
}

// fromAfar starts without wind at a scale and lets every block pull.
func (t *triangle) fromAfar(scale float64) [3]float64 {
	c := *t
	c.scale, c.guess = scale, scale
	if scale > 0 {
		for range 5 {
			c.improve(true)
		}
	}
	return [3]float64{c.windNorth, c.windEast, c.scale}
}

// best goes on from the four guesses that most blocks agree with, and takes the best of what comes out.
func (t *triangle) best(guesses [][3]float64) triangle {
	var near []triangle
	for _, guess := range guesses {
		c := *t
		c.windNorth, c.windEast, c.scale, c.guess = guess[0], guess[1], guess[2], guess[2]
		if !(c.scale > 0) {
			continue
		}
		c.improve(false)
		c.judge()
		near = append(near, c)
	}
	slices.SortStableFunc(near, func(a, b triangle) int { return cmp.Compare(b.inliers, a.inliers) })
	best := *t
	best.scale = 1
	for _, c := range near[:min(4, len(near))] {
		for range 8 {
			c.improve(false)
		}
		c.judge()
		if c.inliers > best.inliers+1e-9 {
			best = c
		}
	}
	return best
}

// sides fills the blocks of a second.
func (e *evidence) sides(t *triangle) {
	ground, track, climb := e.mean(flightlog.GroundSpeed, brisk), e.mean(flightlog.GroundTrack, brisk), e.verticalSpeed(brisk)
	air, factor := e.mean(flightlog.Airspeed, brisk), e.densityFactor(brisk)
	n := len(ground)
	t.north, t.east, t.up, t.speed, t.use = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]bool, n)
	for b := range n {
		sin, cos := math.Sincos(track[b])
		t.north[b], t.east[b], t.up[b] = ground[b]*cos, ground[b]*sin, or(climb, b, 0)
		t.speed[b] = air[b] * factor[b]
		t.use[b] = e.s.inFlight(b, brisk) && !math.IsNaN(t.speed[b]+t.north[b])
		if t.use[b] {
			t.blocks++
		}
	}
}

// verticalSpeed is the climb rate, or the change of height where there is none.
func (e *evidence) verticalSpeed(k int) []float64 {
	qs, vertical := e.climbs(k)
	for _, want := range []flightlog.Quantity{flightlog.ClimbRate, flightlog.Altitude, flightlog.StaticPressure} {
		for i, q := range qs {
			if q == want && !e.condemned[q] {
				return vertical[i]
			}
		}
	}
	return missing(e.s.n / k)
}

// densityFactor is true over calibrated airspeed, √(ρ₀/ρ), from static pressure and temperature as far as they are known.
// Compressibility is below 0.1 % at the speeds of models.
func (e *evidence) densityFactor(k int) []float64 {
	pressure, temperature := e.mean(flightlog.StaticPressure, k), e.mean(flightlog.AirTemperature, k)
	return combined(e.s.n/k, func(b int) float64 {
		p := or(pressure, b, atmosphere.SeaLevelPressure)
		return math.Sqrt(atmosphere.SeaLevelDensity / atmosphere.Density(p, or(temperature, b, atmosphere.SeaLevelTemperature)))
	})
}

// headings tells how evenly the headings over the ground are flown: one less the length of their mean direction.
func (t *triangle) headings() float64 {
	var n, e float64
	for b, use := range t.use {
		if v := math.Hypot(t.north[b], t.east[b]); use && v > 0 {
			n, e = n+t.north[b]/v, e+t.east[b]/v
		}
	}
	return 1 - math.Hypot(n, e)/float64(max(1, t.blocks))
}
