package quality

import (
	"math"

	"wingproof/flightlog"
)

// relation compares two channels that physics ties together: y, worked out from channel a, should equal x, worked out from
// channel b, up to noise.
type relation struct {
	a, b           flightlog.Quantity
	saysA, saysB   string  // y and x in words
	tolerance      float64 // factor between them from which on a unit is wrong; 0 where only the sign is telling
	sizeOnly       bool    // it says nothing about signs
	r, gain        float64 // correlation, and spread of y over spread of x
	n              int     // blocks
	spreadX, least float64 // of x, and below which it says nothing
	unexplained    float64 // spread of y − x over spread of x
}

// Verdicts need this much: half a minute of blocks, and a correlation that wrong signs and wind do not make by chance
// (of 20 independent pairs, |r| > 0.6 comes by chance once in 200: common t test). Rehearsed clean flights give 0.75 to 1.
const (
	leastBlocks = 20
	clearSign   = 0.6
	clearGain   = 0.8 // gains are read where the two follow one another closely
)

// speaks tells whether a relation has anything to say about signs.
func (r relation) speaks() bool {
	return !r.sizeOnly && r.n >= leastBlocks && r.spreadX >= r.least && math.Abs(r.r) >= clearSign
}

// relate compares the blocks in which both sides are known.
func (r relation) relate(y, x []float64, use func(b int) bool) relation {
	var n, mx, my float64
	for b := range y {
		if use(b) && !math.IsNaN(x[b]+y[b]) {
			n++
			mx += (x[b] - mx) / n
			my += (y[b] - my) / n
		}
	}
	var xx, yy, xy float64
	for b := range y {
		if use(b) && !math.IsNaN(x[b]+y[b]) {
			dx, dy := x[b]-mx, y[b]-my
			xx, yy, xy = xx+dx*dx, yy+dy*dy, xy+dx*dy
		}
	}
	r.n = int(n)
	if xx > 0 && yy > 0 {
		r.r, r.gain = xy/math.Sqrt(xx*yy), math.Sqrt(yy/xx)
		r.spreadX = math.Sqrt(xx / n)
		r.unexplained = math.Sqrt(math.Max(0, yy-2*xy+xx) / xx)
	}
	return r
}

// combined builds a series of blocks from others.
func combined(n int, f func(b int) float64) []float64 {
	out := make([]float64, n)
	for b := range out {
		out[b] = f(b)
	}
	return out
}
