package identify

import (
	"math"

	"wingproof/aero/atmosphere"
)

// path gives the velocity of the path through the mean air of the segment in body axes [m/s]. A gust changes airspeed and flow angles at
// once but not the path, whose velocity alone goes into accelerations. So it is integrated from what was felt,
//
//	u̇ = X/m − g·sin θ + r·v − q·w
//	v̇ = Y/m + g·cos θ·sin φ + p·w − r·u
//	ẇ = Z/m + g·cos θ·cos φ + q·u − p·v,
//
// and drawn onto the air data by a straight line in time, which takes up the start and the biases of accelerometers.
func (s *Segment) path(speed []float64) (u, v, w []float64) {
	n := len(speed)
	air := [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
	for k := range n {
		sinA, cosA := math.Sincos(s.Alpha[k])
		sinB, cosB := math.Sincos(s.Beta[k])
		air[0][k], air[1][k], air[2][k] = speed[k]*cosA*cosB, speed[k]*sinB, speed[k]*sinA*cosB
	}
	var out [3][]float64
	for i := range out {
		out[i] = make([]float64, n)
	}
	x := [3]float64{air[0][0], air[1][0], air[2][0]}
	for k := range n {
		for i := range x {
			out[i][k] = x[i]
		}
		if k+1 < n {
			x = s.pathStep(x, k)
		}
	}
	for i := range out {
		ontoLine(out[i], air[i])
	}
	return out[0], out[1], out[2]
}

// pathStep carries the velocity from one sample to the next by Heun's rule.
func (s *Segment) pathStep(x [3]float64, k int) [3]float64 {
	first := s.pathRate(x, k)
	var guess [3]float64
	for i := range x {
		guess[i] = x[i] + s.Step*first[i]
	}
	second := s.pathRate(guess, k+1)
	for i := range x {
		x[i] += s.Step / 2 * (first[i] + second[i])
	}
	return x
}

func (s *Segment) pathRate(x [3]float64, k int) [3]float64 {
	const g = atmosphere.Gravity
	sinRoll, cosRoll := math.Sincos(s.Roll[k])
	sin, cos := math.Sincos(s.Pitch[k])
	p, q, r := s.RollRate[k], s.PitchRate[k], s.YawRate[k]
	return [3]float64{
		s.ForwardForce[k] - g*sin + r*x[1] - q*x[2],
		s.RightForce[k] + g*cos*sinRoll + p*x[2] - r*x[0],
		s.DownForce[k] + g*cos*cosRoll + q*x[0] - p*x[1],
	}
}

// ontoLine adds the straight line in time that brings values closest to a target.
func ontoLine(values, target []float64) {
	n := float64(len(values))
	middle := (n - 1) / 2
	var sum, slope, squares float64
	for k := range values {
		away, at := target[k]-values[k], float64(k)-middle
		sum += away
		slope += away * at
		squares += at * at
	}
	for k := range values {
		values[k] += sum/n + slope/squares*(float64(k)-middle)
	}
}
