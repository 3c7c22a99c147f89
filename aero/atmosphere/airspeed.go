package atmosphere

import "math"

// exponent of the isentropic pressure relation, γ/(γ − 1) = 3.5
const isentropic = HeatRatio / (HeatRatio - 1)

// ImpactPressure is what a pitot tube feels over static pressure, in Pa, at a calibrated airspeed [m/s]:
// qc = p0·[(1 + 0.2·(Vc/a0)²)^3.5 − 1], below Mach 1.
//
// Source: definition of calibrated airspeed at sea level of the standard atmosphere.
func ImpactPressure(calibrated float64) float64 {
	return pitot(calibrated, SeaLevelPressure, SoundSpeed(SeaLevelTemperature))
}

// TrueAirspeed turns a calibrated airspeed [m/s] into true airspeed [m/s] in air of a static pressure
// [Pa] and temperature [K], compressible, below Mach 1. A negative speed gives the negative result,
// so that sensor noise about zero keeps its mean.
func TrueAirspeed(calibrated, pressure, temperature float64) float64 {
	return speed(ImpactPressure(math.Abs(calibrated)), pressure, SoundSpeed(temperature), calibrated)
}

// CalibratedAirspeed is the inverse of TrueAirspeed: true airspeed [m/s] in air of a static pressure
// [Pa] and temperature [K] to calibrated airspeed [m/s].
func CalibratedAirspeed(trueSpeed, pressure, temperature float64) float64 {
	qc := pitot(math.Abs(trueSpeed), pressure, SoundSpeed(temperature))
	return speed(qc, SeaLevelPressure, SoundSpeed(SeaLevelTemperature), trueSpeed)
}

// pitot is the impact pressure at speed v in air of static pressure p and sound speed a. Log1p and
// Expm1 keep the digits that the difference of two nearly equal pressures would lose at model speeds.
func pitot(v, p, a float64) float64 {
	mach := v / a
	return p * math.Expm1(isentropic*math.Log1p((HeatRatio-1)/2*mach*mach))
}

// speed inverts pitot and gives the result the sign of its last argument.
func speed(qc, p, a, sign float64) float64 {
	machSquared := 2 / (HeatRatio - 1) * math.Expm1(math.Log1p(qc/p)/isentropic)
	return math.Copysign(a*math.Sqrt(machSquared), sign)
}
