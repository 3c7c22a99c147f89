package atmosphere

import (
	"fmt"
	"math"
)

// State is the air at one place.
type State struct {
	Altitude    float64 `json:"geopotential_altitude_m"` // geopotential, m
	Temperature float64 `json:"temperature_k"`           // K
	Pressure    float64 `json:"pressure_pa"`             // static, Pa
	Density     float64 `json:"density_kg_m3"`           // kg/m³
	SoundSpeed  float64 `json:"sound_speed_m_s"`         // m/s
	Viscosity   float64 `json:"viscosity_pa_s"`          // dynamic, Pa·s
}

// Standard returns the standard atmosphere at a geopotential altitude [m].
//
// It knows −2000 m to 20 000 m and returns an error outside.
//
// Source: ISO 2533, equations for the layers below 11 km (lapse 6.5 K/km) and from 11 to 20 km
// (isothermal).
func Standard(geopotentialAltitude float64) (State, error) {
	h := geopotentialAltitude
	if !(h >= lowest && h <= highest) {
		return State{}, fmt.Errorf("standard atmosphere: altitude %g m is outside %g m to %g m", h, lowest, highest)
	}
	temperature := SeaLevelTemperature - lapse*math.Min(h, tropopause)
	pressure := SeaLevelPressure * math.Pow(temperature/SeaLevelTemperature, pressureExponent)
	if h > tropopause {
		pressure *= math.Exp(-Gravity * (h - tropopause) / (GasConstant * stratosphereTemp))
	}
	return At(h, pressure, temperature), nil
}

// At returns the air of a measured pressure [Pa] and temperature [K]; altitude [m] is only carried along.
func At(altitude, pressure, temperature float64) State {
	return State{
		Altitude:    altitude,
		Temperature: temperature,
		Pressure:    pressure,
		Density:     Density(pressure, temperature),
		SoundSpeed:  SoundSpeed(temperature),
		Viscosity:   Viscosity(temperature),
	}
}

// Density is p/(R·T) of dry air in kg/m³, from static pressure [Pa] and temperature [K].
func Density(pressure, temperature float64) float64 {
	return pressure / (GasConstant * temperature)
}

// SoundSpeed is √(γ·R·T) in m/s, from temperature [K].
func SoundSpeed(temperature float64) float64 {
	return math.Sqrt(HeatRatio * GasConstant * temperature)
}

// Viscosity is the dynamic viscosity of air in Pa·s, from temperature [K].
//
// Source: Sutherland's equation μ = β·T^1.5/(T + S) with the constants of ISO 2533.
func Viscosity(temperature float64) float64 {
	return sutherlandBeta * temperature * math.Sqrt(temperature) / (temperature + sutherlandTemp)
}
