package rehearse

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// Polar is drag against lift, CD = Min + Factor·(CL − LiftAtMin)², at model scale with the propeller's drag excluded.
type Polar struct {
	Min       float64
	Factor    float64
	LiftAtMin float64
}

// Propulsion is a propeller whose thrust fades linearly with airspeed:
// T = throttle·Static·(1 − V/ZeroThrustSpeed), along body X.
type Propulsion struct {
	Static          float64 // N at full throttle
	ZeroThrustSpeed float64 // m/s true
	Height          float64 // thrust line above the CG, m at model size; positive pitches nose down
	WindmillDrag    float64 // increment of the drag coefficient when idle
	Lag             float64 // time constant of thrust behind throttle, s
}

// Servo moves a control surface after its command.
type Servo struct {
	Delay float64 // s
	Lag   float64 // time constant, s
	Rate  float64 // highest rate of the surface, rad/s
}

// Travel is the range of a control in rad.
type Travel struct{ Min, Max float64 }

// Aircraft is one configuration of the model on one day.
type Aircraft struct {
	Derivatives aero.Derivatives // full size, about any moment point
	LengthRatio float64          // model over full size
	CGX, CGZ    float64          // full-size m: aft of datum and above datum
	Body        stability.Body   // the model's mass and inertias, kg and kg·m²
	Polar       Polar
	Propulsion  Propulsion
	MaxLift     float64 // trimmed lift coefficient at which the foreplane lets go
	Servo       Servo
	Elevator    Travel
	Aileron     Travel
	Rudder      Travel
}

// DefaultAircraft fills propulsion, servo and travels with plausible values for a model of this mass:
// thrust for a climb of about one in five, a propeller that adds 0.004 to the drag coefficient when idle,
// hobby servos, ±25° of travel. The values are invented; replace what is known.
func DefaultAircraft(d aero.Derivatives, lengthRatio, cgX, cgZ float64, body stability.Body, polar Polar, maxLift float64) Aircraft {
	const travel = 25 * math.Pi / 180
	ac := Aircraft{
		Derivatives: d, LengthRatio: lengthRatio, CGX: cgX, CGZ: cgZ, Body: body, Polar: polar, MaxLift: maxLift,
		Servo:    Servo{Delay: 0.02, Lag: 0.04, Rate: 6},
		Elevator: Travel{-travel, travel}, Aileron: Travel{-travel, travel}, Rudder: Travel{-travel, travel},
	}
	ac.Propulsion = Propulsion{
		Static:          0.6 * body.Mass * atmosphere.Gravity,
		ZeroThrustSpeed: 3.4 * ac.StallSpeed(atmosphere.SeaLevelDensity),
		WindmillDrag:    0.004,
		Lag:             0.25,
	}
	return ac
}

// StallSpeed is the true airspeed [m/s] at which the model needs MaxLift in level flight in air of a
// density [kg/m³]; at sea-level density it is the calibrated airspeed.
func (a Aircraft) StallSpeed(density float64) float64 {
	area := a.Derivatives.Reference.Area * a.LengthRatio * a.LengthRatio
	return math.Sqrt(2 * a.Body.Mass * atmosphere.Gravity / (density * area * a.MaxLift))
}

func (a Aircraft) check() error {
	r := a.Derivatives.Reference
	b := a.Body
	switch {
	case !(r.Area > 0 && r.Span > 0 && r.MeanChord > 0):
		return fmt.Errorf("rehearse: reference area %g m², span %g m and mean chord %g m must be positive", r.Area, r.Span, r.MeanChord)
	case !(a.LengthRatio > 0):
		return fmt.Errorf("rehearse: length ratio %g is not positive; give model over full size, such as 0.25", a.LengthRatio)
	case !(b.Mass > 0 && b.Ix > 0 && b.Iy > 0 && b.Iz > 0 && b.Ix*b.Iz > b.Ixz*b.Ixz):
		return fmt.Errorf("rehearse: mass %g kg and inertias %g, %g, %g (product %g) kg·m² are not those of a body", b.Mass, b.Ix, b.Iy, b.Iz, b.Ixz)
	case !(a.MaxLift > 0):
		return fmt.Errorf("rehearse: highest trimmed lift coefficient %g is not positive", a.MaxLift)
	case !(a.Polar.Min >= 0 && a.Polar.Factor >= 0):
		return fmt.Errorf("rehearse: drag polar with CDmin %g and k %g is negative", a.Polar.Min, a.Polar.Factor)
	case !(a.Propulsion.Static >= 0 && a.Propulsion.ZeroThrustSpeed > 0):
		return fmt.Errorf("rehearse: static thrust %g N or speed of no thrust %g m/s is not positive", a.Propulsion.Static, a.Propulsion.ZeroThrustSpeed)
	case !(a.Servo.Rate > 0):
		return fmt.Errorf("rehearse: servo rate %g rad/s is not positive", a.Servo.Rate)
	}
	for _, t := range []struct {
		name   string
		travel Travel
	}{{"elevator", a.Elevator}, {"aileron", a.Aileron}, {"rudder", a.Rudder}} {
		if !(t.travel.Min < t.travel.Max) {
			return fmt.Errorf("rehearse: %s travel from %g to %g rad is empty", t.name, t.travel.Min, t.travel.Max)
		}
	}
	return nil
}

// clip keeps a command inside the travel.
func (t Travel) clip(x float64) float64 { return math.Max(t.Min, math.Min(t.Max, x)) }
