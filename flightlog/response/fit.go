package response

import (
	"cmp"
	"math"
	"slices"
)

// kind is what a fit has to know of a motion.
type kind struct {
	name       Kind
	words      string // as a crew would call it
	band       band
	trend      int
	seconds    float64 // shortest stretch worth a fit
	cycles     float64 // that must stand above the noise
	advice     string  // what to fly when it is not determined
	mostChange float64 // relative, of airspeed over the stretch
}

// fastSwing and foundSwing are how many samples a swing keeps when a recording is thinned: the fastest swing of a band at first, the one that was
// found later. Derived: a mean over a twelfth of a swing weakens it by 1 %.
const (
	fastSwing  = 12
	foundSwing = 16
)

// coarse and fine are how far from the best poles a search may stop, over their standard deviation.
const (
	coarse = 1e-2
	fine   = 1e-6
)

// fit finds the mode of a kind in a stretch.
func fit(s Stretch, k kind) Mode {
	out := Mode{Kind: k.name, Airspeed: meanOf(s.Airspeed)}
	if why := s.unusable(k); why != "" {
		return out.not(why, k)
	}
	lead := s.Signals[0].Values
	unit := sizeOf(lead)
	q := thinnedProblem(lead, unit, s.Step, 2*math.Pi/(k.band.fastest*fastSwing), k.trend)
	rough, err := q.rough(k.band)
	if err != nil {
		return out.not("no swing was found in the "+s.Signals[0].Name, k)
	}
	density := unit * math.Max(noiseOf(rough.trial.residuals)/rough.trial.factor, quietest) * math.Sqrt(q.step) // of the noise, per root of a second
	step := 2 * math.Pi / (math.Sqrt(rough.poles.frequency2()) * foundSwing)
	noise := density / math.Sqrt(math.Max(s.Step, step))
	q = thinnedProblem(lead, noise, s.Step, step, k.trend)
	best, err := q.best(rough, k.band)
	if err != nil {
		return out.not("no swing was found in the "+s.Signals[0].Name, k)
	}
	best, cov, err := q.average(best, k.band)
	if err != nil {
		return out.not("no swing was found in the "+s.Signals[0].Name, k)
	}
	out.Seconds = float64(len(q.values)) * q.step
	out.fill(best, cov)
	out.Gusts = math.Sqrt(best.gusts.drive * best.trial.variance / (4 * math.Max(best.poles.decay, 1/out.Seconds)))
	out.Cycles = best.cyclesAbove(out.Gusts, out.Seconds)
	out.Amplitudes = s.amplitudes(best.poles, k)
	out.Airspeed = s.airspeed(best.poles)
	return out.judged(best, k)
}

// thinnedProblem thins a signal to a step [s] or a little below and divides it by a unit.
func thinnedProblem(values []float64, unit, from, step float64, trend int) problem {
	block := max(1, int(step/from))
	q := newProblem(thinned(values, block), from*float64(block), trend)
	for i := range q.values {
		q.values[i] /= unit
	}
	return q
}

// amplitudes are those of every signal at the start, the poles being known.
func (s Stretch) amplitudes(p poles, k kind) []float64 {
	out := make([]float64, len(s.Signals))
	for i, signal := range s.Signals {
		q := newProblem(signal.Values, s.Step, k.trend)
		if t, err := q.try(p, gusts{}); err == nil {
			out[i] = found{poles: p, trial: t}.size()
		}
	}
	return out
}

// rough finds poles as if noise had no memory, from the guesses that leave least.
func (q problem) rough(b band) (found, error) {
	type start struct {
		poles poles
		sum   float64
	}
	var starts []start
	for _, guess := range guesses(q.values, q.step, b) {
		if t, err := q.try(guess, gusts{}); err == nil {
			starts = append(starts, start{guess, t.sum})
		}
	}
	slices.SortStableFunc(starts, func(a, b start) int { return cmp.Compare(a.sum, b.sum) })
	var best found
	for _, s := range starts[:min(len(starts), 3)] {
		f, err := q.search(s.poles, gusts{}, b, coarse)
		if err == nil && (best.trial.residuals == nil || f.trial.sum < best.trial.sum) {
			best = f
		}
	}
	if best.trial.residuals == nil {
		return best, errLost
	}
	return best, nil
}

// best finds the share of gusts and the poles, twice, since how the signal sees the motion is known better the second time.
func (q problem) best(rough found, b band) (found, error) {
	best, err := q.search(rough.poles, gusts{}, b, fine)
	if err != nil {
		return best, err
	}
	low, high := math.Log(leastDrive), math.Log(mostDrive)
	driven := q.driven(best, low, high, 9, b)
	if driven.gusts.drive > 0 { // how the signal sees the motion is known better now
		at := math.Log(driven.gusts.drive)
		driven = q.driven(driven, at-1, at+1, 4, b)
	}
	return driven, nil
}

// The drive of gusts is looked for between a size that leaves no trace and one at which a motion is renewed within a tenth of a second.
const (
	leastDrive = 1e-9
	mostDrive  = 10.0
)

// driven finds the intensity of the drive with the highest restricted likelihood, by golden section on its logarithm.
func (q problem) driven(from found, low, high float64, steps int, b band) found {
	reach := from.trial.reach()
	best, err := q.search(from.poles, gusts{}, b, coarse)
	if err != nil {
		return from
	}
	golden(func(logarithm float64) float64 {
		f, err := q.search(best.poles, gusts{reach, math.Exp(logarithm)}, b, coarse)
		if err != nil {
			return math.Inf(1)
		}
		if f.trial.sum < best.trial.sum {
			best = f
		}
		return f.trial.sum
	}, low, high, steps)
	return best
}

// golden narrows down the lowest value of a function of one valley.
func golden(f func(float64) float64, low, high float64, steps int) {
	ratio := (math.Sqrt(5) - 1) / 2
	a, b := high-ratio*(high-low), low+ratio*(high-low)
	fa, fb := f(a), f(b)
	for range steps {
		if fa < fb {
			high, b, fb = b, a, fa
			a = high - ratio*(high-low)
			fa = f(a)
		} else {
			low, a, fa = a, b, fb
			b = low + ratio*(high-low)
			fb = f(b)
		}
	}
}

// fill turns poles and their covariance into frequency and damping.
func (m *Mode) fill(f found, cov [2][2]float64) {
	p := f.poles
	m.Frequency = math.Sqrt(p.frequency2())
	m.Damping = p.decay / m.Frequency
	cube := m.Frequency * m.Frequency * m.Frequency
	byFrequency := [2]float64{m.Damping, 1 / (2 * m.Frequency)}
	byDamping := [2]float64{p.square / cube, -p.decay / (2 * cube)}
	ff, dd := form(byFrequency, cov, byFrequency), form(byDamping, cov, byDamping)
	m.FrequencySD, m.DampingSD = math.Sqrt(ff), math.Sqrt(dd)
	if ff > 0 && dd > 0 {
		m.Correlation = form(byFrequency, cov, byDamping) / (m.FrequencySD * m.DampingSD)
	}
}

func form(a [2]float64, m [2][2]float64, b [2]float64) float64 {
	return a[0]*(m[0][0]*b[0]+m[0][1]*b[1]) + a[1]*(m[1][0]*b[0]+m[1][1]*b[1])
}

// airspeed is its mean weighted by t·e^(−2σt), as the frequency sees it: a frequency that wanders turns the phase by its integral, and a straight line
// fitted to the phase with the energy e^(−2σt) of the motion for weight has that mean for slope.
func (s Stretch) airspeed(p poles) float64 {
	sum, total := 0.0, 0.0
	for i, v := range s.Airspeed {
		t := (float64(i) + 0.5) * s.Step
		w := t * math.Exp(-2*math.Max(0, p.decay)*t)
		sum, total = sum+float64(w*v), total+w
	}
	if total == 0 {
		return 0
	}
	return sum / total
}

func meanOf(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
