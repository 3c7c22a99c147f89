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
		trial := f.trial(from)
		trial.pass(from, f.trialEnd(from))
		tallies := &trial.tallies
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
// with another one; then the likeliest. A trial that begins with the recording is the first part of the final pass, which goes on from the one that is picked.
func (f *forward) tuneWind(from int) {
	rates := [...]float64{0.03, 0.1, 0.4} // m/s in a minute
	try := func(walk float64) (trial *forward, likelihood float64) {
		f.noise.walk.wind = walk
		trial = f.trial(from)
		trial.tallies[airspeed].weighed = true
		trial.advance(f.trialEnd(from))
		return trial, trial.tallies[airspeed].likelihood
	}
	picked, best := try(walkWind)
	best, walk := best+1, walkWind
	for _, w := range rates {
		if trial, l := try(w * w / 60); l > best {
			picked, best, walk = trial, l, w*w/60
		}
	}
	f.noise.walk.wind = walk
	if from == f.begin {
		*f = *picked
	}
}

// trial is a filter that begins at an event as if it were the first.
func (f *forward) trial(from int) *forward {
	return &forward{tl: f.tl, noise: f.noise, arms: f.arms, prior: f.prior, begin: from, reached: from}
}

// trialEnd is the event before which a trial ends.
func (f *forward) trialEnd(from int) int { return min(from+tuneEvents, len(f.tl.events)) }
