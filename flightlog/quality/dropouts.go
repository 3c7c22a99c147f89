package quality

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// A sensor drops out where it writes numbers that it cannot have felt: a pressure of zero, an altitude of tens of kilometres. Such
// samples stand off the channel's median by more than leastDropout and by dropoutSpreads upper quartiles of that distance, which
// no flight does in whatever unit it was read. A stretch holds dropoutSamples of them, most of its samples, none further apart
// than dropoutPause; fewer are spikes. (Common practice, no source.)
const (
	dropoutSpreads = 20
	dropoutSamples = 3
	dropoutPause   = 1.0 // s
)

// leastDropout is how far off its median, SI, a channel cannot come; 0 for quantities that are not looked at: directions may run on
// for many turns, and a control goes where it is sent.
func leastDropout(q flightlog.Quantity) float64 {
	switch q {
	case flightlog.RollAngle, flightlog.Heading, flightlog.GroundTrack, flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		return 0
	}
	switch q.Dimension() {
	case unit.AngularRate:
		return 60 // rad/s: ten turns a second
	case unit.Acceleration:
		return 500 // m/s²: fifty times gravity
	case unit.Angle:
		return 2 * math.Pi
	case unit.Speed:
		return 150 // m/s, 540 km/h
	case unit.Pressure:
		return 30000 // Pa: three kilometres of height
	case unit.Length:
		return 5000 // m
	case unit.Temperature:
		return 60 // K
	}
	return 0
}

// withoutDropouts is a recording without the samples of dropouts, and a finding for each; the recording itself where there is none.
func withoutDropouts(rec *flightlog.Recording) (*flightlog.Recording, []flightlog.Finding) {
	var found []flightlog.Finding
	out := rec
	for _, q := range flightlog.Quantities() {
		c := rec.Channels[q]
		spans := dropouts(c, impossible(q, c))
		if len(spans) == 0 {
			continue
		}
		if out == rec {
			whole := *rec
			whole.Channels = maps.Clone(rec.Channels)
			out = &whole
		}
		var skip []int
		for _, r := range spans {
			found = append(found, dropoutFinding(q, c, r))
			for i := r.from; i <= r.to; i++ {
				skip = append(skip, i)
			}
		}
		out.Channels[q] = c.Without(skip)
	}
	return out, found
}

// impossible tells which numbers a channel cannot have felt; nil where it is not looked at.
func impossible(q flightlog.Quantity, c flightlog.Channel) func(v float64) bool {
	least := leastDropout(q)
	if least == 0 || len(c.Value) < 4*dropoutSamples || len(c.Value) != len(c.Time) {
		return nil
	}
	low, high := slices.Min(c.Value), slices.Max(c.Value)
	if high-low <= least && (q != flightlog.StaticPressure || low > 0) {
		return nil // most channels end here: nothing stands so far off anything
	}
	values := sampled(c.Value)
	middle := statistic.Median(values)
	away := make([]float64, len(values))
	for i, v := range values {
		away[i] = math.Abs(v - middle)
	}
	most := math.Max(least, dropoutSpreads*statistic.Quantile(away, 0.75))
	empty := q == flightlog.StaticPressure && middle > 0
	return func(v float64) bool { return math.Abs(v-middle) > most || empty && v <= 0 }
}

// dropouts are the stretches in which most samples are impossible.
func dropouts(c flightlog.Channel, bad func(float64) bool) []run {
	if bad == nil {
		return nil
	}
	var out []run
	now, n := run{-1, -1}, 0
	flush := func() {
		if n >= dropoutSamples && 2*n > now.samples() {
			out = append(out, now)
		}
		n = 0
	}
	for i, v := range c.Value {
		if !bad(v) {
			continue
		}
		if n > 0 && c.Time[i]-c.Time[now.to] > dropoutPause {
			flush()
		}
		if n == 0 {
			now.from = i
		}
		now.to = i
		n++
	}
	flush()
	return out
}

func dropoutFinding(q flightlog.Quantity, c flightlog.Channel, r run) flightlog.Finding {
	start, end := c.Time[r.from], c.Time[r.to]
	return flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: start, End: end,
		What:        fmt.Sprintf("the %s drops out for %.1f s (it reads %.4g%s, which cannot be)", plainName(q), end-start, statistic.Median(c.Value[r.from:r.to+1]), siUnit(q)),
		Consequence: lost(q, start, end) + "; look at the wiring and the supply of the sensor"}
}

// siUnit is the unit of a quantity behind a number, with the blank between.
func siUnit(q flightlog.Quantity) string {
	switch q.Dimension() {
	case unit.AngularRate:
		return " rad/s"
	case unit.Acceleration:
		return " m/s²"
	case unit.Angle:
		return " rad"
	case unit.Speed:
		return " m/s"
	case unit.Pressure:
		return " Pa"
	case unit.Length:
		return " m"
	case unit.Temperature:
		return " K"
	}
	return ""
}
