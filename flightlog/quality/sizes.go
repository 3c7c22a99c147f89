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

// ClockRefused tells whether the times of a recording cannot be those of a flight: then nothing that goes by seconds means anything.
func ClockRefused(rec *flightlog.Recording) bool { return len(clockSize(rec, scansOf(rec))) > 0 }

// clockSize finds a time column in the wrong unit: a recording of days, or of samples closer than any recorder writes.
func clockSize(rec *flightlog.Recording, scans map[flightlog.Quantity]scan) []flightlog.Finding {
	start, end, step := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, q := range flightlog.Quantities() {
		c := rec.Channels[q]
		if n := len(c.Time); n > 0 {
			start, end = math.Min(start, c.Time[0]), math.Max(end, c.Time[n-1])
			if n > 1 {
				step = math.Min(step, scans[q].step)
			}
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
func (e *evidence) airSizes() {
	e.pressureSize()
	e.temperatureSize()
}

// Field elevations up to 9,000 m and down to the Dead Sea: 300 to 1100 hPa (ISO 2533 for the first, common practice for the second).
func (e *evidence) pressureSize() {
	c, ok := e.rec.Channels[flightlog.StaticPressure]
	if !ok || len(c.Value) == 0 {
		return
	}
	const low, high = 30000, 110000
	middle := statistic.Median(sampled(c.Value))
	if middle >= low && middle <= high {
		return
	}
	hint := "check the unit of the column"
	for _, u := range []struct {
		factor float64
		text   string
	}{
		{0.01, "the column seems to be in Pa, not in hPa"}, {0.001, "the column seems to be in Pa, not in kPa"},
		{100, "the column seems to be in hPa, not in Pa"}, {1000, "the column seems to be in kPa, not in Pa"}, {10, "the column seems to be in kPa, not in hPa"},
		{3386.389, "the column seems to be in inHg, not in Pa"}, {33.86389, "the column seems to be in inHg, not in hPa"},
	} {
		if x := middle * u.factor; x >= 0.8*high && x <= high {
			hint = u.text
			break
		}
	}
	e.condemn(flightlog.StaticPressure, flightlog.Refusal, fmt.Sprintf("the static pressure is %.4g Pa, where the air outside has about 100000", middle),
		"density and height would be wrong; "+lostThroughout(flightlog.StaticPressure)+"; "+hint)
	e.drop(flightlog.StaticPressure)
}

// From −63 °C to 47 °C: colder than any place where models fly, and the hottest in which a crew would (common practice, no source).
func (e *evidence) temperatureSize() {
	c, ok := e.rec.Channels[flightlog.AirTemperature]
	if !ok || len(c.Value) == 0 {
		return
	}
	const low, high = 210, 320
	middle := statistic.Median(sampled(c.Value))
	if middle >= low && middle <= high {
		return
	}
	celsius := middle - 273.15
	hint := "check the unit of the column"
	switch {
	case middle > -40 && middle <= 47:
		hint = "the column seems to be in °C, not in K"
	case middle > 47 && middle < 120:
		hint = "the column seems to be in °F, not in K"
	case celsius > 47 && celsius < 120:
		hint = "the column seems to be in °F, not in °C; a sensor in the sun or beside the motor reads so high too"
	case celsius > low && celsius < high:
		hint = "the column seems to be in K, not in °C"
	}
	e.condemn(flightlog.AirTemperature, flightlog.Refusal, fmt.Sprintf("the air temperature is %.4g °C, where the air outside has −63 to 47", celsius),
		"density would be wrong; "+lostThroughout(flightlog.AirTemperature)+"; "+hint)
	e.drop(flightlog.AirTemperature)
}

// throttleSize finds a throttle that goes past full, or never opens.
func (e *evidence) throttleSize() {
	c, ok := e.rec.Channels[flightlog.Throttle]
	if !ok || len(c.Value) == 0 {
		return
	}
	top := statistic.Quantile(sampled(c.Value), 0.99)
	hint := "check unit and calibration of the column"
	switch {
	case top > 20 && top < 130:
		hint = "the column seems to be in percent, not a share"
	case top > 0.002 && top < 0.0125:
		hint = "the column seems to be a share, not in percent"
	case top > 1.25:
	default:
		return
	}
	e.condemn(flightlog.Throttle, flightlog.Refusal, fmt.Sprintf("the throttle reaches %.3g, where 1 is full", top), "full power cannot be told from part power; "+hint)
	e.drop(flightlog.Throttle)
}

// gravity checks the length of the specific force and the sign of its down part over the whole recording. In flight
// and at rest alike its median is close to 9.8 m/s², since an aircraft that flies does not fall.
func (e *evidence) gravity() {
	down, ok := e.rec.Channels[flightlog.DownAcceleration]
	if !ok || len(down.Value) == 0 {
		return
	}
	const q = flightlog.DownAcceleration
	values := sampled(down.Value)
	middle, signed := statistic.Median(statistic.Magnitudes(values)), statistic.Median(values)
	usual := middle > 0.75*standardGravity && middle < 1.3*standardGravity // a flight of steep turns has a median load factor of 1.2
	switch {
	case usual && signed > 0:
		e.condemn(q, flightlog.Refusal, fmt.Sprintf("gravity reads %+.2f m/s² on the down axis, where it must be negative", signed),
			"lift would come out negative: "+lostThroughout(q)+"; set sign = -1 for this column, and look at the other axes too")
		e.correct(q, -1)
		return
	case usual:
		e.gravityAtRest()
		return
	}
	hint, by := "check the unit and the scale of the column", 0.0
	switch {
	case middle > 0.75 && middle < 1.3:
		hint, by = "the column seems to be in g, not in m/s²", standardGravity
	case middle > 0.75*standardGravity*standardGravity && middle < 1.3*standardGravity*standardGravity:
		hint, by = "the column seems to be in m/s², not in g", 1/standardGravity
	case middle > 750 && middle < 1300:
		hint, by = "the column seems to be in thousandths of g", standardGravity/1000
	case middle > 0.75*32.17 && middle < 1.3*32.17:
		hint, by = "the column seems to be in ft/s², not in m/s²", 0.3048
	}
	e.condemn(q, flightlog.Refusal, fmt.Sprintf("the median specific force on the down axis is %.3g m/s² where gravity gives 9.8", middle),
		"lift and load factor would be wrong by the same factor: "+lostThroughout(q)+"; "+hint)
	if by == 0 {
		e.drop(q)
	} else {
		e.correct(q, math.Copysign(by, -signed))
	}
}

// gravityAtRest: on the ground the three axes together feel 9.8 m/s², however the model stands.
func (e *evidence) gravityAtRest() {
	const k = 10           // cells: a second
	const still = 0.03     // rad/s, two degrees a second: a model that nobody moves
	const standing = 1.0   // m/s over the ground
	const tolerance = 0.05 // three times a bias of 0.15 m/s², of the order of cheap sensors (common practice, no source)
	const least = 3        // blocks
	if !e.s.has(flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.PitchRate, flightlog.GroundSpeed) {
		return
	}
	fx, fy, fz := e.mean(flightlog.ForwardAcceleration, k), e.mean(flightlog.RightAcceleration, k), e.mean(flightlog.DownAcceleration, k)
	q, v := e.mean(flightlog.PitchRate, k), e.mean(flightlog.GroundSpeed, k)
	var sizes []float64
	first, last := 0.0, 0.0
	for b := range fz {
		if e.s.inFlight(b, k) || !(math.Abs(q[b]) < still) || !(v[b] < standing) {
			continue
		}
		if f := math.Sqrt(fx[b]*fx[b] + fy[b]*fy[b] + fz[b]*fz[b]); !math.IsNaN(f) {
			if len(sizes) == 0 {
				first = e.s.time(b * k)
			}
			last = e.s.time(b*k + k - 1)
			sizes = append(sizes, f)
		}
	}
	if len(sizes) < least {
		return
	}
	if g := statistic.Median(sizes); math.Abs(g/standardGravity-1) > tolerance {
		e.condemn(flightlog.DownAcceleration, flightlog.Loss, fmt.Sprintf("at rest (%s) the accelerometers read %.2f m/s² together, where gravity gives 9.81", during(first, last), g),
			fmt.Sprintf("lift would be wrong by about %+.0f %%: %s; set the scale of the three columns", 100*(g/standardGravity-1), lostThroughout(flightlog.DownAcceleration)))
	}
}
