package manoeuvre

import (
	"math"

	"wingproof/flightlog/statistic"
)

// decelerations finds the airspeed falling steadily to about the lowest of the flight, staying there no longer than a mush
// lasts, and rising again: that turning round tells a stall approach from slowing down for the next run.
func (m *motion) decelerations(t taken) []Manoeuvre {
	if !m.calibrated {
		return nil
	}
	var flown []float64
	for i, v := range m.speed {
		if m.flying[i] && !math.IsNaN(v) {
			flown = append(flown, v)
		}
	}
	lowest := math.Min(nearLowest*statistic.Quantile(flown, 0.01), nearUsual*statistic.Median(flown))
	falls := func(i int) bool { return m.flying[i] && !t[i] && m.trend[i] < -leastSlowing }
	var out []Manoeuvre
	for _, r := range runs(m.n, falls, m.count(slowingBridge), m.count(shortestSlowing)) {
		end, low, ok := m.turnsRound(r)
		if !ok || low > lowest || low > (1-leastDrop)*m.speed[r.from] {
			continue
		}
		whole := run{r.from, end + 1}
		again := len(out) > 0 && m.time(r.from) <= out[len(out)-1].End
		if pieces := t.free(whole, 1); again || len(pieces) != 1 || pieces[0] != whole || !m.approaches(r) {
			continue
		}
		made := m.stretch(Deceleration, whole)
		made.Lowest = low
		if at, ok := m.noseFalls(r, end); ok {
			made.Break = m.time(at)
			made.End = math.Max(made.Start, math.Min(made.End, made.Break))
		}
		made.Slowing = (m.speed[r.from] - m.speed[r.to-1]) / (float64(r.to-1-r.from) * m.step)
		out = append(out, made)
	}
	return out
}

// turnsRound gives the last instant at the lowest speed behind a fall, and that speed; ok is false when the speed does not
// come back.
func (m *motion) turnsRound(r run) (end int, low float64, ok bool) {
	low = math.Inf(1)
	end = r.to - 1
	for i := max(r.from, r.to-m.count(1)); i < min(m.n, r.to+m.count(longestMush)+m.count(recovery)); i++ {
		v := m.speed[i]
		switch {
		case math.IsNaN(v):
			return end, low, false
		case v > (1+leastRecovery)*low:
			return end, low, end < r.to+m.count(longestMush)
		case v < low:
			low = v
		}
		if v <= (1+lowBand)*low {
			end = i
		}
	}
	return end, low, false
}

// approaches tells a stall approach from a zoom, a turn and a go-around.
func (m *motion) approaches(r run) bool {
	if m.bank != nil && math.Abs(average(m.bank, r)) > slowingBank {
		return false
	}
	if m.path != nil && math.Abs(average(m.path, r)) > slowingPath {
		return false
	}
	return true
}

// noseFalls finds the first instant near the end of a deceleration at which the nose goes down although the elevator
// has not been lowered. Once it has been, the nose goes down because somebody wants it to.
func (m *motion) noseFalls(r run, end int) (at int, ok bool) {
	if m.pitch == nil || m.elevator == nil {
		return 0, false
	}
	pitch, elevator := newSums(m.pitch), newSums(m.elevator)
	usual := middle(m.pitch, r)
	half, top := m.count(breakHalf), math.Inf(-1)
	for i := max(r.from, end-m.count(breakAhead)); i < min(m.n, end+m.count(breakBehind)); i++ {
		now := elevator.mean(i-half, i+half+1)
		top = math.Max(top, now)
		if !(now > top-breakElevator) {
			return 0, false
		}
		if pitch.mean(i-half, i+half+1)-usual < breakRate {
			return i, true
		}
	}
	return 0, false
}
