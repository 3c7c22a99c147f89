package similitude

import "math"

// mostTried is for how many lumps every way of rounding up and down is tried: 2¹² ways.
const mostTried = 12

// round turns masses into whole steps of the scale, on each side of a bay alike: of all ways of rounding each lump up or down
// that no bay is too small for, the cheapest. Beyond mostTried lumps each goes to the nearest step below what fits.
func (b Ballasting) round(at []spot, exact []float64) []float64 {
	var loose []int
	floor := make([]float64, len(at))
	for i := range at {
		step := b.stepAt(at[i])
		steps := math.Floor(exact[i]/step + 1e-6)
		floor[i] = steps * step
		if exact[i] > floor[i]+1e-6*step {
			loose = append(loose, i)
		}
	}
	if len(loose) > mostTried {
		return b.nearest(at, exact, floor)
	}
	best, least := floor, math.Inf(1)
	for ways := range 1 << len(loose) {
		try := append([]float64(nil), floor...)
		for k, i := range loose {
			if ways>>k&1 == 1 {
				try[i] += b.stepAt(at[i])
			}
		}
		if c := b.cost(b.Now.with(at, try)); c < least && b.fits(at, try) {
			best, least = try, c
		}
	}
	return best
}

func (b Ballasting) nearest(at []spot, exact, floor []float64) []float64 {
	out := append([]float64(nil), floor...)
	for i := range at {
		step := b.stepAt(at[i])
		if exact[i]-floor[i] >= 0.5*step {
			out[i] += step
			if !b.fits(at, out) {
				out[i] -= step
			}
		}
	}
	return out
}

// stepAt is the step of both sides of a bay together.
func (b Ballasting) stepAt(s spot) float64 { return b.step() * float64(s.sides()) }

func (s spot) sides() int {
	if s.y != 0 {
		return 2
	}
	return 1
}

// fits tells whether every bay holds what is put into it.
func (b Ballasting) fits(at []spot, masses []float64) bool {
	room := make([]float64, len(b.Bays))
	for i, bay := range b.Bays {
		room[i] = bay.Most + 1e-9
	}
	for i, s := range at {
		if room[s.bay] -= masses[i]; room[s.bay] < 0 {
			return false
		}
	}
	return true
}
