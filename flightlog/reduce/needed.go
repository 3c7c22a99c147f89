package reduce

import (
	"slices"

	"wingproof/flightlog"
)

// Unnamed lists what no column of a logger map holds and test points cannot do without. It is empty when the map names enough.
func Unnamed(m flightlog.Map) (missing []flightlog.Quantity) {
	has := func(q flightlog.Quantity) bool {
		return slices.ContainsFunc(m.Columns, func(c flightlog.Column) bool { return c.Is == q })
	}
	for _, q := range append(neededBy(has), flightlog.Throttle) {
		if !has(q) {
			missing = append(missing, q)
		}
	}
	return missing
}

// neededBy lists the quantities without which there is no point, in a recording that has some.
func neededBy(has func(flightlog.Quantity) bool) []flightlog.Quantity {
	needed := []flightlog.Quantity{flightlog.Airspeed, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.RollAngle, flightlog.Elevator}
	// a vane replaces the pitch angle where there is none
	if has(flightlog.AngleOfAttack) && !has(flightlog.PitchAngle) {
		needed = append(needed, flightlog.AngleOfAttack)
	} else {
		needed = append(needed, flightlog.PitchAngle)
	}
	if has(flightlog.StaticPressure) {
		return append(needed, flightlog.StaticPressure)
	}
	return append(needed, flightlog.Altitude)
}
