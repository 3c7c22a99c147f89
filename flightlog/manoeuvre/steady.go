package manoeuvre

import "math"

// taken marks the instants of the slow clock that a manoeuvre of a higher rank holds.
type taken []bool

func (t taken) mark(m *motion, from, to float64) {
	for i := m.index(from); i <= m.index(to) && i < len(t); i++ {
		t[i] = true
	}
}

// free cuts a range where something of a higher rank lies, and keeps the pieces that are at least so long.
func (t taken) free(r run, least int) []run {
	out := runs(r.to-r.from, func(i int) bool { return !t[r.from+i] }, 0, least)
	for i := range out {
		out[i].from, out[i].to = out[i].from+r.from, out[i].to+r.from
	}
	return out
}

// steady finds level runs, climbs and glides in what is left.
func (m *motion) steady(t taken) []Manoeuvre {
	if m.speed == nil {
		return nil
	}
	var out []Manoeuvre
	for _, kind := range [...]Kind{Glide, Climb, Level} {
		least := m.count(shortestSteady)
		for _, r := range runs(m.n, func(i int) bool { return !t[i] && m.is(kind, i) }, m.count(steadyBridge), least) {
			for _, piece := range t.free(r, least) {
				out = append(out, m.stretch(kind, piece))
			}
		}
	}
	return out
}

// is tells whether an instant belongs to a kind of steady flight.
func (m *motion) is(kind Kind, i int) bool {
	if !m.flying[i] || math.IsNaN(m.speed[i]) {
		return false
	}
	trend, bank := math.Abs(m.trend[i]/m.speed[i]), 0.0
	if m.bank != nil {
		bank = math.Abs(m.bank[i])
	}
	idle := m.throttle != nil && m.throttle[i] < idleThrottle
	switch kind {
	case Glide:
		return idle && trend < looseTrend && bank < wingsLevel && !(m.path != nil && m.path[i] > levelPath)
	case Climb:
		return !idle && m.path != nil && m.path[i] > levelPath && trend < looseTrend && bank < climbBank
	}
	return !idle && m.path != nil && math.Abs(m.path[i]) <= levelPath && trend < levelTrend && bank < wingsLevel
}

// stretch is a manoeuvre over a range of instants.
func (m *motion) stretch(kind Kind, r run) Manoeuvre {
	return Manoeuvre{Kind: kind, Start: m.time(r.from), End: m.time(r.to - 1)}
}
