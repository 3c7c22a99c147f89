package quality

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// blockedByLift asks the lift that is carried, and then the forward acceleration, where satellites do not tell.
func (e *evidence) blockedByLift() {
	if w, ok := e.liftWitness(); ok {
		e.blocked(w, nil)
	}
	if w, ok := e.thrustWitness(); ok {
		e.blocked(w, nil)
	}
}

// liftWitness is the airspeed at which the lift that the accelerometer feels is carried at the angle of attack flown:
// −f_z = V²·(a + b·α), a and b fitted robustly to the flight itself. α ≈ (θ − γ)/cos φ serves, since only its changes count.
func (e *evidence) liftWitness() (w speedWitness, ok bool) {
	if !e.s.has(flightlog.DownAcceleration, flightlog.PitchAngle) {
		return w, false
	}
	speed := e.mean(flightlog.Airspeed, brisk)
	force, alpha := e.mean(flightlog.DownAcceleration, brisk), e.incidence(brisk)
	n := len(speed)
	w = speedWitness{speed: missing(n), expected: missing(n), levels: true, words: "lift and attitude"}
	var x, y []float64
	carried := func(b int) bool {
		return e.s.inFlight(b, brisk) && !math.IsNaN(speed[b]+force[b]+alpha[b]) && -force[b] > 0.3*standardGravity
	}
	for b := range n {
		if carried(b) && speed[b] > 3 {
			x, y = append(x, alpha[b]), append(y, -force[b]/(speed[b]*speed[b]))
		}
	}
	a, slope, ok := robustLine(x, y)
	if !ok || !(slope > 0) {
		return w, false
	}
	usual := a + slope*statistic.Median(x)
	var away []float64
	for b := range n {
		if per := a + slope*alpha[b]; carried(b) && per > 0.3*usual {
			w.speed[b], w.expected[b] = speed[b], math.Sqrt(-force[b]/per)
			away = append(away, math.Abs(w.speed[b]-w.expected[b]))
		}
	}
	w.sd = 1.4826 * statistic.Median(away)
	return w, len(away) >= leastBlocks
}

// thrustWitness is how the airspeed changes by the forward acceleration: dV/dt = f_x − g·sin θ − q·w, summed up. It drifts, so that
// only changes within a window count.
//
// Source: Etkin, Dynamics of Flight, force equation along X, in still air.
func (e *evidence) thrustWitness() (w speedWitness, ok bool) {
	if !e.s.has(flightlog.ForwardAcceleration, flightlog.PitchAngle) || e.condemned[flightlog.ForwardAcceleration] {
		return w, false
	}
	speed, force, pitch := e.mean(flightlog.Airspeed, brisk), e.mean(flightlog.ForwardAcceleration, brisk), e.mean(flightlog.PitchAngle, brisk)
	rate, alpha := e.mean(flightlog.PitchRate, brisk), e.incidence(brisk)
	n := len(speed)
	w = speedWitness{speed: missing(n), expected: missing(n), changes: true, words: "the forward acceleration and the pitch angle"}
	sum := 0.0
	for b := range n {
		gain := force[b] - standardGravity*math.Sin(pitch[b]) - or(rate, b, 0)*speed[b]*or(alpha, b, 0)
		if math.IsNaN(gain) {
			continue
		}
		sum += gain * brisk * cell
		if e.s.inFlight(b, brisk) {
			w.speed[b], w.expected[b] = speed[b], sum-gain*brisk*cell/2
		}
	}
	return w, true
}

// satelliteLag is how late a satellite's velocity is written, s: 0.1 to 0.3 (common practice, no source).
const satelliteLag = 0.2

// incidence is the angle of attack from attitude and path, (θ − γ)/cos φ, in blocks. A path angle from a satellite is late by as much as
// the path bends meanwhile, (−f_z·cos φ − g)/V.
func (e *evidence) incidence(k int) []float64 {
	pitch, roll, speed, climb := e.mean(flightlog.PitchAngle, k), e.mean(flightlog.RollAngle, k), e.speed(k), e.verticalSpeed(k)
	force := e.mean(flightlog.DownAcceleration, k)
	late := 0.0
	if e.s.has(flightlog.ClimbRate) && !e.condemned[flightlog.ClimbRate] {
		late = satelliteLag
	}
	usual := statistic.Median(finiteOnly(speed))
	return combined(len(pitch), func(b int) float64 {
		v := math.Max(or(speed, b, usual), usual/2)
		cos := math.Max(0.5, math.Cos(or(roll, b, 0)))
		path := math.Asin(math.Max(-1, math.Min(1, climb[b]/v))) + late*(-or(force, b, -standardGravity/cos)*cos-standardGravity)/v
		return (pitch[b] - path) / cos
	})
}

// robustLine fits y = a + b·x by medians: the slope is the median of slopes between pairs half the data apart in order
// of x. Up to a quarter of the points may be wrong.
//
// Source: Theil 1950 and Sen 1968, with the incomplete pairs of Theil's first method.
func robustLine(x, y []float64) (a, b float64, ok bool) {
	n := len(x)
	if n < leastBlocks {
		return 0, 0, false
	}
	order := orderOf(x)
	var pairs []float64
	for i := range n / 2 {
		lo, hi := order[i], order[i+(n+1)/2]
		if dx := x[hi] - x[lo]; dx > 0 {
			pairs = append(pairs, (y[hi]-y[lo])/dx)
		}
	}
	if len(pairs) < leastBlocks/2 {
		return 0, 0, false
	}
	b = statistic.Median(pairs)
	rest := make([]float64, n)
	for i := range x {
		rest[i] = y[i] - b*x[i]
	}
	return statistic.Median(rest), b, true
}
