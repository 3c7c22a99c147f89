package reconstruct

import "math"

const (
	tuneEvents = 6000 // steps of a trial run: four minutes at 25 Hz
	tuneBefore = 15.0 // s on the ground before the flight, so that attitude and biases have settled
	tuneFewest = 60   // innovations of a kind without which its noise stays
	tuneRounds = 2
)

// tune runs the filter over the first minutes of the flight and makes the noise of each measurement such that its innovations are as large
// as the filter expects. The likelihood of independent normal innovations with variances s = s₀ + r has the score
// ½·Σ(innovation²−s)/s² in r and the information ½·Σ1/s²; one step of Fisher's scoring is r ← r + score/information, kept within a factor of
// five of the first standard deviation. Differences of neighbours, which gave that, do not see slow errors; this does.
func (f *forward) tune(start float64) {
	from := 0
	for from < len(f.tl.events)-1 && f.tl.events[from].time < start-tuneBefore {
		from++
	}
	first := f.noise.measured
	for range tuneRounds {
		tallies := f.trial(from)
		for k := range kinds {
			t := &tallies[k]
			if t.count < tuneFewest {
				continue
			}
			r := f.noise.measured[k] + t.score/t.information
			least := math.Max(first[k]/25, leastNoise(k)*leastNoise(k))
			f.noise.measured[k] = math.Max(least, math.Min(25*first[k], r))
		}
	}
	f.tuneWind(from)
}

// tuneWind picks how fast the steady wind wanders: the usual rate, unless the airspeed's innovations are more likely by more than a factor of e
// with another one; then the likeliest.
func (f *forward) tuneWind(from int) {
	rates := [...]float64{0.03, 0.1, 0.4} // m/s in a minute
	likelihood := func(walk float64) float64 {
		f.noise.walk.wind = walk
		tallies := f.trial(from)
		return tallies[airspeed].likelihood
	}
	best, walk := likelihood(walkWind)+1, walkWind
	for _, w := range rates {
		if l := likelihood(w * w / 60); l > best {
			best, walk = l, w*w/60
		}
	}
	f.noise.walk.wind = walk
}

// trial is a run of the filter over some minutes, begun at an event as if it were the first.
func (f *forward) trial(from int) [kinds]tally {
	trial := forward{tl: f.tl, noise: f.noise, arms: f.arms, prior: f.prior, begin: from}
	trial.pass(from, min(from+tuneEvents, len(f.tl.events)))
	return trial.tallies
}
