package quality

import (
	"fmt"
	"math"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Bounds of what a recording of a model's flight can hold. Wide: they catch a wrong unit, not an odd day.
const (
	longestFlight  = 12 * 3600 // s
	fastestSamples = 1e-4      // s between rows
)

// clockSize finds a time column in the wrong unit: a recording of days, or of samples closer than any recorder writes.
func clockSize(rec *flightlog.Recording) []flightlog.Finding {
	start, end, step := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, q := range flightlog.Quantities() {
		c := rec.Channels[q]
		if n := len(c.Time); n > 1 {
			start, end, step = math.Min(start, c.Time[0]), math.Max(end, c.Time[n-1]), math.Min(step, c.Step())
		}
	}
	if !(end > start) || end-start <= longestFlight && step >= fastestSamples {
		return nil
	}
	usual := func(s float64) bool { return s >= 5e-4 && s <= 2 }
	hint := "check the unit of the time column, and that its last rows are no glitch"
	switch {
	case usual(step / 1000):
		hint = "its unit seems to be a thousandth of the stated one, such as ms for s"
	case usual(step / 1e6):
		hint = "its unit seems to be a millionth of the stated one, such as us for s"
	case usual(step * 1000):
		hint = "its unit seems to be a thousand times the stated one, such as ms for us"
	case usual(step * 1e6):
		hint = "its unit seems to be a million times the stated one, such as s for us"
	}
	return []flightlog.Finding{{Severity: flightlog.Refusal, Start: start, End: end,
		What:        fmt.Sprintf("by its time column the recording lasts %.3g s with %.3g s between samples", end-start, step),
		Consequence: "no flight does; " + hint}}
}

// airSizes finds a static pressure or an air temperature that no air outside has.
func airSizes(rec *flightlog.Recording) []flightlog.Finding {
	var out []flightlog.Finding
	check := func(q flightlog.Quantity, low, high float64, what, consequence string, hints map[float64]string) {
		c, ok := rec.Channels[q]
		if !ok || len(c.Value) == 0 {
			return
		}
		middle := statistic.Median(c.Value)
		if middle >= low && middle <= high {
			return
		}
		hint := "check the unit of the column"
		for _, factor := range []float64{0.001, 0.01, 100, 1000} {
			if text, ok := hints[factor]; ok && middle*factor >= 0.5*high && middle*factor <= high {
				hint = text
			}
		}
		out = append(out, flightlog.Finding{Severity: flightlog.Refusal, Channel: q, Start: c.Time[0], End: c.Time[len(c.Time)-1],
			What: fmt.Sprintf(what, middle), Consequence: consequence + "; " + hint})
	}
	check(flightlog.StaticPressure, 30000, 110000, "the static pressure is %.4g Pa, where the air outside has about 100000", "density and height would be wrong",
		map[float64]string{0.01: "the column seems to be in Pa, not in hPa", 0.001: "the column seems to be in Pa, not in kPa", 100: "the column seems to be in hPa, not in Pa", 1000: "the column seems to be in kPa, not in Pa"})
	check(flightlog.AirTemperature, 210, 335, "the air temperature is %.4g K, where the air outside has 210 to 335", "density would be wrong", nil)
	return out
}

// throttleSize finds a throttle that goes past full.
func throttleSize(rec *flightlog.Recording) []flightlog.Finding {
	c, ok := rec.Channels[flightlog.Throttle]
	if !ok || len(c.Value) == 0 {
		return nil
	}
	top := statistic.Quantile(c.Value, 0.99)
	if top <= 1.25 {
		return nil
	}
	hint := "check unit and calibration of the column"
	if top > 20 && top < 130 {
		hint = "the column seems to be in percent, not a share"
	}
	return []flightlog.Finding{{Severity: flightlog.Refusal, Channel: flightlog.Throttle, Start: c.Time[0], End: c.Time[len(c.Time)-1],
		What: fmt.Sprintf("the throttle reaches %.3g, where 1 is full", top), Consequence: "full power cannot be told from part power; " + hint}}
}
