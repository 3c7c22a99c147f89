package forecast

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/rehearse"
)

// How far the lines of one flight may be off by gusts and play: elevator against lift in rad per unit of lift coefficient, and the lift slope,
// relative. Common practice, no source.
const (
	slopeSD     = 0.01
	liftSlopeSD = 0.04
	leastLift   = 0.2 // range of lift coefficient that a line takes
)

// line is what the points of one flight show: elevator and angle of attack in rad per unit of lift coefficient.
type line struct{ cg, elevator, alpha float64 }

// linesOf draws the lines of every flight in the power state of the first point.
func linesOf(points []estimate.Point) []line {
	var flights []string
	for _, p := range points {
		if !slices.Contains(flights, p.Flight) {
			flights = append(flights, p.Flight)
		}
	}
	var out []line
	for _, f := range flights {
		var n, x, y, z, xx, xy, xz, cg float64
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			if p.Flight != f || p.Power != points[0].Power {
				continue
			}
			n, x, y, z, cg = n+1, x+p.Lift, y+p.Elevator, z+p.Alpha, p.CG
			xx, xy, xz = xx+p.Lift*p.Lift, xy+p.Lift*p.Elevator, xz+p.Lift*p.Alpha
			low, high = math.Min(low, p.Lift), math.Max(high, p.Lift)
		}
		if n < 3 || high-low < leastLift {
			continue
		}
		spread := xx - x*x/n
		out = append(out, line{cg, (xy - x*y/n) / spread, (xz - x*z/n) / spread})
	}
	return out
}

// belief is a shape with one standard deviation of each number.
type belief struct {
	rehearse.Shape
	neutralPointSD, liftSlopeSD, trimRateSD float64
}

// withLines updates a belief on neutral point and trim rate by the slopes that flights show, slope = rate·(CG − x_NP), and that on the lift slope by
// 1 = CL_α·dα/dCL + CL_δe·dδe/dCL. The judging takes no flights that do not determine a number; the model that flew them is the one that flies on
// all the same, and where it does otherwise the forecast takes that for scatter.
//
// In u, the slope at the mean CG of the flights, and v, the rate, all is linear: the prior has the covariance of (rate·(c − x), rate).
func (b belief) withLines(lines []line, elevatorLift float64) belief {
	if len(lines) == 0 {
		return b
	}
	n := float64(len(lines))
	c, lift := 0.0, 0.0
	for _, l := range lines {
		c += l.cg / n
		lift += (1 - elevatorLift*l.elevator) / l.alpha / n
	}
	ahead := c - b.NeutralPoint
	u, v := b.TrimRate*ahead, b.TrimRate
	rr, xx := b.trimRateSD*b.trimRateSD, b.neutralPointSD*b.neutralPointSD
	uu, uv, vv := ahead*ahead*rr+v*v*xx, ahead*rr, rr
	det := uu*vv - uv*uv
	if !(det > 0) || math.IsNaN(lift) || math.IsInf(lift, 0) {
		return b
	}
	a11, a12, a22 := vv/det, -uv/det, uu/det // information
	g1, g2 := a11*u+a12*v, a12*u+a22*v
	for _, l := range lines {
		h, w := l.cg-c, 1/(slopeSD*slopeSD)
		a11, a12, a22 = a11+w, a12+w*h, a22+w*h*h
		g1, g2 = g1+w*l.elevator, g2+w*h*l.elevator
	}
	det = a11*a22 - a12*a12
	u, v = (a22*g1-a12*g2)/det, (a11*g2-a12*g1)/det
	if v < 0 { // a rate that turned round speaks of something else than trim
		b.NeutralPoint, b.TrimRate = c-u/v, v
	}
	own := liftSlopeSD * lift / math.Sqrt(n)
	prior, data := 1/(b.liftSlopeSD*b.liftSlopeSD), 1/(own*own)
	b.LiftSlope = (prior*b.LiftSlope + data*lift) / (prior + data)
	return b
}

// pointsOf are the points of the fit of a configuration.
func pointsOf(st *study.Study, configuration string) []estimate.Point {
	for _, f := range st.Fits {
		if f.Configuration == configuration {
			return f.Points
		}
	}
	return nil
}
