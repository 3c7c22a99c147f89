package atmosphere

import "math"

// GeopotentialFromGeometric turns a height above sea level as a tape would measure it [m] into the
// geopotential height of the standard atmosphere [m]: H = r·Z/(r + Z).
//
// Source: ISO 2533, with the nominal radius of the earth.
func GeopotentialFromGeometric(geometric float64) float64 {
	return EarthRadius * geometric / (EarthRadius + geometric)
}

// GeometricFromGeopotential is the inverse of GeopotentialFromGeometric: Z = r·H/(r − H).
func GeometricFromGeopotential(geopotential float64) float64 {
	return EarthRadius * geopotential / (EarthRadius - geopotential)
}

// PressureAltitude is the geopotential altitude [m] at which the standard atmosphere has the static
// pressure [Pa]. It is NaN for a pressure that is not positive.
//
// Source: ISO 2533, the equations behind Standard solved for the altitude; the layers are continued
// past the ends that Standard accepts.
func PressureAltitude(pressure float64) float64 {
	if !(pressure > 0) {
		return math.NaN()
	}
	h := (SeaLevelTemperature / lapse) * -math.Expm1(math.Log(pressure/SeaLevelPressure)/pressureExponent)
	if h <= tropopause {
		return h
	}
	atTropopause := SeaLevelPressure * math.Pow(stratosphereTemp/SeaLevelTemperature, pressureExponent)
	return tropopause + math.Log(atTropopause/pressure)*GasConstant*stratosphereTemp/Gravity
}
