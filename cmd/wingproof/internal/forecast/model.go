package forecast

import (
	"cmp"
	"math"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/rehearse"
)

// model is the aircraft of a configuration as it is believed, at a true CG [full-size m] and with a true body.
func (r *rehearsal) model(c study.Configuration, cg, cgZ float64, body stability.Body) (rehearse.Aircraft, error) {
	d, err := derivativesOf(r.study, c)
	if err != nil {
		return rehearse.Aircraft{}, err
	}
	offset, ok := r.offsets[c.Name]
	if !ok {
		offset = r.offset
	}
	p := r.study.Program
	ac := rehearse.DefaultAircraft(offset.on(d), p.Model.LengthRatio, cg, cgZ, body, r.polar(c), r.greatestLift(c.Name))
	ac.Propulsion.WindmillDrag = 0 // what glides gave holds the propeller's drag
	ac.Continuous = true
	for control, travel := range map[string]*rehearse.Travel{stability.Elevator: &ac.Elevator, "aileron": &ac.Aileron, "rudder": &ac.Rudder} {
		if t, ok := TravelOf(p, control); ok {
			*travel = t
		}
	}
	ac.Servos = r.servos
	return ac, nil
}

// TravelOf is the travel of a control as program.toml states it.
func TravelOf(p *program.Program, control string) (rehearse.Travel, bool) {
	for _, surface := range p.Surfaces {
		for _, h := range surface.Hinges {
			if h.Control == control && h.TravelMin < h.TravelMax {
				return rehearse.Travel{Min: h.TravelMin, Max: h.TravelMax}, true
			}
		}
	}
	return rehearse.Travel{}, false
}

// polar is the drag of a configuration: as its own glides gave it, else as those of the others did on the mean.
func (r *rehearsal) polar(c study.Configuration) rehearse.Polar {
	p := rehearse.Polar{Factor: profileShare * c.InducedDrag / (study.PredictionLift * study.PredictionLift)}
	value := func(of func(study.Fit) estimate.Result, usual float64) float64 {
		return valueOf(r.study.Fits, c.Name, of, usual)
	}
	p.Factor = value(func(f study.Fit) estimate.Result { return f.DragDueToLift }, p.Factor)
	p.LiftAtMin = value(func(f study.Fit) estimate.Result { return f.LiftAtMinDrag }, 0)
	p.Factor = math.Max(p.Factor, 0.01)
	zero := value(func(f study.Fit) estimate.Result { return f.ZeroLiftDrag }, baseDrag)
	p.Min = math.Max(zero-p.Factor*p.LiftAtMin*p.LiftAtMin, 0.2*baseDrag)
	return p
}

// valueOf is a result of the fit of a configuration, else the mean over the others that have it, else the usual value.
func valueOf(fits []study.Fit, configuration string, of func(study.Fit) estimate.Result, usual float64) float64 {
	sum, n := 0.0, 0.0
	for _, f := range fits {
		v := of(f).Value
		switch {
		case v == nil:
		case f.Configuration == configuration:
			return *v
		default:
			sum, n = sum+*v, n+1
		}
	}
	if n == 0 {
		return usual
	}
	return sum / n
}

// greatestLift is the highest that decelerations of a configuration came to: at a forward CG the elevator may end first.
func (r *rehearsal) greatestLift(configuration string) float64 {
	own, any := 0.0, 0.0
	for _, f := range r.study.Fits {
		for _, m := range f.MaxLifts {
			if m.Value == nil {
				continue
			}
			any = math.Max(any, *m.Value)
			if f.Configuration == configuration {
				own = math.Max(own, *m.Value)
			}
		}
	}
	switch {
	case own > 0:
		return own
	case any > 0:
		return any
	}
	return usualLift
}

// usualRate is that of a hobby servo, rad/s, where no bench test states it. Common practice, no source.
const usualRate = 6.0

// ServosOf are the servos of the bench tests, by control; off is by how many standard deviations the lag of a control is off.
func ServosOf(p *program.Program, off func(control string) float64) map[string]rehearse.Servo {
	out := map[string]rehearse.Servo{}
	for _, v := range p.Servos {
		name := string(v.Control)
		if v.Control == flightlog.RudderLeft {
			name = "rudder"
		}
		out[name] = rehearse.Servo{Delay: v.Delay, Lag: math.Max(0, v.Lag+off(name)*v.LagSD), Rate: cmp.Or(v.Rate, usualRate), Backlash: v.Backlash}
	}
	return out
}
