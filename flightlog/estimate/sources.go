package estimate

import (
	"math"

	"wingproof/flightlog/source"
)

// Names of shared error sources in Result.Common and TrimSlopes.Common.
//
// A source is the error of what was reported: "cg" at plus one standard deviation means that every reported CG
// lies that much aft of the true one.
const (
	SourceAirspeedScale = source.AirspeedScale
	SourceMass          = source.Mass
	SourceDensity       = source.Density
	SourceCG            = source.CG
	SourceCGScale       = source.CGScale
	SourceAlpha         = source.Alpha
	SourceElevatorScale = source.ElevatorScale
	SourceAileronScale  = source.AileronScale
	SourceRudderScale   = source.RudderScale
	SourceSlowing       = "slowing_rate" // what is believed of the effect of the rate of slowing on maximum lift
)

// liftScale is the relative change of a reported CL when each source moves by one standard deviation: lift
// is weighed, so CL = n·m·g/(q·S).
func (s Systematics) liftScale() map[string]float64 {
	return map[string]float64{
		SourceAirspeedScale: -2 * s.AirspeedScale,
		SourceMass:          s.Mass,
		SourceDensity:       -s.Density,
	}
}

// dragScale is the same for the CD of a steady glide: weight times sink rate over airspeed, over q·S. With sink
// rate from height, airspeed enters three times; with drag from accelerometers twice. The larger is carried. Where a
// tube measures q, true airspeed still takes the density: V goes with its root downward, and CD with its root upward.
func (s Systematics) dragScale() map[string]float64 {
	return map[string]float64{
		SourceAirspeedScale: -3 * s.AirspeedScale,
		SourceMass:          s.Mass,
		SourceDensity:       s.TubeDensity/2 - s.Density,
	}
}

// perLift spreads the errors of CL over something that goes with CL to a power: value·power·(relative error of CL).
func (s Systematics) perLift(value, power float64) map[string]float64 {
	out := map[string]float64{}
	for name, relative := range s.liftScale() {
		out[name] = power * value * relative
	}
	return out
}

// withCG adds the two CG sources of a value that changes with the reported CG: perCG·(true − reported).
func (s Systematics) withCG(common map[string]float64, perCG, fromCentre float64) map[string]float64 {
	common[SourceCG] += -perCG * s.CG
	common[SourceCGScale] += -perCG * fromCentre * s.CGScale
	return common
}

// withoutZeros drops sources that do nothing.
func withoutZeros(common map[string]float64) map[string]float64 {
	out := map[string]float64{}
	for name, v := range common {
		if v != 0 && allFinite(v) {
			out[name] = v
		}
	}
	return out
}

// commonSD is √Σ Common², summed in a fixed order.
func commonSD(common map[string]float64) float64 {
	sum := 0.0
	for _, name := range sourceNames(common) {
		sum += square(common[name])
	}
	return math.Sqrt(sum)
}
