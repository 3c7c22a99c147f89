package reconstruct

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

const (
	standardLapse = 0.0065 // K/m, ISO 2533
	coldest       = 150.0  // K, below any air on earth: an absurd height must not make the temperature negative
)

// air is static pressure and temperature over the flight.
type air struct {
	pressure    flightlog.Channel // Pa, for the density; one sample where nothing tells it
	forHeight   flightlog.Channel // Pa, of the calmer sensor; empty where nothing tells the height
	temperature *line             // K; nil when not logged
	atField     float64           // K at the start, where temperature is not logged
	assumed     bool              // the temperature is a guess
}

// newAir takes static pressure as logged, else from pressure altitude; the height from whichever of the two scatters less;
// temperature from the channel, else from the field's with the standard lapse.
func newAir(take taker, s Setup) (*air, []flightlog.Finding) {
	a := &air{atField: s.Temperature}
	static := positive(take(flightlog.StaticPressure))
	altitude := take(flightlog.Altitude)
	field := fieldPressure(static, altitude, s.Pressure)
	var findings []flightlog.Finding
	if !(field > 0) {
		field = atmosphere.SeaLevelPressure
		findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.StaticPressure,
			What:        "there is no static pressure, neither logged nor written down for the field: standard pressure at sea level is used",
			Consequence: "true airspeed may be off by some per cent; the airspeed scale takes that up where the flight has turns"})
	}
	byAltitude := pressureOf(altitude, field)
	a.forHeight = calmer(static, byAltitude)
	switch {
	case len(static.Time) > 0:
		a.pressure = static
	case len(byAltitude.Time) > 0:
		a.pressure = byAltitude
	default:
		a.pressure = flightlog.Channel{Time: []float64{0}, Value: []float64{field}}
	}
	if t := positive(take(flightlog.AirTemperature)); len(t.Time) > 0 {
		a.temperature = newLine(t)
	} else if !(a.atField > 0) {
		a.atField, a.assumed = atmosphere.SeaLevelTemperature, true
		findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.AirTemperature,
			What:        "there is no air temperature, neither logged nor written down for the field: 15 °C is used",
			Consequence: "ten degrees of error are 1.7 % of true airspeed and 3.5 % of height"})
	}
	if s.AirTold {
		findings = nil
	}
	return a, findings
}

// positive leaves out what no pressure and no temperature can be: zero and less.
func positive(c flightlog.Channel) flightlog.Channel {
	out := flightlog.Channel{Time: make([]float64, 0, len(c.Time)), Value: make([]float64, 0, len(c.Time))}
	for i, v := range c.Value {
		if v > 0 {
			out.Time, out.Value = append(out.Time, c.Time[i]), append(out.Value, v)
		}
	}
	return out
}

// fieldPressure is the pressure at which the altitude channel counts from zero: where both are logged, the one that makes them agree,
// whether the recording starts on the ground or in the air; else what was written down. Zero when nothing tells it.
func fieldPressure(static, altitude flightlog.Channel, written float64) float64 {
	if len(static.Time) == 0 {
		return written
	}
	if len(altitude.Time) == 0 {
		return static.Value[0]
	}
	l := newLine(static)
	var bases []float64
	for i, t := range altitude.Time {
		bases = append(bases, atmosphere.PressureAltitude(l.at(t))-altitude.Value[i])
	}
	state, err := atmosphere.Standard(statistic.Median(bases))
	if err != nil {
		return static.Value[0]
	}
	return state.Pressure
}

// calmer picks the channel whose noise is less, told from second differences; empty when neither is there.
func calmer(a, b flightlog.Channel) flightlog.Channel {
	if len(b.Time) < 3 || len(a.Time) >= 3 && whiteNoise(a.Value) <= whiteNoise(b.Value) {
		return a
	}
	return b
}

// pressureOf turns a pressure altitude above the field into static pressure.
func pressureOf(altitude flightlog.Channel, field float64) flightlog.Channel {
	base := atmosphere.PressureAltitude(field)
	var out flightlog.Channel
	for i, h := range altitude.Value {
		if state, err := atmosphere.Standard(base + h); err == nil {
			out.Time, out.Value = append(out.Time, altitude.Time[i]), append(out.Value, state.Pressure)
		}
	}
	return out
}

// kelvin is the air temperature at a time and height above the start.
func (a *air) kelvin(t, height float64) float64 {
	if a.temperature != nil {
		return a.temperature.at(t)
	}
	return math.Max(coldest, a.atField-standardLapse*height)
}

// height integrates the hydrostatic equation dh = −R·T/g·d(ln p) from the first samples on, where height is zero.
func (a *air) height() flightlog.Channel {
	var out flightlog.Channel
	p := a.forHeight
	if len(p.Time) < 3 {
		return out
	}
	n := 0 // samples of the first second, of which the mean is height zero
	for n < len(p.Time) && p.Time[n] < p.Time[0]+1 {
		n++
	}
	last := math.Log(statistic.Median(p.Value[:n]))
	h := 0.0
	for i, t := range p.Time {
		if !(p.Value[i] > 0) {
			continue
		}
		now := math.Log(p.Value[i])
		h -= atmosphere.GasConstant * a.kelvin(t, h) / atmosphere.Gravity * (now - last)
		last = now
		out.Time, out.Value = append(out.Time, t), append(out.Value, h)
	}
	return out
}

// trueAirspeed turns calibrated airspeed into true airspeed; what comes out as no number is left out.
func (a *air) trueAirspeed(c flightlog.Channel) flightlog.Channel {
	pressure := newLine(a.pressure)
	h := newLine(a.height())
	out := flightlog.Channel{Time: make([]float64, 0, len(c.Time)), Value: make([]float64, 0, len(c.Time))}
	for i, t := range c.Time {
		up := 0.0
		if len(h.Time) > 0 {
			up = h.at(t)
		}
		if v := atmosphere.TrueAirspeed(c.Value[i], pressure.at(t), a.kelvin(t, up)); math.Abs(v) <= absurd {
			out.Time, out.Value = append(out.Time, t), append(out.Value, v)
		}
	}
	return out
}

// scaleDeviation is what an error of the temperature does to the airspeed scale: true airspeed goes with √T, and the filter sees only that.
func (a *air) scaleDeviation() float64 {
	kelvin := loggedKelvin
	if a.assumed {
		kelvin = assumedKelvin
	}
	return kelvin / (2 * atmosphere.SeaLevelTemperature)
}
