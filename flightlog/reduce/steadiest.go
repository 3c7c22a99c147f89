package reduce

import (
	"math"
	"slices"

	"wingproof/flightlog/manoeuvre"
)

// steadiest gives the longest window within a manoeuvre that judge finds nothing wrong with, and of equal length the steadiest. Where there
// is none it is the steadiest of the shortest, with its faults; ok is false where judge can say nothing of any.
func (m *measurement) steadiest(in manoeuvre.Manoeuvre, longest, shortest, step float64, judge func(*stretch) bool) (best stretch, ok bool) {
	from, to := m.index(in.Start), min(m.index(in.End)+1, m.g.n)
	for seconds := longest; seconds >= shortest-1e-9; seconds -= step {
		if best, ok = m.steadiestOf(from, to, int(math.Round(seconds/gridStep)), nil, judge); ok && len(best.faults) == 0 {
			return best, true
		}
	}
	return best, ok
}

// steadiestOf gives the steadiest window of so many instants outside what is taken; one without faults comes before one with them.
func (m *measurement) steadiestOf(from, to, n int, taken []stretch, judge func(*stretch) bool) (best stretch, ok bool) {
	for i := from; i+n <= to; i++ {
		w := stretch{i: i, j: i + n}
		if slices.ContainsFunc(taken, func(t stretch) bool { return t.i < w.j && t.j > w.i }) || !judge(&w) {
			continue
		}
		better := len(w.faults) == 0 && len(best.faults) > 0 || (len(w.faults) == 0) == (len(best.faults) == 0) && w.score < best.score
		if !ok || better {
			best, ok = w, true
		}
	}
	return best, ok
}

// judgeSteady is what all steady windows have in common: whole, off the ground, away from stalls, throttle and airspeed steady. ok is false
// where no window may lie.
func (s *signals) judgeSteady(w *stretch) (speed window, ok bool) {
	if s.off[w.j] != s.off[w.i] || s.nearBreak[w.j] != s.nearBreak[w.i] {
		return speed, false
	}
	speed = s.speed.over(w.i, w.j)
	load, bank, elevator := s.load.over(w.i, w.j), s.bank.over(w.i, w.j), s.elevator.over(w.i, w.j)
	if !speed.whole || !load.whole || !bank.whole || !elevator.whole || !(speed.mean > 0) || load.scatter > calmLoadScatter {
		return speed, false
	}
	if s.throttle != nil {
		throttle := s.throttle.over(w.i, w.j)
		if !throttle.whole || math.Abs(throttle.trend)*w.seconds() > maxThrottleDrift || throttle.scatter > maxThrottleScatter {
			return speed, false
		}
	}
	trend := math.Abs(speed.trend) / speed.mean
	w.check(trend*100, maxSpeedTrend*100, "airspeed changes by %.1f %% a second, over %g %%")
	w.check(trend*w.seconds()*100, maxSpeedDrift*100, "airspeed drifts by %.1f %%, over %g %%")
	return speed, true
}
