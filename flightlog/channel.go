package flightlog

import "wingproof/flightlog/statistic"

// Step is the median time between samples in s; NaN for fewer than two samples.
func (c Channel) Step() float64 {
	steps := make([]float64, 0, max(len(c.Time)-1, 0))
	for i := 1; i < len(c.Time); i++ {
		steps = append(steps, c.Time[i]-c.Time[i-1])
	}
	return statistic.Median(steps)
}

// Without gives the channel without the samples at the places, which rise.
func (c Channel) Without(places []int) Channel {
	if len(places) == 0 {
		return c
	}
	out := Channel{Time: make([]float64, 0, len(c.Time)), Value: make([]float64, 0, len(c.Value))}
	for i := range c.Value {
		if len(places) > 0 && places[0] == i {
			places = places[1:]
			continue
		}
		out.Time = append(out.Time, c.Time[i])
		out.Value = append(out.Value, c.Value[i])
	}
	return out
}
