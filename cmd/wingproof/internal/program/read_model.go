package program

import "math"

// Defaults of [model.errors]: common practice, no source.
const (
	defaultAirspeedScale = 0.015
	defaultDensity       = 0.005
	defaultAlpha         = 0.3 * math.Pi / 180
	defaultElevator      = 0.3 * math.Pi / 180
	defaultElevatorScale = 0.03
	defaultAileronScale  = 0.03
	defaultRudderScale   = 0.03
	defaultVerticalAir   = 0.2
)

func (l *loader) readModel(s *scope) {
	m := &l.p.Model
	var errors *scope
	if s != nil {
		ratio := number("length_ratio", 0, 1).required()
		ratio.open = true
		m.LengthRatio, _ = s.number(ratio)
		if file, at := s.text("weighings", false); file != "" {
			clean, right := cleanPath(file)
			if right != "" {
				s.wrong(at, "the path "+quoted(file)+" leads out of the program folder", right)
			} else {
				l.weighings = clean
			}
		}
		m.TestAltitude, _ = s.number(length("test_altitude").atMost(6000).atLeast(-500))
		errors = s.group("errors", "[model.errors]", false)
		l.readBays(s.groups("bay", "[[model.bay]]", false))
		s.done()
	}
	l.readInstrumentErrors(errors)
}

func (l *loader) readInstrumentErrors(s *scope) {
	if s == nil {
		l.p.Model.Errors = InstrumentErrors{defaultAirspeedScale, defaultDensity, defaultAlpha, defaultElevator, defaultElevatorScale, defaultAileronScale, defaultRudderScale, defaultVerticalAir}
		return
	}
	e := &l.p.Model.Errors
	e.AirspeedScale, _ = s.number(percent("airspeed_scale", 0, 30).or(defaultAirspeedScale))
	e.Density, _ = s.number(percent("density", 0, 30).or(defaultDensity))
	e.Alpha, _ = s.number(angle("alpha", 0, 20).or(defaultAlpha))
	e.Elevator, _ = s.number(angle("elevator", 0, 20).or(defaultElevator))
	e.ElevatorScale, _ = s.number(percent("elevator_scale", 0, 50).or(defaultElevatorScale))
	e.AileronScale, _ = s.number(percent("aileron_scale", 0, 50).or(defaultAileronScale))
	e.RudderScale, _ = s.number(percent("rudder_scale", 0, 50).or(defaultRudderScale))
	e.VerticalAir, _ = s.number(speed("vertical_air", 5).in("m_s").or(defaultVerticalAir))
	s.done()
}
