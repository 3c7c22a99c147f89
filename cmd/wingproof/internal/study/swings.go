package study

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/flightlog"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/response"
	"wingproof/flightlog/source"
)

// handsOffWait is what a servo and the roll take to die out behind the last movement, s. Common practice, no source.
const handsOffWait = 0.3

// dutchRolls reads the Dutch roll off the hands-off end of every rudder input of a flight.
func (s *Study) dutchRolls(f Flight) []estimate.Swing {
	var out []estimate.Swing
	var in swingInputs
	for _, segment := range f.Reduction.Segments {
		if segment.Control == flightlog.RudderLeft {
			free, from, to := freeResponse(segment)
			in.Free = append(in.Free, free)
			out = append(out, estimate.Swing{Flight: f.Name, Power: segment.Power, Aircraft: s.modelAsFlown(segment, from, to)})
		}
	}
	for i, mode := range in.modes(s.keep) {
		out[i].Mode = mode
	}
	return out
}

// swingInputs are the hands-off ends of one flight's rudder inputs.
type swingInputs struct{ Free []response.Stretch }

// modes finds what the same stretches gave before, or reads the motion off them.
func (in swingInputs) modes(store *keep.Store) []response.Mode {
	if len(in.Free) == 0 {
		return nil
	}
	out, _ := keep.Result(store, keep.Work[[]response.Mode]{Kind: "swings", Inputs: in, Compute: func() ([]response.Mode, error) {
		modes := make([]response.Mode, len(in.Free))
		for i, free := range in.Free {
			modes[i] = response.FindDutchRoll(free)
		}
		return modes, nil
	}})
	return out
}

// swingsAt are those of flights with one state of power.
func swingsAt(flights []Flight, power string) []estimate.Swing {
	var out []estimate.Swing
	for _, f := range flights {
		for _, swing := range f.Dynamics.Swings {
			if swing.Power == power {
				out = append(out, swing)
			}
		}
	}
	return out
}

// freeResponse is the part of a segment in which rudder and ailerons are held, and its first sample and that behind its last.
func freeResponse(segment identify.Segment) (free response.Stretch, from, to int) {
	controls := []response.Control{{Name: "rudder", Values: segment.Rudder}, {Name: "ailerons", Values: segment.Aileron}}
	from, to = response.HandsOff(segment.Step, handsOffWait, controls)
	whole := response.Stretch{Step: segment.Step, Airspeed: segment.Airspeed, Controls: controls, Signals: []response.Signal{
		{Name: "yaw rate", Values: segment.YawRate}, {Name: "roll rate", Values: segment.RollRate}, {Name: "side force", Values: segment.RightForce}}}
	return whole.Cut(from, to), from, to
}

// modelAsFlown is the model in a part of one segment, for the motion that its derivatives give; in all of it where the part is empty.
func (s *Study) modelAsFlown(segment identify.Segment, from, to int) estimate.ModeAircraft {
	ratio := s.Program.Model.LengthRatio
	if from >= to {
		from, to = 0, len(segment.Airspeed)
	}
	speed, alpha := middleOf(segment.Airspeed[from:to]), middleOf(segment.Alpha[from:to])
	upright := 0.0
	for _, roll := range segment.Roll[from:to] {
		upright += math.Cos(roll) / float64(to-from)
	}
	return estimate.ModeAircraft{Scale: "model", LengthRatio: ratio, Reference: s.Configurations[0].Airframe.Reference.Scaled(ratio), Body: segment.Body,
		CGX: segment.CGX, CGZ: segment.CGZ, Speed: speed, Density: segment.Density, Alpha: alpha, Bank: math.Acos(math.Max(0, math.Min(1, upright))), Drag: usualDrag, Errors: s.modelErrors()}
}

// modelInLevelFlight is the model at the speed of a segment, but at the angle of attack of level flight: about an input models turn and pull.
func (s *Study) modelInLevelFlight(segment identify.Segment) estimate.ModeAircraft {
	out := s.modelAsFlown(segment, 0, 0)
	level, flown := s.liftOf(segment, out.Speed)
	out.Bank = 0
	out.Alpha += (level - flown) / s.Configurations[0].TrimmedLiftSlope
	return out
}

// liftOf is the lift coefficient that level flight takes at a speed, and the mean one of a segment, which turned or sank.
func (s *Study) liftOf(segment identify.Segment, speed float64) (level, flown float64) {
	ratio := s.Program.Model.LengthRatio
	area := s.Configurations[0].Airframe.Reference.Area * ratio * ratio
	over := 2 * segment.Body.Mass / (segment.Density * speed * speed * area)
	for k, down := range segment.DownForce {
		sin, cos := math.Sincos(segment.Alpha[k])
		flown += over * (segment.ForwardForce[k]*sin - down*cos) / float64(len(segment.DownForce))
	}
	return over * atmosphere.Gravity, flown
}

// The drag coefficient of an aircraft of this kind where its glides do not tell, and one standard deviation: only the phugoid asks. Common
// practice, no source.
const (
	usualDrag   = 0.04
	usualDragSD = 0.012
)

// polar is the drag of a configuration as its glides tell it.
type polar struct{ zero, factor, at, sd float64 }

// polarOf takes the drag polar of a fit; where the glides do not tell it, what is usual with a wide error.
func polarOf(f Fit) polar {
	if f.ZeroLiftDrag.Value == nil || f.ZeroLiftDrag.SD == nil || f.DragDueToLift.Value == nil || f.DragDueToLift.State == estimate.NotDetermined {
		return polar{zero: usualDrag, sd: usualDragSD}
	}
	p := polar{zero: *f.ZeroLiftDrag.Value, factor: *f.DragDueToLift.Value, sd: *f.ZeroLiftDrag.SD}
	if v := f.LiftAtMinDrag.Value; v != nil {
		p.at = *v
	}
	p.zero -= p.factor * p.at * p.at
	return p
}

// on gives an aircraft in level flight the drag of the polar, with its slope for a lift slope. Models fly at other Reynolds numbers than the aircraft
// that is built; how much less drag that one has is left out, and the phugoid's damping falls with it.
func (p polar) on(a estimate.ModeAircraft, slope float64) estimate.ModeAircraft {
	lift := 2 * a.Body.Mass * atmosphere.Gravity / (a.Density * a.Speed * a.Speed * a.Reference.Area)
	d := lift - p.at
	a.Drag, a.DragByAlpha = p.zero+p.factor*d*d, 2*p.factor*d*slope
	a.Errors.Drag = map[string]float64{source.GlideDrag: p.sd}
	return a
}

// modelErrors says what the shared sources do to the model as it was reported.
func (s *Study) modelErrors() estimate.ModeErrors {
	e := s.dynamicErrors()
	one := func(name string, sd float64) map[string]float64 { return map[string]float64{name: sd} }
	return estimate.ModeErrors{
		Mass: one(source.Mass, e.Mass), InertiaX: one(source.InertiaX, e.InertiaX), InertiaY: one(source.InertiaY, e.InertiaY), InertiaZ: one(source.InertiaZ, e.InertiaZ),
		Speed: one(source.AirspeedScale, e.AirspeedScale), CG: one(source.CG, e.CG), Alpha: one(source.Alpha, e.Mounting),
	}
}

// middleOf is the mean of finite values; 0 of none.
func middleOf(values []float64) float64 {
	sum, n := 0.0, 0
	for _, v := range values {
		if finite(v) {
			sum += v
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}
