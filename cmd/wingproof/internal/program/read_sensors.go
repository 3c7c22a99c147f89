package program

import (
	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

// Bounds that catch a wrong unit or a slipped digit (common practice, no source): no model is longer than this, and no
// channel of a useful log comes later.
const (
	mostReach = 20.0 // m, model size
	mostDelay = 10.0 // s
)

// delay is how much later than its instant a sample of a channel is written.
func delay() measure {
	return measure{stem: "delay", dimension: unit.Time, usual: "s", high: mostDelay}
}

// sensors reads where the sensors of a logger sit. The places stay at model size, as flightlog.Sensors has them.
func (s *scope) sensors() flightlog.Sensors {
	const example = "sensors = { inertial = { x_mm = 900, y_mm = 0, z_mm = 40 } }"
	var out flightlog.Sensors
	group := s.group("sensors", example, false)
	if group == nil {
		return out
	}
	group.name = "sensors"
	for _, sensor := range []struct {
		name string
		into **flightlog.Place
	}{{"inertial", &out.Inertial}, {"tube", &out.Tube}, {"vanes", &out.Vanes}, {"antenna", &out.Antenna}} {
		if g := group.group(sensor.name, sensor.name+" = { x_mm = 900, y_mm = 0, z_mm = 40 }", false); g != nil {
			g.name = "sensor " + sensor.name
			*sensor.into = g.sensorPlace()
		}
	}
	group.done()
	return out
}

// sensorPlace reads the place of one sensor; nil when a coordinate is missing or wrong.
func (s *scope) sensorPlace() *flightlog.Place {
	var p flightlog.Place
	whole := true
	for _, coordinate := range []struct {
		stem string
		into *float64
	}{{"x", &p.X}, {"y", &p.Y}, {"z", &p.Z}} {
		m := length(coordinate.stem).in("mm").atLeast(-mostReach).atMost(mostReach).required()
		stated := false
		*coordinate.into, stated = s.number(m)
		whole = whole && stated
	}
	s.done()
	if !whole {
		return nil
	}
	return &p
}
