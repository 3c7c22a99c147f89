package quality

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// warmth compares the air temperature with the one that ties height to pressure: dh = −R·T/g·d(ln p), with dh from the climb
// rate over the whole flight. A thermometer in °C that is read as °F is 6 to 9 % out; the road by heights is good to 1 or 2 %.
//
// A climb rate that was worked out from the same barometer holds the standard temperature by its making: where the two agree with
// it, the finding is only a note.
func (e *evidence) warmth() {
	if e.condemned[flightlog.AirTemperature] || e.condemned[flightlog.ClimbRate] || e.condemned[flightlog.StaticPressure] ||
		!e.s.has(flightlog.AirTemperature, flightlog.ClimbRate, flightlog.StaticPressure) {
		return
	}
	logged := statistic.Median(finiteOnly(e.s.values[flightlog.AirTemperature]))
	base := statistic.Median(finiteOnly(e.mean(flightlog.StaticPressure, brisk)))
	found, sd, ok := e.warmthByHeight(logged, base)
	if !ok {
		return
	}
	const tolerance = 0.055
	if away := math.Abs(found/logged - 1); away < tolerance || away > 0.3 || away*logged < 8*sd {
		return
	}
	hint, severity := warmthHint(logged, found), flightlog.Loss
	standard := atmosphere.SeaLevelTemperature - 0.0065*atmosphere.PressureAltitude(base)
	if math.Abs(found/standard-1) < 0.02 {
		severity = flightlog.Note
		hint += "; a climb rate worked out from the barometer would show the same, then nothing is wrong"
	}
	e.condemn(flightlog.AirTemperature, severity, fmt.Sprintf("the air temperature is %.0f °C, where climb rate and static pressure together ask for %.0f °C", logged-273.15, found-273.15),
		fmt.Sprintf("density would be %+.0f %% and true airspeed %+.0f %% out, and with them wind and Reynolds number; %s", 100*(found/logged-1), 100*(math.Sqrt(logged/found)-1), hint))
	e.drop(flightlog.AirTemperature)
}

// warmthByHeight is the air temperature [K] that heights by the climb rate give, with its standard deviation. logged is the
// thermometer's and base the usual static pressure.
func (e *evidence) warmthByHeight(logged, base float64) (kelvin, sd float64, ok bool) {
	climb, pressure := e.mean(flightlog.ClimbRate, brisk), e.mean(flightlog.StaticPressure, brisk)
	r := newRegression(3)
	height, lowest, highest := 0.0, math.Inf(1), math.Inf(-1)
	for b := range climb {
		// trapezoid, so that the height belongs to the middle of the block; a pause is bridged by the pressure
		switch step := 0.0; {
		case b == 0:
		case !math.IsNaN(climb[b-1] + climb[b]):
			height += (climb[b-1] + climb[b]) / 2 * brisk * cell
		default:
			if step = -scaleHeight * logged / atmosphere.SeaLevelTemperature * math.Log(pressure[b]/pressure[b-1]); !math.IsNaN(step) {
				height += step
			}
		}
		if math.IsNaN(climb[b]) || !(pressure[b] > 0) {
			continue
		}
		x := -math.Log(pressure[b]/base) * atmosphere.GasConstant / standardGravity // m per K
		lowest, highest = math.Min(lowest, x), math.Max(highest, x)
		r.add(height, x, 1, float64(b)*brisk*cell) // a bias of the climb rate adds height with time
	}
	const leastHeight = 40 // m: with less the error is more than a third of what is looked for
	c, sd, _, ok := r.solve()
	if !ok || r.n < leastBlocks || (highest-lowest)*logged < leastHeight {
		return 0, 0, false
	}
	return c[0], sd, true
}

// warmthHint names the mix-up of units that makes a thermometer read so.
func warmthHint(logged, found float64) string {
	celsius := logged - 273.15
	if read := celsius*9/5 + 32; math.Abs(read+273.15-found) < 0.035*found {
		return "the column seems to be in °C, not in °F"
	} else if read := (celsius - 32) * 5 / 9; math.Abs(read+273.15-found) < 0.035*found {
		return "the column seems to be in °F, not in °C"
	}
	return "check the unit of the column, and whether the sensor sits in the sun or beside the motor"
}
