package reduce

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog"
)

// stretch is a window of the grid: from index i up to j, j left out. faults says why it is no trim point;
// empty when it is one.
type stretch struct {
	i, j   int
	score  float64 // sum of squared shares of the limits: small is steady
	faults []string
	search bool   // faults are counted only: nobody reads those of the many that are not taken
	faulty bool   // there are faults
	marked string // what somebody marked it as by hand; empty when the search found it
}

func (s stretch) seconds() float64 { return float64(s.j-s.i) * gridStep }

// signals is what the search looks at.
type signals struct {
	g                                     *grid
	speed, load, bank, elevator           *sums
	throttle, pitchRate, rollRate, pitch  *sums // nil when the channel is missing
	yawRate                               *sums // nil when the channel is missing
	rudderLeft, rudderRight, side         *sums // nil when the channel is missing
	rudderLeftRest, rudderRightRest, rest float64
	barred                                []int // running count of instants where no window may lie
	off                                   []int // running count of instants where no manoeuvre may lie either
	nearBreak                             []int // running count of instants near a stall break
	breaks                                []float64
}

// newSignals prepares the search. load is the load factor at each instant, barred the instants to stay out of, off those to stay out
// of in manoeuvres too, breaks the stall breaks that are known already.
func newSignals(g *grid, a air, load []float64, barred, off []bool, breaks []float64) *signals {
	maybe := func(q flightlog.Quantity) (*sums, float64) {
		v := g.get(q)
		if v == nil {
			return nil, 0
		}
		return newSums(v), medianOf(v, barred)
	}
	s := &signals{g: g, speed: newSums(a.speed), load: newSums(load), bank: newSums(g.get(flightlog.RollAngle)), elevator: newSums(g.get(flightlog.Elevator))}
	s.throttle, _ = maybe(flightlog.Throttle)
	s.pitch, _ = maybe(flightlog.PitchAngle)
	s.pitchRate, _ = maybe(flightlog.PitchRate)
	s.rollRate, _ = maybe(flightlog.RollRate)
	s.yawRate, _ = maybe(flightlog.YawRate)
	s.rudderLeft, s.rudderLeftRest = maybe(flightlog.RudderLeft)
	s.rudderRight, s.rudderRightRest = maybe(flightlog.RudderRight)
	s.side, s.rest = maybe(flightlog.RightAcceleration)
	s.barred, s.off = running(barred), running(off)
	s.breaks = together(breaks, stallBreaks(g, a, load, barred))
	near := make([]bool, g.n)
	for i := range near {
		for _, t := range s.breaks {
			near[i] = near[i] || math.Abs(g.time(i)-t) <= breakMargin
		}
	}
	s.nearBreak = running(near)
	return s
}

func running(flags []bool) []int {
	out := make([]int, len(flags)+1)
	for i, f := range flags {
		out[i+1] = out[i]
		if f {
			out[i+1]++
		}
	}
	return out
}

func medianOf(values []float64, barred []bool) float64 {
	var v []float64
	for i, x := range values {
		if !barred[i] && !math.IsNaN(x) {
			v = append(v, x)
		}
	}
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}

// find gives the stretches of a flight in order of time: first those marked by hand, then those that meet every limit,
// longest first and the steadiest of equal length, then calm ones from what is left.
func (s *signals) find(marked []stretch) []stretch {
	taken := make([]bool, s.g.n)
	out := append([]stretch(nil), marked...)
	for _, w := range marked {
		for k := w.i; k < w.j; k++ {
			taken[k] = true
		}
	}
	out = append(out, s.pick(taken, shortest, func(w stretch) bool { return !w.faulty })...)
	out = append(out, s.pick(taken, calmShortest, func(stretch) bool { return true })...)
	slices.SortFunc(out, func(a, b stretch) int { return a.i - b.i })
	return out
}

// pick takes the stretches that are accepted, the longest first and of one length the calmest, and marks their instants as taken.
func (s *signals) pick(taken []bool, least float64, accept func(stretch) bool) (out []stretch) {
	for seconds := longest; seconds >= least-1e-9; seconds-- {
		n := int(math.Round(seconds / gridStep))
		busy := running(taken)
		var fits []stretch
		for i := 0; i+n <= s.g.n; i++ {
			if w := (stretch{i: i, j: i + n, search: true}); busy[w.j] == busy[w.i] && s.judge(&w) && accept(w) {
				fits = append(fits, w)
			}
		}
		slices.SortStableFunc(fits, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.score, b.score), a.i-b.i) })
		for _, w := range fits {
			if slices.Contains(taken[w.i:w.j], true) {
				continue
			}
			found := stretch{i: w.i, j: w.j}
			s.judge(&found)
			out = append(out, found)
			for k := w.i; k < w.j; k++ {
				taken[k] = true
			}
		}
	}
	return out
}

// judge fills in score and faults. ok is false for a stretch that is not even calm.
func (s *signals) judge(w *stretch) (ok bool) {
	i, j := w.i, w.j
	if s.barred[j] != s.barred[i] {
		return false
	}
	speed, load, bank, elevator := s.speed.over(i, j), s.load.over(i, j), s.bank.over(i, j), s.elevator.over(i, j)
	if !speed.whole || !load.whole || !bank.whole || !elevator.whole || !(speed.mean > 0) {
		return false
	}
	trend := math.Abs(speed.trend) / speed.mean
	drift := math.Abs(elevator.trend)
	if trend > calmSpeedTrend || load.scatter > calmLoadScatter || bank.scatter > calmBankScatter || drift > calmElevatorTrend || elevator.scatter > calmElevatorScatter {
		return false
	}
	if s.throttle != nil {
		throttle := s.throttle.over(i, j)
		if !throttle.whole || math.Abs(throttle.trend)*w.seconds() > maxThrottleDrift || throttle.scatter > maxThrottleScatter {
			return false
		}
	}
	if s.nearBreak[j] != s.nearBreak[i] {
		w.fault(func() string { return fmt.Sprintf("within %g s of a stall break", breakMargin) })
	}
	w.check(bank.mean/degree, maxBank/degree, "bank is %.1f°, over %g°")
	w.check(trend*100, maxSpeedTrend*100, "airspeed changes by %.1f %% a second, over %g %%")
	w.check(trend*w.seconds()*100, maxSpeedDrift*100, "airspeed drifts by %.1f %%, over %g %%")
	w.check(speed.scatter/speed.mean*100, maxSpeedScatter*100, "airspeed scatters by %.1f %%, over %g %%")
	w.check(load.mean-1, maxLoadOffset, "load factor is off one by %.2f, over %g")
	w.check(load.scatter, maxLoadScatter, "load factor scatters by %.2f, over %g")
	w.check(bank.scatter/degree, maxBankScatter/degree, "bank scatters by %.1f°, over %g°")
	w.check(elevator.trend/degree, maxElevatorTrend/degree, "elevator moves by %.2f° a second, over %g°")
	w.check(elevator.scatter/degree, maxElevatorScatter/degree, "elevator scatters by %.1f°, over %g°")
	return s.judgeRates(w)
}

// judgeRates adds what pitch angle and gyros say, where there are any. The trend of the pitch angle is the mean
// pitch rate without the bias of a gyro.
func (s *signals) judgeRates(w *stretch) bool {
	if s.pitch != nil {
		w.check(s.pitch.over(w.i, w.j).trend/degree, maxPitchRate/degree, "the pitch angle changes by %.1f° a second, over %g°: not in trim")
	}
	for _, rate := range []*sums{s.pitchRate, s.rollRate} {
		if rate == nil {
			continue
		}
		r := rate.over(w.i, w.j)
		if !r.whole {
			return false
		}
		if rate == s.pitchRate {
			w.check(r.mean/degree, maxGyroPitchRate/degree, "pitch rate is %.1f°/s, over %g°/s")
			w.check(r.trend/degree, maxPitchRateTrend/degree, "pitch rate drifts by %.2f°/s², over %g°/s²: not in trim")
		}
		w.check(r.scatter/degree, maxRateScatter/degree, "roll or pitch rate scatters by %.1f°/s, over %g°/s")
	}
	return true
}

// check compares a measure with its limit, and adds its share to the score.
func (w *stretch) check(value, limit float64, fault string) {
	w.score += value * value / (limit * limit)
	if math.Abs(value) > limit {
		w.fault(func() string { return fmt.Sprintf(fault, math.Abs(value), limit) })
	}
}

// fault adds why a stretch is no trim point.
func (w *stretch) fault(why func() string) {
	w.faulty = true
	if !w.search {
		w.faults = append(w.faults, why())
	}
}

// sideslip tells whether rudder or side force is held off its median over the stretch.
func (s *signals) sideslip(w stretch) bool {
	held := func(c *sums, rest, limit float64) bool {
		return c != nil && math.Abs(c.over(w.i, w.j).mean-rest) > limit
	}
	return held(s.rudderLeft, s.rudderLeftRest, heldRudder) || held(s.rudderRight, s.rudderRightRest, heldRudder) || held(s.side, s.rest, heldSideForce)
}
