package reduce

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// attitude is an angle as logged, less the bias that the reconstruction found, and the time between its readings. The path's own angle is the sum of
// the logged rates, whose noise and whose steps between samples it holds: an output of the motion must not be made of another one. It
// stands in only where logged angles are missing for too long.
func (s *sampler) attitude(r raster, q flightlog.Quantity, path []float64) (angle []float64, step float64) {
	const beside = 0.6 // s to either side, for slopes
	logged := unwrapped(readings(between(s.m.g.clean[q], r.start-beside, r.end()+beside)))
	angle, lack := r.read(logged, q)
	if lack != "" {
		return r.path(s.m.flown.Time, path), logged.Step()
	}
	r.unbias(angle, s.m.flown.Time, path)
	return angle, logged.Step()
}

// slower is the time between readings where it is clearly longer than that between samples; else 0.
func slower(step, samples float64) float64 {
	if step > 1.2*samples && statistic.Finite(step) {
		return step
	}
	return 0
}

// unwrapped takes whole turns out of an angle that jumps by one.
func unwrapped(c flightlog.Channel) flightlog.Channel {
	out := flightlog.Channel{Time: c.Time, Value: append([]float64(nil), c.Value...)}
	for i := 1; i < len(out.Value); i++ {
		out.Value[i] -= 2 * math.Pi * math.Round((out.Value[i]-out.Value[i-1])/(2*math.Pi))
	}
	return out
}
