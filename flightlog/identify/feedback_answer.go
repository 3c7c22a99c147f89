package identify

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// answer is how a command answers the motion.
type answer struct {
	gain    float64 // rad per rad/s
	share   float64 // of what the stick leaves unexplained that the motion explains
	opposes bool    // the motion
}

// stillHand is the movement of a command, rad, below which nothing is left to explain.
const stillHand = 1e-5

// The search for what the stick did about a sharp movement. Common practice, no source.
const (
	sharpShare    = 0.2  // of the whole stroke, between two samples
	sharpLeast    = 0.01 // rad
	nextMovement  = 0.18 // s after which a sharp change may be another movement; before, it is the command springing back
	windowBefore  = 0.12 // s
	windowAfter   = 0.45 // s
	longestSweep  = 0.24 // s that a hand takes from one position to the next
	sweepStep     = 0.04 // s
	fewestSamples = 8
	gainStep      = 0.02 // rad per rad/s
	gainSteps     = 20   // to each side of none
)

// stickWindow is the surrounding of one sharp movement.
type stickWindow struct{ from, at, end int }

// stickWindows are the surroundings of the sharp movements of a command.
func stickWindows(command []float64, step float64) []stickWindow {
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range command {
		low, high = math.Min(low, c), math.Max(high, c)
	}
	least := math.Max(sharpLeast, sharpShare*(high-low))
	samples := func(t float64) int { return int(math.Round(t / step)) }
	var out []stickWindow
	for k := 1; k < len(command); k++ {
		if n := len(out); math.Abs(command[k]-command[k-1]) > least && (n == 0 || k-out[n-1].at > samples(nextMovement)) {
			if n > 0 {
				out[n-1].end = min(out[n-1].end, k-1)
			}
			out = append(out, stickWindow{max(0, k-samples(windowBefore)), k, min(len(command), k+samples(windowAfter))})
		}
	}
	return out
}

// stickRecord is what a command and the rate that it might answer did in one segment, about its sharp movements.
type stickRecord struct {
	command, rate []float64
	step          float64
	windows       []stickWindow
}

// recordOf takes up a segment that moves a control; false when it shows no sharp movement.
func recordOf(s *Segment, control flightlog.Quantity) (stickRecord, bool) {
	r := stickRecord{command: s.command(control), rate: s.answered(control), step: s.Step}
	if !(s.Step > 0) || len(r.rate) != len(r.command) || !statistic.Finite(r.command...) || !statistic.Finite(r.rate...) {
		return stickRecord{}, false
	}
	for _, w := range stickWindows(r.command, r.step) {
		if w.end-w.from >= fewestSamples {
			r.windows = append(r.windows, w)
		}
	}
	return r, len(r.windows) > 0
}

// left is what the best sweeps of the stick leave unexplained of command − gain·rate, for each gain that is tried.
func (r *stickRecord) left() []float64 {
	out := make([]float64, 2*gainSteps+1)
	for i := range out {
		for _, w := range r.windows {
			out[i] += w.unexplained(r.command, r.rate, r.step, float64(i-gainSteps)*gainStep)
		}
	}
	return out
}

// power tells which way a control turns the model: by the sum, over its sharp movements, of the jump times the change of rate that
// follows.
func (r *stickRecord) power() float64 {
	sum := 0.0
	for _, w := range r.windows {
		sum += (r.command[w.at] - r.command[w.at-1]) * (r.rate[w.end-1] - r.rate[w.at-1])
	}
	return sum
}

// answerBy is the gain with which the least is left. There the stick went from one position to another, straight and in a time that is
// sought for each movement, and a stabiliser adds its gain times the rate, which throws the command back while the model begins to turn.
func answerBy(left []float64, power float64) answer {
	best, none := gainSteps, left[gainSteps]
	for i, v := range left {
		if v < left[best] {
			best = i
		}
	}
	if none < stillHand*stillHand {
		return answer{}
	}
	gain := float64(best-gainSteps) * gainStep
	return answer{gain: gain, share: 1 - left[best]/none, opposes: gain*power < 0}
}

// shows tells whether an answer is a stabiliser's.
func (a answer) shows() bool {
	return a.opposes && a.share >= leastShare && math.Abs(a.gain) >= leastGain
}

// unexplained is the sum of squares that the best sweep of the stick leaves of command − gain·rate.
func (w stickWindow) unexplained(command, rate []float64, step, gain float64) float64 {
	y := make([]float64, w.end-w.from)
	for i := range y {
		y[i] = command[w.from+i] - gain*rate[w.from+i]
	}
	least := math.Inf(1)
	for start := -longestSweep / 2; start <= step; start += sweepStep / 2 {
		for sweep := 0.0; sweep <= longestSweep; sweep += sweepStep {
			begin := float64(w.at-w.from)*step + start
			least = math.Min(least, sweepLeaves(y, step, begin, sweep))
		}
	}
	return least
}

// sweepLeaves fits two positions with a straight way between them.
func sweepLeaves(y []float64, step, begin, sweep float64) float64 {
	var n, sx, sy, sxx, sxy, syy float64
	for i, v := range y {
		x := 0.0
		switch t := float64(i)*step - begin; {
		case t >= sweep:
			x = 1
		case t > 0:
			x = t / sweep
		}
		n++
		sx += x
		sy += v
		sxx += x * x
		sxy += x * v
		syy += v * v
	}
	cxx, cxy, cyy := sxx-sx*sx/n, sxy-sx*sy/n, syy-sy*sy/n
	if cxx <= 0 {
		return cyy
	}
	return math.Max(0, cyy-cxy*cxy/cxx)
}
