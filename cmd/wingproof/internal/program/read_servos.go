package program

import (
	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

// Servo is how a control surface of the model follows its command, as a bench test found it.
type Servo struct {
	Control  flightlog.Quantity // elevator, aileron or rudder_left, which stands for both rudders
	Delay    float64            // s
	Lag      float64            // time constant, s
	Rate     float64            // highest rate, rad/s; 0 when not stated
	Backlash float64            // whole width of the play, rad
	LagSD    float64            // s, of the lag
	Source   string
}

// defaultLagSD is the error of a bench test that states none, s: a film of a surface has a picture every 4 to 20 ms. Common
// practice, no source.
const defaultLagSD = 0.008

// servoControls are the names that [servo.NAME] may carry.
func servoControls() []string { return []string{"elevator", "aileron", "rudder"} }

func (l *loader) readServos(all []*scope) {
	for _, s := range all {
		name, ok := known(s.v.text, servoControls())
		if !ok {
			s.wrong(s.v.at, "[servo."+s.v.text+"] names no control", "write "+oneOf(servoControls()))
		}
		v := Servo{Control: flightlog.Quantity(name)}
		if name == "rudder" {
			v.Control = flightlog.RudderLeft
		}
		v.Delay, _ = s.number(milliseconds("delay", 0.5).required())
		v.Lag, _ = s.number(milliseconds("lag", 0.5).required())
		v.Rate, _ = s.number(measure{stem: "rate", dimension: unit.AngularRate, usual: "deg_s", high: 100})
		v.Backlash, _ = s.number(angle("backlash", 0, 10))
		v.LagSD, _ = s.number(milliseconds("lag_sd", 0.2).or(defaultLagSD))
		v.Source, _ = s.text("source", true)
		s.done()
		l.p.Servos = append(l.p.Servos, v)
	}
}

func milliseconds(stem string, high float64) measure {
	return measure{stem: stem, dimension: unit.Time, usual: "ms", high: high}
}
