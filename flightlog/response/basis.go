package response

import "math"

// poles are the decay rate [1/s] and the square of the damped frequency [1/s²], negative when the motion does not swing.
type poles struct{ decay, square float64 }

func polesOf(frequency, damping float64) poles {
	return poles{frequency * damping, frequency * frequency * (1 - damping*damping)}
}

// frequency2 is ω². It is positive for every motion that dies out.
func (p poles) frequency2() float64 { return p.decay*p.decay + p.square }

// waves are e^(−σt)·cos √D t and e^(−σt)·sin √D t/√D, continued smoothly to D ≤ 0.
func (p poles) waves(t float64) (c, s float64) {
	fade := math.Exp(-p.decay * t)
	x := p.square * t * t
	switch {
	case math.Abs(x) < 1e-4: // series of both; the first term left out is below 1e-17
		c = 1 - x/2*(1-x/12*(1-x/30))
		s = t * (1 - x/6*(1-x/20*(1-x/42)))
	case x > 0:
		root := math.Sqrt(p.square)
		s, c = math.Sincos(root * t)
		s /= root
	default:
		root := math.Sqrt(-p.square)
		c, s = math.Cosh(root*t), math.Sinh(root*t)/root
	}
	return fade * c, fade * s
}

// transition moves the state (e^(−σt)·sin √D t/√D, e^(−σt)·cos √D t) on by a time.
func (p poles) transition(t float64) [2][2]float64 {
	c, s := p.waves(t)
	return [2][2]float64{{c, s}, {-p.square * s, c}}
}
