package quality

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// markFlying marks the cells in the air: airspeed or ground speed above half of its usual high value, or a height that no hill
// at the field gives. Any of them may fail in flight (a tube that blocks, satellites that are lost), so one suffices. Without
// speeds every cell counts.
//
// Half of the upper quartile: below the stall of any model whose flight holds a slow and a fast part (common practice, no source).
func (s *series) markFlying() {
	s.flying = make([]bool, s.n)
	known := false
	for _, q := range []flightlog.Quantity{flightlog.Airspeed, flightlog.GroundSpeed} {
		v := s.values[q]
		if v == nil {
			continue
		}
		usual := usualHigh(finiteOnly(v))
		if !(usual > 0) {
			continue
		}
		known = true
		for i, x := range v {
			s.flying[i] = s.flying[i] || x > usual/2
		}
	}
	const wellUp = 15 // m above the start of the recording
	for i, h := range s.heightAboveStart() {
		s.flying[i] = s.flying[i] || h > wellUp
	}
	if !known {
		for i := range s.flying {
			s.flying[i] = true
		}
	}
	s.closePauses()
}

// usualHigh is the upper quartile of a speed while it is there: what lies below a quarter of the highest few is rest, which
// may last longer than the flight.
func usualHigh(v []float64) float64 {
	least := statistic.Quantile(v, 0.99) / 4
	moving := make([]float64, 0, len(v))
	for _, x := range v {
		if x > least {
			moving = append(moving, x)
		}
	}
	return statistic.Quantile(moving, 0.75)
}

// heightAboveStart is by altitude, else by static pressure, above the first three seconds.
func (s *series) heightAboveStart() []float64 {
	const first = 30 // cells
	if v := s.values[flightlog.Altitude]; v != nil {
		base := statistic.Median(finiteOnly(v[:min(first, len(v))]))
		return combined(s.n, func(i int) float64 { return v[i] - base })
	}
	if v := s.values[flightlog.StaticPressure]; v != nil {
		base := statistic.Median(finiteOnly(v[:min(first, len(v))]))
		return combined(s.n, func(i int) float64 { return -scaleHeight * math.Log(v[i]/base) })
	}
	return nil
}

// closePauses joins flight on both sides of a pause: nothing lands for less than a minute.
func (s *series) closePauses() {
	const most = int(60 / cell)
	last := -1
	for i, f := range s.flying {
		if !f {
			continue
		}
		if last >= 0 && i-last <= most {
			for k := last + 1; k < i; k++ {
				s.flying[k] = true
			}
		}
		last = i
	}
}

// inFlight tells whether the middle of block b of k cells lies in the air.
func (s *series) inFlight(b, k int) bool {
	i := b*k + k/2
	return i < s.n && s.flying[i]
}

// flyingAt tells whether a time lies in the air.
func (s *series) flyingAt(t float64) bool {
	i := int((t - s.start) / cell)
	return i >= 0 && i < s.n && s.flying[i]
}

// finiteOnly leaves the numbers that are missing out.
func finiteOnly(values []float64) []float64 {
	out := make([]float64, 0, len(values))
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			out = append(out, v)
		}
	}
	return out
}
