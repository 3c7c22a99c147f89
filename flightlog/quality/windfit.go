package quality

import (
	"math"

	"wingproof/flightlog/statistic"
)

// middle is the scale of the medians.
func (t *triangle) middle() float64 {
	var ratios []float64
	for b, use := range t.use {
		if v := math.Hypot(math.Hypot(t.north[b], t.east[b]), t.up[b]); use && v > 1 {
			ratios = append(ratios, t.speed[b]/v)
		}
	}
	return statistic.Median(ratios)
}

// parts are the fits of growing first parts of the flight and of eight parts of it, of which one holds good samples alone even where
// the tube was blocked for most of it.
func (t *triangle) parts() [][3]float64 {
	var out [][3]float64
	fit := func(from, to float64) {
		c := *t
		c.use = make([]bool, len(t.use))
		for seen, b := 0, 0; b < len(t.use); b++ {
			if t.use[b] {
				share := float64(seen) / float64(t.blocks)
				c.use[b] = share >= from && share < to
				seen++
			}
		}
		c.scale, c.guess = 1, 1
		for range 6 {
			c.improve(true)
		}
		out = append(out, [3]float64{c.windNorth, c.windEast, c.scale})
	}
	for _, to := range [...]float64{0.08, 0.12, 0.18, 0.27, 0.4} {
		fit(0, to)
	}
	const parts = 8
	for part := range parts {
		fit(float64(part)/parts, float64(part+1)/parts)
	}
	return out
}

// improve is one step of Gauss and Newton with Tukey's weights. A weak belief (wind 0 ± 8 m/s, scale near the guess) keeps a flight of
// one heading from running away. far leaves blocks that do not agree a trace of weight, to come from afar.
//
// Source of the weights: Huber and Ronchetti, Robust Statistics, biweight with c = 4.7 standard deviations.
func (t *triangle) improve(far bool) {
	const c = 4.7 * 0.7 // m/s
	var a [3][3]float64
	var y [3]float64
	hold := 1 / (t.scaleSD * t.scaleSD)
	a[0][0], a[1][1], a[2][2] = 1/64.0, 1/64.0, hold
	y[0], y[1], y[2] = -t.windNorth/64, -t.windEast/64, -hold*math.Log(t.scale/t.guess)
	for b, use := range t.use {
		if !use {
			continue
		}
		dn, de := t.north[b]-t.windNorth, t.east[b]-t.windEast
		v := math.Sqrt(dn*dn + de*de + t.up[b]*t.up[b])
		if v < 1 {
			continue
		}
		left := t.speed[b]/t.scale - v // at true size, so that a unit does not change the weights
		w := 0.0
		if far {
			w = 0.02
		}
		if u := left / c; u*u < 1 {
			w = math.Max(w, (1-u*u)*(1-u*u))
		}
		if w == 0 {
			continue
		}
		j := [3]float64{-dn / v, -de / v, v}
		for i := range 3 {
			for k := range 3 {
				a[i][k] += w * j[i] * j[k]
			}
			y[i] += w * j[i] * left
		}
	}
	d, ok := solve3(a, y)
	if !ok {
		return
	}
	t.windNorth += math.Max(-3, math.Min(3, d[0]))
	t.windEast += math.Max(-3, math.Min(3, d[1]))
	t.scale *= math.Exp(math.Max(-0.3, math.Min(0.3, d[2])))
}

// left is what is unexplained in a block, in m/s of true airspeed.
func (t *triangle) left(b int) float64 {
	dn, de := t.north[b]-t.windNorth, t.east[b]-t.windEast
	return t.speed[b]/t.scale - math.Sqrt(dn*dn+de*de+t.up[b]*t.up[b])
}

// judge counts the blocks that agree. A fit that needs a gale against the flight, or that leaves no airspeed, counts for nothing.
func (t *triangle) judge() {
	var inside []float64
	for b, use := range t.use {
		if l := t.left(b); use && math.Abs(l) < agrees {
			inside = append(inside, math.Abs(l))
		}
	}
	t.inliers, t.sd = float64(len(inside))/float64(t.blocks), 1.4826*statistic.Median(inside)
	if math.Hypot(t.windNorth, t.windEast) > 15 || !(t.scale > 0.02) {
		t.inliers = 0
	}
}

// solve3 solves three equations by elimination with pivots; false when they are not independent.
func solve3(a [3][3]float64, y [3]float64) (x [3]float64, ok bool) {
	for i := range 3 {
		p := i
		for k := i + 1; k < 3; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[p][i]) {
				p = k
			}
		}
		if math.Abs(a[p][i]) < 1e-12 {
			return x, false
		}
		a[i], a[p], y[i], y[p] = a[p], a[i], y[p], y[i]
		for k := i + 1; k < 3; k++ {
			f := a[k][i] / a[i][i]
			for j := i; j < 3; j++ {
				a[k][j] -= f * a[i][j]
			}
			y[k] -= f * y[i]
		}
	}
	for i := 2; i >= 0; i-- {
		x[i] = y[i]
		for j := i + 1; j < 3; j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x, true
}
