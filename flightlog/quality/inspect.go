package quality

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Inspect looks for what is wrong with the samples of a recording: gaps, channels that freeze, spikes,
// gravity that is not 9.8 m/s², and angular rates that do not fit the change of their angles (wrong sign or
// unit). Findings come sorted by start, then by channel. It does not repeat rec.Findings and changes nothing.
//
// Channels that physics ties together are compared too, so that a wrong unit, a wrong sign and exchanged columns show.
//
// A flightlog.Refusal means that test points from the recording would be wrong throughout.
func Inspect(rec *flightlog.Recording) []flightlog.Finding {
	if out := clockSize(rec); out != nil {
		return out // nothing that goes with time can be looked at
	}
	var out []flightlog.Finding
	out = append(out, gaps(rec)...)
	for _, q := range flightlog.Quantities() {
		c, ok := rec.Channels[q]
		if !ok {
			continue
		}
		out = append(out, frozen(q, c)...)
		out = append(out, spikeFinding(q, c)...)
	}
	out = append(out, gravity(rec)...)
	out = append(out, attitudeSize(rec)...)
	out = append(out, airSizes(rec)...)
	out = append(out, throttleSize(rec)...)
	out = append(out, agreement(rec)...)
	out = append(out, rateSigns(rec)...)
	slices.SortStableFunc(out, func(a, b flightlog.Finding) int {
		return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.Channel, b.Channel))
	})
	return out
}

// gravity checks the length of the specific force and the sign of its down part over the whole recording. In flight
// and at rest alike its median is close to 9.8 m/s², since an aircraft that flies does not fall.
func gravity(rec *flightlog.Recording) []flightlog.Finding {
	down, ok := rec.Channels[flightlog.DownAcceleration]
	if !ok || len(down.Value) == 0 {
		return nil
	}
	start, end := down.Time[0], down.Time[len(down.Time)-1]
	refuse := func(what, consequence string) []flightlog.Finding {
		return []flightlog.Finding{{Severity: flightlog.Refusal, Channel: flightlog.DownAcceleration, Start: start, End: end, What: what, Consequence: consequence}}
	}
	const standard = 9.80665 // m/s², ISO 80000-3
	middle := statistic.Median(statistic.Magnitudes(down.Value))
	switch {
	case middle > 0.75*standard && middle < 1.3*standard && statistic.Median(down.Value) > 0:
		return refuse(fmt.Sprintf("gravity reads %+.2f m/s² on the down axis, where it must be negative", statistic.Median(down.Value)),
			"lift would come out negative; set sign = -1 for this column, and look at the other axes too")
	case middle > 0.75*standard && middle < 1.3*standard:
		return nil
	}
	hint := "check the unit and the scale of the column"
	switch {
	case middle > 0.75 && middle < 1.3:
		hint = "the column seems to be in g, not in m/s²"
	case middle > 0.75*standard*standard && middle < 1.3*standard*standard:
		hint = "the column seems to be in m/s², not in g"
	case middle > 750 && middle < 1300:
		hint = "the column seems to be in thousandths of g"
	}
	return refuse(fmt.Sprintf("the median specific force on the down axis is %.3g m/s² where gravity gives 9.8", middle),
		"lift and load factor would be wrong by the same factor; "+hint)
}

// attitudeSize finds pitch angles that no angle in radians can reach.
func attitudeSize(rec *flightlog.Recording) []flightlog.Finding {
	c, ok := rec.Channels[flightlog.PitchAngle]
	if !ok || len(c.Value) == 0 {
		return nil
	}
	if top := statistic.Quantile(statistic.Magnitudes(c.Value), 0.99); top > math.Pi/2+0.1 {
		return []flightlog.Finding{{Severity: flightlog.Refusal, Channel: flightlog.PitchAngle, Start: c.Time[0], End: c.Time[len(c.Time)-1],
			What:        fmt.Sprintf("the pitch angle reaches %.3g rad, beyond a quarter turn", top),
			Consequence: "angles of attack would be wrong; the column seems to be in degrees"}}
	}
	return nil
}
