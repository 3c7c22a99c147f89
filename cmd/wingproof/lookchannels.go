package main

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// lookChannel is one channel as it was logged.
type lookChannel struct {
	Quantity string  `json:"quantity"`
	Column   string  `json:"column"`
	Samples  int     `json:"samples"`
	From     float64 `json:"from_s"`
	To       float64 `json:"to_s"`
	Hertz    float64 `json:"samples_per_second"`
	Gaps     int     `json:"gaps"`
	Longest  float64 `json:"longest_gap_s"`
	Least    float64 `json:"least"` // SI
	Most     float64 `json:"most"`
}

// A pause counts as a gap as the check of quality counts it: five usual steps, and a quarter of a second.
const (
	gapSteps = 5
	gapLeast = 0.25 // s
)

// channels lists what was read, in the order of the quantities.
func (l *look) channels() []lookChannel {
	out := []lookChannel{}
	heads := map[flightlog.Quantity]string{}
	for _, c := range l.logger.Columns {
		heads[c.Is] = c.Column
	}
	for _, q := range flightlog.Quantities() {
		c, ok := l.recording.Channels[q]
		if !ok || len(c.Time) == 0 {
			continue
		}
		step := c.Step()
		row := lookChannel{Quantity: string(q), Column: heads[q], Samples: len(c.Time), From: c.Time[0], To: c.Time[len(c.Time)-1], Hertz: rate(step), Least: c.Value[0], Most: c.Value[0]}
		least := math.Max(gapLeast, gapSteps*step)
		for i, v := range c.Value {
			row.Least, row.Most = min(row.Least, v), max(row.Most, v)
			if i == 0 {
				continue
			}
			if pause := c.Time[i] - c.Time[i-1]; pause >= least {
				row.Gaps++
				row.Longest = math.Max(row.Longest, pause)
			}
		}
		out = append(out, row)
	}
	return out
}

// rate is how often a channel is sampled whose usual step, s, is given; 0 where that tells nothing.
func rate(step float64) float64 {
	if hertz := 1 / step; statistic.Finite(hertz) {
		return hertz
	}
	return 0
}
