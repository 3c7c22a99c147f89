package reconstruct

import (
	"math"

	"wingproof/flightlog"
)

// slopeReach is the least reach [s] to either side of the parabolas that give angular acceleration: a tenth of the short period of a model.
const slopeReach = 0.06

// atCG moves specific forces from the inertial unit to the CG:
//
//	f_cg = f − ω̇×r − ω×(ω×r),  r from the CG to the unit
//
// (kinematics of a rigid body; Klein & Morelli, ch. 10). ω̇ is the slope of parabolas over two and a half samples to either
// side, at least slopeReach; each force keeps its own times.
func atCG(forces, rates [3]flightlog.Channel, r [3]float64) [3]flightlog.Channel {
	if r == [3]float64{} {
		return forces
	}
	var rate, slope [3]*line
	for k := range 3 {
		rate[k] = newLine(rates[k])
		slope[k] = newLine(derivative(rates[k], math.Max(2.5*rates[k].Step(), slopeReach)))
	}
	var out [3]flightlog.Channel
	for k := range 3 {
		c := flightlog.Channel{Time: forces[k].Time, Value: make([]float64, len(forces[k].Time))}
		for i, t := range c.Time {
			var w, d [3]float64
			for j := range 3 {
				w[j], d[j] = rate[j].at(t), slope[j].at(t)
			}
			c.Value[i] = forces[k].Value[i] - cross(d, r)[k] - cross(w, cross(w, r))[k]
		}
		out[k] = c
	}
	return out
}
