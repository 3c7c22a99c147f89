package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// What tells the two speeds apart: a model that turns in wind gains and loses speed over ground around the compass, and not through the air. On rehearsed
// flights in 2 to 5 m/s of wind ground speeds showed 2.0 to 4.7 m/s and a fifth or more of what acceleration leaves open,
// airspeeds 0.6 m/s and a twentieth at most: the bounds lie between.
const (
	leastWind  = 1.0 // m/s
	windShare  = 0.1 // of the variance of V̇ that acceleration does not explain
	speedTrust = 0.7 // correlation of V̇ with acceleration: common practice, no source
)

// weighSpeeds holds the changes of each speed against the forward acceleration less gravity along the pitch angle, which is the change of
// the airspeed, and looks for wind in what is left. Nothing is said where a partner is missing or its sign unknown.
//
// Source: the force equation along X, V̇ = f_x − g·sin θ, but for terms of the angle of attack.
func (d *draft) weighSpeeds() {
	for _, q := range []Quantity{Airspeed, GroundSpeed} {
		i, there := d.taken[q]
		if !there || !d.guesses[i].Mapped {
			continue
		}
		d.weighCadence(q, i)
		if d.oriented(ForwardAcceleration) && d.oriented(PitchAngle) {
			d.weighSpeedChange(q, i)
		}
	}
}

func (d *draft) weighSpeedChange(q Quantity, i int) {
	const half = 1.0 // s
	g, speed := &d.guesses[i], d.grid.smooth(d.series(q), half)
	gain := each(func(v []float64) float64 {
		if !(v[2] > leastFlying) {
			return math.NaN()
		}
		return v[0] - gravity*math.Sin(v[1])
	}, d.grid.smooth(d.series(ForwardAcceleration), half), d.grid.smooth(d.series(PitchAngle), half), speed)
	changes := d.grid.slope(speed, half)
	o := compare(gain, changes)
	if o.moved < 0.2 { // m/s²: a flight at one speed
		return
	}
	if o.r < 0.3 {
		g.doubt(fmt.Sprintf("its changes do not go with forward acceleration and gravity (correlation %.2f)", o.r))
		return
	}
	wind, share := d.windIn(each(func(v []float64) float64 { return v[0] - v[1] }, changes, gain), half)
	blown := wind > leastWind && share > windShare
	switch {
	case q == Airspeed && blown:
		g.doubt(fmt.Sprintf("it gains and loses speed around the compass as a speed over ground does in %.1f m/s of wind: is it one?", wind))
	case q == GroundSpeed && blown:
		g.confirm(o.r, fmt.Sprintf("around the compass it shows %.1f m/s of wind", wind))
	case q == Airspeed && o.r > speedTrust:
		g.confirm(o.r, fmt.Sprintf("its changes are those that forward acceleration and gravity give (correlation %.2f)", o.r))
	}
}

// windIn fits what a wind would add to the change of a speed on the heading, or track, of the moment: its size, and the share of
// the variance that it explains; noughts when there is no heading.
func (d *draft) windIn(left []float64, half float64) (size, share float64) {
	course := d.series(Heading)
	if course == nil {
		course = d.series(GroundTrack)
	}
	along := func(f func(float64) float64) []float64 {
		return d.grid.slope(d.grid.smooth(each(func(v []float64) float64 { return f(v[0]) }, course), half), half)
	}
	north, east := along(math.Cos), along(math.Sin)
	if north == nil || left == nil {
		return 0, 0
	}
	var y, u, v []float64
	for i := range left {
		if s := left[i] + north[i] + east[i]; !math.IsNaN(s) {
			y, u, v = append(y, left[i]), append(u, north[i]), append(v, east[i])
		}
	}
	if len(y) < gridLeast {
		return 0, 0
	}
	centre(y)
	centre(u)
	centre(v)
	uu, uv, vv, uy, vy, yy := dot(u, u), dot(u, v), dot(v, v), dot(u, y), dot(v, y), dot(y, y)
	det := float64(uu*vv) - uv*uv
	if !(det > 1e-6*uu*vv) || yy == 0 {
		return 0, 0
	}
	a, b := (uy*vv-vy*uv)/det, (vy*uu-uy*uv)/det
	return math.Hypot(a, b), (a*uy + b*vy) / yy
}

func dot(x, y []float64) (sum float64) {
	for i := range x {
		sum += float64(x[i] * y[i])
	}
	return sum
}

// weighTrack holds a ground track against the heading. It is never turned: tracks count clockwise, and where the two run against each
// other the heading is at fault.
func (d *draft) weighTrack(g *Guess) {
	turning := func(q Quantity) []float64 { return d.grid.slope(d.grid.smooth(d.inFlight(d.series(q)), 0.2), 1) }
	o := compare(turning(Heading), turning(GroundTrack))
	switch {
	case o.n == 0 || o.moved < 0.03: // rad/s
	case o.r > 0.7:
		g.confirm(o.r, fmt.Sprintf("it turns as the heading does (correlation %.2f)", o.r))
	case math.Abs(o.r) < 0.3:
		g.doubt(fmt.Sprintf("it does not turn as the heading does (correlation %.2f)", o.r))
	}
}

// weighCadence doubts an airspeed whose numbers come in just the rows of the satellite receiver's, where the other sensors have
// rows of their own.
func (d *draft) weighCadence(q Quantity, i int) {
	j, there := d.taken[GroundTrack]
	if q != Airspeed || !there {
		return
	}
	_, mine := d.numbers(i)
	_, theirs := d.numbers(j)
	if len(mine) < 20 || 2*len(mine) > len(d.Rows) {
		return
	}
	in := map[int]bool{}
	for _, row := range theirs {
		in[row] = true
	}
	both := 0
	for _, row := range mine {
		if in[row] {
			both++
		}
	}
	if 20*both > 19*len(mine) && 20*both > 19*len(theirs) && !d.sharesRows(StaticPressure, len(mine)) {
		d.guesses[i].doubt(fmt.Sprintf("its numbers come in the rows of %q alone, as a speed over ground does", d.Heads[j]))
	}
}

// sharesRows tells whether a quantity has about as many numbers as another column, so that its rows tell nothing apart.
func (d *draft) sharesRows(q Quantity, n int) bool {
	i, there := d.taken[q]
	if !there {
		return true
	}
	values, _ := d.numbers(i)
	return 10*len(values) < 11*n && 11*len(values) > 10*n
}

// weighSpeed compares the two speeds: over a flight they agree but for the wind.
func (d *draft) weighSpeed(g *Guess, q Quantity) {
	other := Airspeed
	if q == Airspeed {
		other = GroundSpeed
	}
	j, there := d.taken[other]
	mine, theirs := d.series(q), d.series(other)
	if !there || mine == nil || theirs == nil {
		return
	}
	var ratios []float64
	for k := range mine {
		if mine[k] > leastFlying/4 && theirs[k] > leastFlying {
			ratios = append(ratios, mine[k]/theirs[k])
		}
	}
	if len(ratios) < gridLeast {
		return
	}
	ratio := statistic.Median(ratios)
	fits := ratio < 1.3 && ratio > 1/1.3
	switch {
	case fits && d.guesses[j].written:
		g.confirm(1, fmt.Sprintf("over the flight it is %.2f times the %s", ratio, other))
	case fits:
		g.Why += fmt.Sprintf("; over the flight it is %.2f times the %s", ratio, other)
	case g.written && d.guesses[j].written:
		g.doubt(fmt.Sprintf("over the flight it is %.2f times the %s, though both units are written: one of them is wrong, or a tube is", ratio, other))
	case !g.written && d.otherUnit(g, q, ratio):
		g.doubt("check it against a speed that you know")
	case !g.written:
		g.doubt(fmt.Sprintf("over the flight it is %.2f times the %s: check both units", ratio, other))
	}
}
