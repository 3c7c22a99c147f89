package manoeuvre

import (
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// pullUps finds one step of the elevator from level flight that is held while the load factor stands above one. Which way the elevator goes
// does not matter: on a foreplane it goes down, on a tail it goes up.
func (m *motion) pullUps(t taken, all []control) []Manoeuvre {
	if m.load == nil || m.bank == nil {
		return nil
	}
	var out []Manoeuvre
	for _, c := range all {
		if c.is != flightlog.Elevator {
			continue
		}
		free := math.Inf(-1)
		for _, at := range c.edges() {
			if c.time(at) <= free {
				continue
			}
			made, ok := m.pullUp(c, at)
			if ok && len(t.free(run{m.index(made.Start), m.index(made.End) + 1}, 1)) == 1 {
				out = append(out, made)
				free = made.End
			}
		}
	}
	return out
}

// pullUp reads the step that begins at an edge; ok is false when it is none.
func (m *motion) pullUp(c control, at int) (out Manoeuvre, ok bool) {
	held, base, size, ok := c.heldStep(at)
	if !ok || !m.flying[m.index(c.time(at))] {
		return out, false
	}
	whole := run{m.index(c.time(held.from)), m.index(c.time(held.to-1)) + 1}
	ahead := run{max(0, whole.from-m.count(pullAhead)), whole.from}
	standing := run{whole.to - max(1, (whole.to-whole.from)/2), whole.to}
	load := middle(m.load, standing)
	if !(load >= leastPull) || math.Abs(average(m.bank, whole)) > wingsLevel || !m.throttleRests(run{whole.from - m.count(2*rampHalf), whole.to - m.count(rampHalf)}) {
		return out, false
	}
	if m.path != nil && math.Abs(average(m.path, ahead)) > pullPath {
		return out, false
	}
	start := c.crosses(run{at - c.count(rampHalf), at + c.count(pullRamp)}, base+size/2, size > 0)
	return Manoeuvre{Kind: PullUp, Control: c.is, Start: start, End: c.time(held.to - 1), Size: size, Load: load}, true
}

// heldStep reads one step of a control that is held flat, and let go as quickly as it was taken. The stretch held begins behind the movement.
func (c control) heldStep(at int) (held run, base, size float64, ok bool) {
	before := run{at - c.count(quietBefore), at - c.count(rampHalf)}
	held = run{at + c.count(pullRamp), at + c.count(pullRamp+shortestPull)}
	if before.from < 0 || held.to > c.n {
		return held, 0, 0, false
	}
	base = middle(c.value, before)
	size = middle(c.value, held) - base
	if !(math.Abs(size) >= c.least()) || !(spread(c.value, before) <= maxBefore*math.Abs(size)) || !(math.Abs(c.moves[at]) >= pullSharpness*math.Abs(size)) {
		return held, 0, 0, false
	}
	half := c.count(letGoHalf)
	for held.to < c.n && math.Abs(c.sums.mean(held.to-half, held.to+half+1)-base-size) <= letGoBand*math.Abs(size) {
		held.to++
	}
	seconds := float64(held.to-held.from)*c.step + pullRamp
	back := 0.0 // the quickest movement back where it is let go
	for i := held.to - c.count(rampHalf); i < min(c.n, held.to+c.count(rampHalf)); i++ {
		back = math.Max(back, -math.Copysign(1, size)*c.moves[i])
	}
	ok = seconds <= longestPull && spread(c.value, held) <= maxUneven*math.Abs(size) && back >= pullSharpness*math.Abs(size)
	return held, base, size, ok
}

// throttleRests tells whether the throttle stays where it is: with it somebody climbs, glides or goes around. It does where none was recorded.
func (m *motion) throttleRests(r run) bool {
	if m.throttle == nil {
		return true
	}
	values := picked(m.throttle, r)
	return len(values) > 0 && slices.Max(values)-slices.Min(values) < throttleMove
}

// loadFactor is lift over weight as the down accelerometer feels it; nil where there is none.
func loadFactor(down []float64) []float64 {
	if down == nil {
		return nil
	}
	out := make([]float64, len(down))
	for i, v := range down {
		out[i] = -v / atmosphere.Gravity
	}
	return out
}
