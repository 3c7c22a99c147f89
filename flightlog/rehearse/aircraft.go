package rehearse

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

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
//
// A propeller under power that meets the air at an angle also pulls across its shaft, towards where the air comes from:
// along body −Z with the coefficient throttle·NormalForce·(α + q·Aft/V). Behind the CG, as on a pusher, that lifts and steadies.
type Propulsion struct {
	Static          float64 // N at full throttle
	ZeroThrustSpeed float64 // m/s true
	Height          float64 // thrust line above the CG, m at model size; positive pitches nose down
	WindmillDrag    float64 // increment of the drag coefficient when idle
	Lag             float64 // time constant of thrust behind throttle, s
	NormalForce     float64 // per rad of angle of attack at full throttle, on the reference area; 0 leaves it out
	Aft             float64 // propeller behind the CG, m at model size; negative ahead of it
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
	MaxLift     float64 // trimmed lift coefficient at which the first surface lets go; see HighestLift
	Stall       Stall   // which surface that is; the zero Stall is the foreplane
	Servo       Servo   // of every control that Servos does not name
	Elevator    Travel
	Aileron     Travel
	Rudder      Travel

	Servos     map[string]Servo  // by control: elevator, aileron, rudder
	Stabiliser Stabiliser        // the zero Stabiliser is off
	AlphaRate  aero.Coefficients // per α̇c/2V about the moment point of Derivatives; Lift and Pitch only
	BetaRate   aero.Coefficients // per β̇b/2V likewise; Side, Roll and Yaw only

	// Continuous lets surfaces and thrust move within a step of the integration and a delay be any part of one. Without it
	// a surface is from the beginning of a step where the servo brings it by its end, about 5 ms early, and delays are whole
	// steps: as logs were rehearsed before there was a choice. Set it where timing matters, as in derivatives.
	Continuous bool
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
	case a.Propulsion.NormalForce < 0:
		return fmt.Errorf("rehearse: normal force of the propeller %g per rad is negative; it pulls towards where the air comes from", a.Propulsion.NormalForce)
	case a.AlphaRate.Drag != 0 || a.AlphaRate.Side != 0 || a.AlphaRate.Roll != 0 || a.AlphaRate.Yaw != 0:
		return errors.New("rehearse: derivatives by the rate of angle of attack can be of lift and pitch only")
	case a.BetaRate.Lift != 0 || a.BetaRate.Drag != 0 || a.BetaRate.Pitch != 0:
		return errors.New("rehearse: derivatives by the rate of sideslip can be of side force, roll and yaw only")
	}
	if err := a.Stall.check(); err != nil {
		return err
	}
	if err := a.Stabiliser.check(); err != nil {
		return err
	}
	return a.checkControls()
}

// checkControls looks at travels and servos.
func (a Aircraft) checkControls() error {
	for i, t := range [...]Travel{a.Elevator, a.Aileron, a.Rudder} {
		name := controlNames()[i]
		if !(t.Min < t.Max) {
			return fmt.Errorf("rehearse: %s travel from %g to %g rad is empty", name, t.Min, t.Max)
		}
		if err := a.servo(name).check(name); err != nil {
			return err
		}
	}
	names := controlNames()
	for _, name := range slices.Sorted(maps.Keys(a.Servos)) {
		if !slices.Contains(names[:], name) {
			return fmt.Errorf("rehearse: a servo for %q; write elevator, aileron or rudder", name)
		}
	}
	return nil
}

// controlNames are the controls of the pilot, in the order in which commands and surfaces are kept.
func controlNames() [3]string { return [3]string{stability.Elevator, "aileron", "rudder"} }

// servo of a control.
func (a Aircraft) servo(control string) Servo {
	if s, ok := a.Servos[control]; ok {
		return s
	}
	return a.Servo
}

// clip keeps a command inside the travel.
func (t Travel) clip(x float64) float64 { return math.Max(t.Min, math.Min(t.Max, x)) }
