package rehearse

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// seen is what the pilot goes by.
type seen struct {
	time                 float64 // s from the start of the recording
	indicated            float64 // airspeed, m/s, with the error of its scale
	height               float64 // m above the field
	climb                float64 // m/s
	roll, pitch, heading float64 // rad
	rollRate, pitchRate  float64 // rad/s
	yawRate              float64 // rad/s
	north, east          float64 // m from the field
	speed                float64 // true airspeed, m/s
}

// commands go to the servos and the motor.
type commands struct{ elevator, aileron, rudder, throttle float64 }

// pilot flies by slow loops. Times scale with the square root of the length ratio, as the motions of the
// model do.
type pilot struct {
	f      *airframe
	quick  float64 // 1/√λ: how much quicker than full size everything goes
	kTheta float64 // elevator per pitch error
	kRate  float64 // elevator per pitch rate, s
	kRoll  float64 // aileron per roll rate wanted, × V, m

	pitchWanted float64 // slewed command, rad
	speedSeen   float64 // airspeed after a short lag
	sumPitch    float64 // integrators
	sumThrottle float64
	sumRoll     float64
	heading     float64 // to hold
}

// speedLag is how slowly the pilot follows the airspeed indicator, s.
const speedLag = 0.5

// attitudeFirmness is the attitude loop's moment per angle over the aircraft's own static stability
// (at a margin of at least 5 %): firm enough to damp the phugoid, soft enough to leave the elevator still.
const attitudeFirmness = 1.0

func newPilot(f *airframe) *pilot {
	p := &pilot{f: f, quick: 1 / math.Sqrt(f.LengthRatio)}
	stiffness := math.Max(math.Abs(f.d.ByAlpha.Pitch), 0.05*f.d.ByAlpha.Lift)
	p.kTheta = attitudeFirmness * stiffness / f.elevator.Pitch
	p.kRate = 0.1 * p.kTheta
	p.kRoll = -f.d.ByRollRate.Roll / f.aileron.Roll * f.span / 2
	return p
}

// aim is the steady state that a card wants: the pilot's idea of attitude, elevator and throttle.
type aim struct{ alpha, path, elevator, throttle float64 }

// expect works out the steady state for a calibrated speed, bank and throttle; a negative throttle asks
// for level flight.
func (p *pilot) expect(speed, bank, throttle float64) aim {
	f := p.f
	weight := f.Body.Mass * atmosphere.Gravity
	pressure := 0.5 * atmosphere.SeaLevelDensity * speed * speed * f.area
	lift := weight / (pressure * math.Cos(bank))
	alpha, elevator, err := stability.Trim(f.d, math.Min(lift, 0.97*f.MaxLift))
	if err != nil { // newAirframe has trimmed this aircraft once, so the elevator works
		return aim{}
	}
	away := lift - f.Polar.LiftAtMin
	drag := pressure * (f.Polar.Min + f.Polar.Factor*away*away)
	full := math.Max(f.thrust(speed, 1), 1e-3*weight)
	if throttle < 0 {
		return aim{alpha, 0, elevator, math.Min(1, drag/full)}
	}
	drag += pressure * f.Propulsion.WindmillDrag * idle(throttle)
	sin := (throttle*full - drag) / weight
	return aim{alpha, math.Asin(math.Max(-0.5, math.Min(0.4, sin))), elevator, throttle}
}

// begin forgets the integrators of the last card.
func (p *pilot) begin(s seen) {
	p.sumPitch, p.sumThrottle, p.sumRoll = 0, 0, 0
	p.heading = s.heading
}

// elevator closes the attitude loop about a wanted pitch attitude that moves no faster than a hand would.
func (p *pilot) elevator(s seen, a aim, wanted, dt float64) float64 {
	step := 0.2 * p.quick * dt
	p.pitchWanted += math.Max(-step, math.Min(step, wanted-p.pitchWanted))
	turning := math.Sin(s.roll) * math.Tan(s.roll) * atmosphere.Gravity / math.Max(s.speed, 5)
	return a.elevator + p.kTheta*(p.pitchWanted-s.pitch) - p.kRate*(s.pitchRate-turning)
}

// bySpeed holds an airspeed with the elevator, as in climbs and glides.
func (p *pilot) bySpeed(s seen, target float64, a aim, dt float64) float64 {
	p.speedSeen += (s.indicated - p.speedSeen) * math.Min(1, dt/speedLag)
	fast := p.speedSeen - target
	gain := 0.25 * p.quick / atmosphere.Gravity // rad per m/s
	if math.Abs(fast) < 0.1*target {
		p.sumPitch += 0.15 * p.quick * gain * fast * dt
	}
	change := math.Max(-0.25, math.Min(0.25, gain*fast))
	return p.elevator(s, a, a.alpha+a.path+change+p.sumPitch, dt)
}

// byHeight holds a height with the elevator and the speed with the throttle.
func (p *pilot) byHeight(s seen, target float64, a aim, height, dt float64) (elevator, throttle float64) {
	p.speedSeen += (s.indicated - p.speedSeen) * math.Min(1, dt/speedLag)
	slow := (target - p.speedSeen) / target
	low := (height - s.height) / math.Max(s.speed, 5)
	if math.Abs(slow) < 0.05 {
		p.sumThrottle += 0.15 * p.quick * slow * dt
	}
	if math.Abs(low) < 0.2 {
		p.sumPitch += 0.02 * p.quick * p.quick * low * dt
	}
	path := math.Max(-0.1, math.Min(0.1, 0.2*p.quick*low))
	wanted := a.alpha/math.Max(0.8, math.Cos(s.roll)) + path + p.sumPitch - 0.3*(s.climb/math.Max(s.speed, 5)-path)
	throttle = math.Max(0.06, math.Min(1, a.throttle+4*slow+p.sumThrottle))
	return p.elevator(s, a, wanted, dt), throttle
}

// aileron rolls towards a bank angle; the slow sum holds the wings against sideslip and spiral.
func (p *pilot) aileron(s seen, bank, dt float64) float64 {
	short := bank - s.roll
	if math.Abs(short) < 0.3 {
		p.sumRoll += 0.3 * p.quick * p.quick * short * dt
	}
	rate := math.Max(-0.6*p.quick, math.Min(0.6*p.quick, 1.2*p.quick*short))
	return p.kRoll * (rate + p.sumRoll) / math.Max(s.speed, 5)
}

// bankFor turns towards a heading with no more than a bank.
func (p *pilot) bankFor(s seen, heading, most float64) float64 {
	away := wrap(heading - s.heading)
	if away < -2.5 { // nearly opposite: always to the right, or the wings would rock between two ways round
		away += 2 * math.Pi
	}
	turn := 0.3 * p.quick * away
	bank := math.Atan(turn * s.speed / atmosphere.Gravity)
	return math.Max(-most, math.Min(most, bank))
}

// homeward is the heading back to the field.
func (s seen) homeward() float64 { return math.Atan2(-s.east, -s.north) }

// leaving tells whether the flight is away from the field and not heading back.
func (s seen) leaving() bool {
	return math.Hypot(s.north, s.east) > 120 && math.Abs(wrap(s.homeward()-s.heading)) > 0.5
}

// wrap brings an angle into −π to π.
func wrap(x float64) float64 { return math.Remainder(x, 2*math.Pi) }
