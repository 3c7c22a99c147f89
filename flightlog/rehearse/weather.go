package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/aero/atmosphere"
)

// Weather is the air of one flight.
type Weather struct {
	Pressure    float64 // static, at the field, Pa; 0 means standard sea level
	Temperature float64 // at the field, K; 0 means standard sea level
	WindSpeed   float64 // m/s, the same at every height
	WindFrom    float64 // direction it blows from, rad clockwise from true north
	Turbulence  float64 // intensity: sd of each horizontal gust component over the wind speed; vertical half of that
	GustLength  float64 // m, the correlation length of gusts; 0 means 30 m
	VerticalSD  float64 // m/s: sd of the steady vertical air, one draw a flight
}

// DefaultWeather is a calm evening: 2 m/s of wind, a tenth of it in gusts, 0.2 m/s of unknown vertical
// air. The values are invented.
func DefaultWeather() Weather {
	return Weather{
		Pressure: atmosphere.SeaLevelPressure, Temperature: atmosphere.SeaLevelTemperature,
		WindSpeed: 2, Turbulence: 0.1, GustLength: 30, VerticalSD: 0.2,
	}
}

// air is the weather in motion.
type air struct {
	Weather
	north, east, up      float64 // steady, m/s
	gusts                [3]float64
	horizontal, vertical float64 // gust sd, m/s
	fieldDensity         float64
}

func newAir(w Weather, rng *rand.Rand) (*air, error) {
	if w.Pressure == 0 {
		w.Pressure = atmosphere.SeaLevelPressure
	}
	if w.Temperature == 0 {
		w.Temperature = atmosphere.SeaLevelTemperature
	}
	if w.GustLength == 0 {
		w.GustLength = 30
	}
	switch {
	case !(w.Pressure > 20000 && w.Pressure < 120000):
		return nil, fmt.Errorf("rehearse: pressure at the field %g Pa is not that of a field; give about 100000", w.Pressure)
	case !(w.Temperature > 200 && w.Temperature < 340):
		return nil, fmt.Errorf("rehearse: temperature at the field %g K is not that of a field; give about 288", w.Temperature)
	case !(w.WindSpeed >= 0 && w.Turbulence >= 0 && w.VerticalSD >= 0 && w.GustLength > 0):
		return nil, fmt.Errorf("rehearse: wind %g m/s, turbulence %g, vertical air %g m/s and gust length %g m must not be negative",
			w.WindSpeed, w.Turbulence, w.VerticalSD, w.GustLength)
	}
	sin, cos := math.Sincos(w.WindFrom)
	a := &air{
		Weather: w, north: -w.WindSpeed * cos, east: -w.WindSpeed * sin,
		up:         w.VerticalSD * rng.NormFloat64(),
		horizontal: w.Turbulence * w.WindSpeed, vertical: 0.5 * w.Turbulence * w.WindSpeed,
		fieldDensity: atmosphere.Density(w.Pressure, w.Temperature),
	}
	a.gusts = [3]float64{a.horizontal * rng.NormFloat64(), a.horizontal * rng.NormFloat64(), a.vertical * rng.NormFloat64()}
	return a, nil
}

// lapse of the standard troposphere, K/m (ISO 2533)
const lapse = 0.0065

// at gives static pressure [Pa] and temperature [K] at a height above the field [m].
func (a *air) at(height float64) (pressure, temperature float64) {
	temperature = a.Temperature - lapse*height
	exponent := atmosphere.Gravity / (atmosphere.GasConstant * lapse)
	return a.Pressure * math.Pow(temperature/a.Temperature, exponent), temperature
}

// around gives density and velocity of the air at a height [m]. Vertical air fades in over the lowest 20 m.
// The density is the product law linearised in height, within 1e-5 over the 150 m of a model flight.
func (a *air) around(height float64) surroundings {
	x := lapse * height / a.Temperature
	n := atmosphere.Gravity/(atmosphere.GasConstant*lapse) - 1
	share := math.Max(0, math.Min(1, height/20))
	return surroundings{
		density: a.fieldDensity * (1 - n*x + n*(n-1)/2*x*x),
		north:   a.north + a.gusts[0], east: a.east + a.gusts[1],
		down: -share * (a.up + a.gusts[2]),
	}
}

// advance moves the gusts on by dt [s] for an aircraft at an airspeed [m/s]: a first-order process with
// the correlation time GustLength/airspeed.
func (a *air) advance(dt, speed float64, rng *rand.Rand) {
	if a.horizontal == 0 {
		return
	}
	keep := math.Exp(-dt * math.Max(speed, 1) / a.GustLength)
	fresh := math.Sqrt(1 - keep*keep)
	for i, sd := range [3]float64{a.horizontal, a.horizontal, a.vertical} {
		a.gusts[i] = keep*a.gusts[i] + fresh*sd*rng.NormFloat64()
	}
}
