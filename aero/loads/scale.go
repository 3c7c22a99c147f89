package loads

import (
	"math"

	"wingproof/aero/atmosphere"
)

// Scale turns strip loads over the dynamic pressure into newtons.
//
// In flight at the load factor n the lift of the whole aircraft is n·m·g: with the strips at the lift coefficient
// cl on the reference area, the dynamic pressure is n·m·g/(cl·area), and that is what Scale returns. It is zero
// when cl·area is zero.
func Scale(weight, loadFactor, cl, area float64) float64 {
	if cl*area == 0 {
		return 0
	}
	return loadFactor * weight / (cl * area)
}

// DynamicPressure is ½ρ0V², Pa, at an equivalent airspeed, m/s, with the density ρ0 of the standard atmosphere
// at sea level: that is how equivalent airspeed is defined.
func DynamicPressure(equivalentSpeed float64) float64 {
	return atmosphere.SeaLevelDensity / 2 * equivalentSpeed * equivalentSpeed
}

// ManoeuvreSpeed is the speed at which the stall and a load factor come together: stallSpeed·√|n|, in the unit of
// the stalling speed. Slower, the wing lets go before the load factor is reached; faster, the controls can
// overload the structure. With the negative limit it takes the stalling speed of inverted flight.
//
// Source: lift at the stall is n·weight at the speed V and weight at the stalling speed; the pattern of
// 14 CFR 23.335(c), from memory.
func ManoeuvreSpeed(stallSpeed, loadFactor float64) float64 {
	return stallSpeed * math.Sqrt(math.Abs(loadFactor))
}
