package flightlog

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// scaledUnit knows units that loggers write and program.toml reaches by a factor that a person would write. All are exact but that of
// degrees a minute, which is so to 2·10⁻⁶.
func scaledUnit(written string, d unit.Dimension) (u unit.Unit, scale float64, ok bool) {
	w := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(written)), " ", "")
	for _, s := range []struct {
		written string
		as      string
		d       unit.Dimension
		scale   float64
	}{
		{"ft/min", "m_s", unit.Speed, 0.00508}, {"fpm", "m_s", unit.Speed, 0.00508}, {"m/min", "km_h", unit.Speed, 0.06},
		{"cm/s", "m_s", unit.Speed, 0.01}, {"mm/s", "m_s", unit.Speed, 0.001},
		{"mg", "gee", unit.Acceleration, 0.001}, {"milli-g", "gee", unit.Acceleration, 0.001}, {"cm/s²", "m_s2", unit.Acceleration, 0.01}, {"cm/s2", "m_s2", unit.Acceleration, 0.01},
		{"mrad", "rad", unit.Angle, 0.001}, {"cdeg", "deg", unit.Angle, 0.01}, {"mrad/s", "rad_s", unit.AngularRate, 0.001}, {"mdeg/s", "deg_s", unit.AngularRate, 0.001},
		{"deg/min", "deg_s", unit.AngularRate, 0.0166667}, {"bar", "kpa", unit.Pressure, 100},
	} {
		if w == s.written && d == s.d {
			u, ok := unit.Lookup(s.as, d)
			return u, s.scale, ok
		}
	}
	return unit.Unit{}, 1, false
}

// unitFromNumbers guesses a unit from the size of a column's numbers; empty when they do not tell.
func unitFromNumbers(q Quantity, values []float64) (name, why string) {
	if len(values) == 0 {
		return "", "the column holds no numbers in the sample"
	}
	size := statistic.Magnitudes(values)
	middle, largest := statistic.Median(size), statistic.Quantile(size, 0.999)
	says := func(name string) (string, string) {
		return name, fmt.Sprintf("no unit in the head; the numbers (median %.4g, largest %.4g) look like %s", middle, largest, name)
	}
	switch q.Dimension() {
	case unit.Acceleration:
		if largest < 8 && (q != DownAcceleration || middle < 2) {
			return says("gee")
		}
		return says("m_s2")
	case unit.AngularRate:
		if largest > 6 { // rad/s would be a turn in a second
			return says("deg_s")
		}
		return says("rad_s")
	case unit.Angle:
		if largest > mostRadians(q) {
			return says("deg")
		}
		return says("rad")
	case unit.Share:
		if largest > 1.5 {
			return says("percent")
		}
		return says("share")
	case unit.Pressure:
		return says(pressureUnit(middle))
	case unit.Temperature:
		switch {
		case middle > 200:
			return says("k")
		case middle > 45: // no crew flies in such heat
			return says("f")
		}
		return says("c")
	case unit.Speed:
		return says("m_s")
	case unit.Length:
		return says("m")
	}
	return "", "the numbers do not tell the unit"
}

// mostSurface is more than any control surface, or any angle of attack in flight, reaches in radians: common practice, no source.
const mostSurface = 1.2

// mostRadians is the largest number that an angle can have in radians.
func mostRadians(q Quantity) float64 {
	switch q {
	case PitchAngle:
		return math.Pi/2 + 0.01
	case RollAngle:
		return math.Pi + 0.01
	case Heading, GroundTrack:
		return 2*math.Pi + 0.01
	}
	return mostSurface
}

// pressureUnit tells apart the sizes that one atmosphere has.
func pressureUnit(middle float64) string {
	switch {
	case middle > 20000:
		return "pa"
	case middle > 200:
		return "hpa"
	case middle > 40:
		return "kpa"
	}
	return "inhg"
}

// plausible doubts a column whose numbers, in the unit of its head, lie where no model flies. The bounds are wide: common
// practice, no source.
func (g *Guess) plausible(u unit.Unit, values []float64) {
	if len(values) == 0 {
		g.seen, g.Why = doubted, "the column holds no numbers in the sample"
		return
	}
	low, high := math.Inf(-1), math.Inf(1)
	switch g.Is {
	case RollRate, PitchRate, YawRate:
		low, high = -20, 20
	case ForwardAcceleration, RightAcceleration, DownAcceleration:
		low, high = -150, 150
	case RollAngle, PitchAngle, Heading, GroundTrack:
		low, high = -2*math.Pi-0.01, 2*math.Pi+0.01
	case Elevator, Aileron, RudderLeft, RudderRight, AngleOfAttack, Sideslip:
		low, high = -1.2, 1.2
	case Airspeed, GroundSpeed:
		low, high = -2, 130
	case ClimbRate:
		low, high = -60, 60
	case StaticPressure:
		low, high = 5e4, 1.1e5
	case AirTemperature:
		low, high = 230, 330
	case Altitude:
		low, high = -500, 6000
	case Throttle:
		low, high = -0.2, 1.2
	}
	least, most := u.SI(statistic.Quantile(values, 0.01))*g.Scale, u.SI(statistic.Quantile(values, 0.99))*g.Scale
	if g.Scale != 1 { // an offset of the unit takes no part in a factor
		least, most = g.Scale*u.Factor*statistic.Quantile(values, 0.01), g.Scale*u.Factor*statistic.Quantile(values, 0.99)
	}
	if least < low || most > high {
		g.seen = doubted
		g.Why += fmt.Sprintf("; but the numbers, %.4g to %.4g, are not those of a model in that unit: check it", statistic.Quantile(values, 0.01), statistic.Quantile(values, 0.99))
	}
}

// shareRateUnit gives the three gyros one unit where the head names none: the one whose numbers can only be degrees
// decides.
func (d *draft) shareRateUnit() {
	rates := []Quantity{RollRate, PitchRate, YawRate}
	degrees := false
	for _, q := range rates {
		i, ok := d.taken[q]
		degrees = degrees || ok && !d.guesses[i].written && d.guesses[i].Unit == "deg_s"
	}
	for _, q := range rates {
		if i, ok := d.taken[q]; ok && degrees && !d.guesses[i].written && d.guesses[i].Unit == "rad_s" {
			d.guesses[i].Unit = "deg_s"
			d.guesses[i].Why += "; taken as deg_s like the other rates"
		}
	}
}
