package identify

import "math"

// turned are the parts along X and Z of a vector in the axes of a unit that stands nose up by an angle against those in which it is given.
func turned(x, z, angle float64) (float64, float64) {
	sin, cos := math.Sincos(angle)
	return x*cos - z*sin, x*sin + z*cos
}

// turned is the segment as a unit would have logged it that stands nose up by a further angle [rad], small; the segment itself for none. A roll then
// shows as a yaw: by a third of a degree as much yaw acceleration as the adverse yaw of some ailerons.
func (s *Segment) turned(angle float64) *Segment {
	if angle == 0 {
		return s
	}
	out := *s
	n := len(s.PitchRate)
	out.RollRate, out.YawRate = make([]float64, n), make([]float64, n)
	out.ForwardForce, out.DownForce = make([]float64, n), make([]float64, n)
	out.Roll, out.Pitch, out.Alpha = make([]float64, n), make([]float64, n), make([]float64, n)
	for k := range n {
		out.RollRate[k], out.YawRate[k] = turned(s.RollRate[k], s.YawRate[k], angle)
		out.ForwardForce[k], out.DownForce[k] = turned(s.ForwardForce[k], s.DownForce[k], angle)
		sin, cos := math.Sincos(s.Roll[k])
		out.Roll[k], out.Pitch[k] = s.Roll[k]+angle*sin*math.Tan(s.Pitch[k]), s.Pitch[k]+angle*cos
		out.Alpha[k] = s.Alpha[k] + angle
	}
	return &out
}
