package main

import (
	"math"

	"wingproof/flightlog"
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
		row := lookChannel{Quantity: string(q), Column: heads[q], Samples: len(c.Time), From: c.Time[0], To: c.Time[len(c.Time)-1], Hertz: rate(c), Least: c.Value[0], Most: c.Value[0]}
		least := math.Max(gapLeast, gapSteps*c.Step())
		for i, v := range c.Value {
			row.Least, row.Most = math.Min(row.Least, v), math.Max(row.Most, v)
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

func rate(c flightlog.Channel) float64 {
	if step := c.Step(); step > 0 {
		return 1 / step
	}
	return 0
}

// airborne is when the model flew.
type airborne struct {
	seconds    float64 // in the air
	start, end float64 // s of the recording
	fastest    float64 // m/s
	known      bool    // a speed was logged at all
}

// A model flies above this speed: common practice, no source; the slowest model of this kind stalls at about 12 m/s.
const leastFlying = 8.0 // m/s

// flying tells when the model was in the air, by its airspeed, else by the ground speed.
func (l *look) flying() airborne {
	var a airborne
	for _, q := range []flightlog.Quantity{flightlog.Airspeed, flightlog.GroundSpeed} {
		c := l.recording.Channels[q]
		if len(c.Time) < 2 {
			continue
		}
		a.known = true
		for i := 1; i < len(c.Time); i++ {
			a.fastest = math.Max(a.fastest, c.Value[i])
			if c.Value[i] < leastFlying || c.Value[i-1] < leastFlying || c.Time[i]-c.Time[i-1] > 2 {
				continue
			}
			if a.seconds == 0 {
				a.start = c.Time[i-1]
			}
			a.seconds += c.Time[i] - c.Time[i-1]
			a.end = c.Time[i]
		}
		if a.seconds > 0 {
			return a
		}
	}
	return a
}
