package manoeuvre

import "math"

// sideslips finds stretches with the rudder held off its median, the bank steady and the heading nearly constant.
func (m *motion) sideslips(t taken, all []control) []Manoeuvre {
	if m.turnRate == nil {
		return nil
	}
	var out []Manoeuvre
	for _, c := range all[rudderAt(all):] {
		rudder := m.slowRudder(c)
		least := math.Max(heldRudder, heldShare*c.travel)
		for _, side := range [...]float64{1, -1} {
			holds := func(i int) bool {
				return m.flying[i] && !t[i] && side*rudder[i] > least && math.Abs(m.turnRate[i]) < slipYawRate
			}
			for _, r := range runs(m.n, holds, m.count(slipBridge), m.count(shortestSideslip)) {
				for _, piece := range t.free(r, m.count(shortestSideslip)) {
					if piece, ok := m.steadySlip(piece, rudder); ok {
						made := m.stretch(Sideslip, piece)
						made.Control, made.Size = c.is, middle(rudder, piece)
						out = append(out, made)
					}
				}
			}
		}
	}
	return out
}

// rudderAt is the place of the rudder among the controls; their number when there is none.
func rudderAt(all []control) int {
	for i, c := range all {
		if isRudder(c.is) {
			return i
		}
	}
	return len(all)
}

// slowRudder is the rudder off its median in flight, on the slow clock.
func (m *motion) slowRudder(c control) []float64 {
	half := int(m.step / c.step / 2)
	out := make([]float64, m.n)
	var flown []float64
	for i := range out {
		at := c.index(m.time(i))
		out[i] = c.sums.mean(at-half, at+half+1)
		if m.flying[i] && !math.IsNaN(out[i]) {
			flown = append(flown, out[i])
		}
	}
	rest := middle(flown, run{0, len(flown)})
	for i := range out {
		out[i] -= rest
	}
	return out
}

// steadySlip narrows a stretch with rudder to where the bank is steady; ok is false when rudder or heading are not held there.
func (m *motion) steadySlip(r run, rudder []float64) (run, bool) {
	if m.bank != nil {
		var ok bool
		if r, ok = near(m.bank, r, slipBankBand, m.count(slipBridge), m.count(shortestSideslip)); !ok {
			return r, false
		}
	}
	rate := math.Abs(m.turned(r)) / (float64(r.to-r.from) * m.step)
	return r, spread(rudder, r) <= heldScatter*math.Abs(middle(rudder, r)) && rate <= slipMeanYawRate
}
