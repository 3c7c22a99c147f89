package manoeuvre

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog/statistic"
)

// turns finds stretches at a steady bank at nearly constant height. Once round or more at a steady speed is a circle.
func (m *motion) turns(t taken) []Manoeuvre {
	if m.bank == nil {
		return nil
	}
	var out []Manoeuvre
	for _, side := range [...]float64{1, -1} {
		banked := func(i int) bool {
			return m.flying[i] && !t[i] && side*m.bank[i] > leastBank && !(m.path != nil && math.Abs(m.path[i]) > turnPath)
		}
		for _, r := range runs(m.n, banked, m.count(turnBridge), m.count(shortestTurn)) {
			for _, piece := range m.steadyBank(r) {
				for _, free := range t.free(piece, m.count(shortestTurn)) {
					if made, ok := m.turn(free); ok {
						out = append(out, made)
					}
				}
			}
		}
	}
	return out
}

// steadyBank gives the pieces of a banked stretch in which the bank stays near its median. A stretch at two banks is two:
// what is left on either side is looked at again.
func (m *motion) steadyBank(r run) []run {
	least := m.count(shortestTurn)
	if r.to-r.from < least {
		return nil
	}
	band := math.Max(bankBand, bankBandShare*math.Abs(middle(m.bank, r)))
	best, ok := near(m.bank, r, band, m.count(turnBridge), least)
	if !ok {
		return nil
	}
	out := m.steadyBank(run{r.from, best.from})
	out = append(out, best)
	return append(out, m.steadyBank(run{best.to, r.to})...)
}

// turn tells turn from circle; ok is false for a spiral up or down.
func (m *motion) turn(r run) (Manoeuvre, bool) {
	if m.path != nil && math.Abs(average(m.path, r)) > turnMeanPath {
		return Manoeuvre{}, false
	}
	if !m.turnsWell(r) {
		return Manoeuvre{}, false
	}
	out := m.stretch(Turn, r)
	if math.Abs(m.turned(r)) >= 2*math.Pi-circleShort && m.speed != nil && spread(m.speed, r) <= circleSpeed*average(m.speed, r) {
		out.Kind = Circle
	}
	return out, true
}

// turnsWell tells whether the heading changes about as fast as the bank asks for, ψ̇ = g·tan φ/V. Without a heading there
// is no telling.
func (m *motion) turnsWell(r run) bool {
	if m.heading == nil || m.speed == nil {
		return true
	}
	expected := atmosphere.Gravity * math.Tan(average(m.bank, r)) / math.Max(leastSpeed, average(m.speed, r))
	return m.turned(r)/(float64(r.to-r.from)*m.step)/expected > turnsWell
}

// turned is the change of heading over a range; zero where no channel tells it.
func (m *motion) turned(r run) float64 {
	if m.heading == nil {
		return 0
	}
	first, last := math.NaN(), math.NaN()
	for i := r.from; i < r.to; i++ {
		if statistic.Finite(m.heading[i]) {
			last = m.heading[i]
			if math.IsNaN(first) {
				first = last
			}
		}
	}
	if math.IsNaN(first) {
		return 0
	}
	return last - first
}
