package reduce

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// air is what the model flew through, at each instant of the grid.
type air struct {
	temperature []float64 // K
	density     []float64 // kg/m³
	speed       []float64 // true airspeed, m/s
	pressure    []float64 // dynamic, Pa
	height      []float64 // m above the start, as a tape would measure it
	viscosity   []float64 // Pa·s
}

const standardLapse = 0.0065 // K/m, ISO 2533

// airData works out density, true airspeed and height, and tells what had to be assumed.
//
// Dynamic pressure is ½ρV² with the true airspeed of the compressible relation; at the speeds of models (Mach 0.1) it
// differs from impact pressure by 0.25 %.
func airData(rec *flightlog.Recording, g *grid, c Context) (air, []flightlog.Finding) {
	static, findings := staticPressure(g, c)
	temperature, more := airTemperature(g, c)
	findings = append(findings, more...)
	a := air{temperature: temperature}
	a.height = height(rec, g, static, temperature)
	calibrated := g.get(flightlog.Airspeed)
	for i := range g.n {
		rho := atmosphere.Density(static[i], temperature[i])
		v := atmosphere.TrueAirspeed(calibrated[i], static[i], temperature[i])
		a.density = append(a.density, rho)
		a.speed = append(a.speed, v)
		a.pressure = append(a.pressure, rho*v*v/2)
		a.viscosity = append(a.viscosity, atmosphere.Viscosity(temperature[i]))
	}
	return a, findings
}

// staticPressure is the channel, else the field's pressure carried up by the height, else standard.
func staticPressure(g *grid, c Context) ([]float64, []flightlog.Finding) {
	if p := g.get(flightlog.StaticPressure); p != nil {
		return p, nil
	}
	var findings []flightlog.Finding
	atField := c.Pressure
	if atField <= 0 {
		atField = atmosphere.SeaLevelPressure
		findings = append(findings, assumed(g, flightlog.StaticPressure,
			"there is no static pressure, neither logged nor written down for the field: standard pressure at sea level is used",
			"density, and with it true airspeed and Reynolds number, may be off by several per cent; lift and drag coefficients hang on calibrated airspeed and hardly change"))
	}
	base := atmosphere.PressureAltitude(atField)
	out := make([]float64, g.n)
	for i := range out {
		h := 0.0
		if alt := g.get(flightlog.Altitude); alt != nil {
			h = alt[i]
		}
		out[i] = math.NaN()
		if s, err := atmosphere.Standard(base + h); err == nil {
			out[i] = s.Pressure
		}
	}
	return out, findings
}

// airTemperature is the channel, else the field's temperature less the standard lapse, else standard.
func airTemperature(g *grid, c Context) ([]float64, []flightlog.Finding) {
	if t := g.get(flightlog.AirTemperature); t != nil {
		return t, nil
	}
	var findings []flightlog.Finding
	base := c.Temperature
	if base <= 0 {
		base = atmosphere.SeaLevelTemperature
		findings = append(findings, assumed(g, flightlog.AirTemperature,
			"there is no air temperature, neither logged nor written down for the field: 15 °C at the field is used",
			"ten degrees of error are 3.5 % of density and 1.7 % of true airspeed"))
	}
	out := make([]float64, g.n)
	for i := range out {
		out[i] = base
		if alt := g.get(flightlog.Altitude); alt != nil && alt[i] == alt[i] {
			out[i] -= standardLapse * alt[i]
		}
	}
	return out, findings
}

func assumed(g *grid, q flightlog.Quantity, what, consequence string) flightlog.Finding {
	return flightlog.Finding{Severity: flightlog.Note, Channel: q, Start: g.start, End: g.time(max(g.n-1, 0)), What: what, Consequence: consequence}
}

// height is the true height above the start, from static pressure or pressure altitude, whichever channel
// scatters less.
func height(rec *flightlog.Recording, g *grid, static, temperature []float64) []float64 {
	altitude := g.get(flightlog.Altitude)
	perPascal := atmosphere.GasConstant * atmosphere.SeaLevelTemperature / (atmosphere.Gravity * atmosphere.SeaLevelPressure)
	calmer := scatter(rec.Channels[flightlog.StaticPressure])*perPascal <= scatter(rec.Channels[flightlog.Altitude])
	if altitude == nil || (g.get(flightlog.StaticPressure) != nil && calmer) {
		return heightFromPressure(static, temperature)
	}
	return heightFromAltitude(altitude, static, temperature)
}

// heightFromPressure integrates the hydrostatic equation dh = −R·T/g·d(ln p) over the flight.
func heightFromPressure(static, temperature []float64) []float64 {
	out := make([]float64, len(static))
	h, last := 0.0, -1
	for i, p := range static {
		switch {
		case !(p > 0):
			out[i] = math.NaN()
			continue
		case last >= 0:
			mean := (temperature[i] + temperature[last]) / 2
			h -= atmosphere.GasConstant * mean / atmosphere.Gravity * math.Log(p/static[last])
		}
		out[i], last = h, i
	}
	return out
}

// heightFromAltitude stretches steps of pressure altitude by actual over standard temperature at the same pressure. Where pressure or
// temperature is missing, the last ratio stands in: it changes by a thousandth over a model's flight.
func heightFromAltitude(altitude, static, temperature []float64) []float64 {
	out := make([]float64, len(altitude))
	h, last, stretch := 0.0, -1, 1.0
	for i, a := range altitude {
		if math.IsNaN(a) {
			out[i] = math.NaN()
			continue
		}
		standard := atmosphere.SeaLevelTemperature - standardLapse*atmosphere.PressureAltitude(static[i])
		if ratio := temperature[i] / standard; ratio > 0 {
			stretch = ratio
		}
		if last >= 0 {
			h += (a - altitude[last]) * stretch
		}
		out[i], last = h, i
	}
	return out
}

// scatter is the noise of a channel from its second differences: √(mean square/6), which a curve that is
// straight over three samples does not enter.
func scatter(c flightlog.Channel) float64 {
	sum, n := 0.0, 0
	for i := 2; i < len(c.Value); i++ {
		d := c.Value[i] - 2*c.Value[i-1] + c.Value[i-2]
		sum += d * d
		n++
	}
	return math.Sqrt(sum / 6 / math.Max(float64(n), 1))
}
