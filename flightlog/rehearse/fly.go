package rehearse

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/aero/atmosphere"
)

// ErrGround says that the flight met the ground before its last card was done.
var ErrGround = errors.New("the model met the ground")

// Timing of the prescribed motion before free flight, s.
const (
	resting   = 5.0
	groundRun = 7.0
)

// leastSteps is the lowest rate of integration, Hz; with surfaces that move within a step the higher one, so that a stick moves at any
// time between two samples and not at one of two.
const (
	leastSteps           = 100.0
	leastContinuousSteps = 200.0
)

// heldAhead is the part of a step by which a command holds before the step that gives it, where surfaces move within one: a hand that is seen to
// have moved did so at any time since the last look, and one that moves smoothly is followed without lag.
const heldAhead = 0.5

// liftOffSpeed is the airspeed at lift-off over the stalling speed.
const liftOffSpeed = 1.35

// flight is one flight under way.
type flight struct {
	f        *airframe
	air      *air
	pilot    *pilot
	recorder *recorder
	rng      *rand.Rand

	s          state
	now        controls // what acts: surfaces and thrust
	command    commands // to the servos and the motor
	stick      commands // of the pilot, ahead of the stabiliser
	stabiliser stabiliser
	surfaces   [3]actuator // elevator, aileron, rudder
	dt         float64
	perSample  int
	steps      int
	watch      func(*flight) // called at each sample; nil unless a test looks on
}

// Fly flies the cards in order, after a rest on the ground and a take-off, and returns the log.
//
// Everything random comes from rng in a fixed order, so that equal arguments and an equal state of rng
// give an equal log. The error names the card and says what is wrong with it; when the model meets the
// ground it wraps ErrGround and the log ends there.
func Fly(ac Aircraft, cards []Card, w Weather, ins Instruments, rng *rand.Rand) (Log, error) {
	return fly(ac, cards, w, ins, rng, nil)
}

func fly(ac Aircraft, cards []Card, w Weather, ins Instruments, rng *rand.Rand, watch func(*flight)) (Log, error) {
	for i, card := range cards {
		if err := card.check(); err != nil {
			return Log{}, fmt.Errorf("rehearse: card %d: %w", i+1, err)
		}
	}
	f, err := newFlight(ac, w, ins, rng)
	if err != nil {
		return Log{}, err
	}
	f.watch = watch
	f.takeOff()
	for i, card := range cards {
		s, err := f.flyCard(card)
		f.recorder.log.Stretches = append(f.recorder.log.Stretches, s)
		if err != nil {
			return *f.recorder.log, fmt.Errorf("rehearse: card %d (%s at %.1f m/s): %w after %.1f s", i+1, card.Kind, card.Speed, err, f.time())
		}
	}
	return *f.recorder.log, nil
}

func newFlight(ac Aircraft, w Weather, ins Instruments, rng *rand.Rand) (*flight, error) {
	if err := ins.check(); err != nil {
		return nil, err
	}
	frame, err := newAirframe(ac)
	if err != nil {
		return nil, err
	}
	air, err := newAir(w, rng)
	if err != nil {
		return nil, err
	}
	least := leastSteps
	if ac.Continuous {
		least = leastContinuousSteps
	}
	perSample := int(math.Ceil(least/ins.FastRate - 1e-9))
	f := &flight{
		f: frame, air: air, pilot: newPilot(frame), recorder: newRecorder(ins, air.Pressure, rng), rng: rng,
		perSample: perSample, dt: 1 / (ins.FastRate * float64(perSample)),
	}
	f.recorder.arms = ac.arms(ins.Sensors)
	f.stabiliser = newStabiliser(frame)
	for i, name := range controlNames() {
		s := ac.servo(name)
		if ac.Continuous {
			s.Delay = math.Max(0, s.Delay-heldAhead*f.dt)
		}
		f.surfaces[i] = newActuator(s, f.dt, ac.Continuous)
	}
	return f, nil
}

func (f *flight) time() float64 { return float64(f.steps) * f.dt }

// takeOff records the rest on the ground and the run into the wind up to lift-off: prescribed motion at
// the attitude of lift-off, the speed over the ground rising as half a cosine wave, so that no
// acceleration jumps.
func (f *flight) takeOff() {
	stall := f.f.StallSpeed(f.air.fieldDensity)
	a := f.pilot.expect(liftOffSpeed*f.f.StallSpeed(atmosphere.SeaLevelDensity), 0, -1)
	fastest := math.Max(0.3*stall, liftOffSpeed*stall-f.air.WindSpeed)
	f.command = commands{elevator: a.elevator}
	for i := range f.surfaces {
		f.surfaces[i].set(0)
	}
	f.surfaces[0].set(a.elevator)
	f.now = f.behind([3]float64{a.elevator, 0, 0}, 0)
	f.s.attitude(0, a.alpha, f.air.WindFrom)

	for n := 0; n < int((resting+groundRun)/f.dt); n++ {
		run := math.Max(0, f.time()-resting) / groundRun
		sin, cos := math.Sincos(math.Pi * run)
		speed := fastest * (1 - cos) / 2
		acceleration := fastest * math.Pi / groundRun * sin / 2
		if run > 0 {
			f.command.throttle = 1
		}
		f.stick = f.command
		sinPitch, cosPitch := math.Sincos(a.alpha)
		f.s.u, f.s.w = speed*cosPitch, speed*sinPitch
		if f.steps%f.perSample == 0 {
			const g = atmosphere.Gravity
			f.record(vector{acceleration*cosPitch + g*sinPitch, 0, acceleration*sinPitch - g*cosPitch}, vector{})
		}
		f.s.north += speed * math.Cos(f.air.WindFrom) * f.dt
		f.s.east += speed * math.Sin(f.air.WindFrom) * f.dt
		f.air.advance(f.dt, speed+f.air.WindSpeed, f.rng)
		f.steps++
	}
	f.now.thrust = a.throttle
	f.pilot.pitchWanted, f.pilot.speedSeen = a.alpha, liftOffSpeed*stall
}

// flyCard flies one card from the present place to its end.
func (f *flight) flyCard(card Card) (Stretch, error) {
	s := Stretch{Card: card, Start: f.time()}
	r := f.pilot.start(card, f.look())
	err := f.flyRun(r)
	s.End = f.time()
	s.From, s.To = r.essence.span(s.End)
	return s, err
}

func (f *flight) flyRun(r *run) error {
	for {
		sight := f.look()
		if r.done(sight) {
			return nil
		}
		if sight.height < -1 || math.IsNaN(sight.height) {
			return ErrGround
		}
		f.stick = f.f.clip(f.pilot.fly(r, sight, f.dt))
		f.command = f.stick
		if f.stabiliser.on {
			f.command = f.f.clip(f.stabiliser.add(f.stick, &f.s, f.dt))
		}
		if f.steps%f.perSample == 0 {
			f.record(f.felt())
		}
		f.advance()
	}
}

func (f *flight) trueAirspeed() float64 {
	m := f.s.rotation()
	u, v, w := f.s.flow(&m, f.air.around(-f.s.down))
	return math.Sqrt(u*u + v*v + w*w)
}

// felt is what an accelerometer at the CG feels, everything but weight over mass, and the acceleration of the rates.
func (f *flight) felt() (force, acceleration vector) {
	around := f.air.around(-f.s.down)
	m := f.s.rotation()
	l := f.f.acting(&f.s, &m, f.now, around)
	force = vector{l.x / f.f.Body.Mass, l.y / f.f.Body.Mass, l.z / f.f.Body.Mass}
	if f.recorder.arms.inertial != (vector{}) {
		d := f.f.rate(f.s, f.now, around)
		acceleration = vector{d.p, d.q, d.r}
	}
	return force, acceleration
}

func (f *flight) record(force, acceleration vector) {
	height := -f.s.down
	pressure, temperature := f.air.at(height)
	m := f.s.rotation()
	u, v, w := f.s.flow(&m, f.air.around(height))
	logged := f.command
	if f.f.Stabiliser.LogStick {
		logged = f.stick
	}
	f.recorder.sample(&moment{
		time: f.time(), s: f.s, speed: math.Sqrt(u*u + v*v + w*w), force: force, acceleration: acceleration, flow: vector{u, v, w},
		c: logged, height: height, pressure: pressure, kel: temperature,
	})
	f.keepTruth()
	if f.watch != nil {
		f.watch(f)
	}
}

// look is what the pilot sees.
func (f *flight) look() seen {
	around := f.air.around(-f.s.down)
	m := f.s.rotation()
	u, v, w := f.s.flow(&m, around)
	_, _, down := m.earth(f.s.u, f.s.v, f.s.w)
	roll, pitch, heading := f.s.angles()
	speed := math.Sqrt(u*u + v*v + w*w)
	return seen{
		indicated: speed * math.Sqrt(around.density/atmosphere.SeaLevelDensity) * (1 + f.recorder.AirspeedScale),
		height:    -f.s.down, climb: -down, roll: roll, pitch: pitch, heading: heading,
		time: f.time(), rollRate: f.s.p, pitchRate: f.s.q, yawRate: f.s.r, north: f.s.north, east: f.s.east, speed: speed,
	}
}
