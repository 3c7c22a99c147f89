package response

import "math"

// band is where a motion is looked for.
type band struct {
	slowest, fastest float64 // rad/s, undamped
	leastDamping     float64
	mostDamping      float64
	guess            float64 // damping ratio of the coarse net
}

func (b band) holds(p poles) bool {
	size2 := p.frequency2()
	if !(size2 > b.slowest*b.slowest && size2 < b.fastest*b.fastest) {
		return false
	}
	damping := p.decay / math.Sqrt(size2)
	return damping > b.leastDamping && damping < b.mostDamping
}
