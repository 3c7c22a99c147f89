package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/aero/atmosphere"
)

// steepestDeceleration is more than the drag of a model and a gentle climb can give, m/s per s.
const steepestDeceleration = 3.0

// The pilot's way through a deceleration. Invented, after the common practice of slowing down by about a knot or two a
// second.
const (
	throttleClosing = 1.0          // s from level power to idle
	droppedNose     = 5 * degree   // the nose is this far below what the elevator asks for: the foreplane has let go
	raisedNose      = 5 * degree   // or above: the wing has, and the model pitches up
	droppedWing     = 20 * degree  // or a wing has dropped
	nearStall       = 1.2          // of the stalling speed: above it a low nose is a gust or a hand
	slowestSpeed    = 0.8          // of the stalling speed: end of it, whatever the nose does
	recoveryPitch   = -10 * degree // held to pick up speed
	recovered       = 1.3          // of the stalling speed: end of the card
	longestRecovery = 6.0          // s
)

// slowing is a deceleration under way: level, then slower and slower, then recovery.
type slowing struct {
	began     bool
	start     float64 // time on the card when the throttle began to close
	throttle  float64 // before it closed
	broken    bool
	breakTime float64
}

// deceleration gives elevator and throttle. The elevator holds a falling speed with the throttle closed: the path is
// then within a few degrees of level, as drag over mass of a model is about 1 m/s².
func (p *pilot) deceleration(r *run, s seen, dt float64) (elevator, throttle float64) {
	k := &r.slowing
	if !k.began {
		steady := math.Abs(s.indicated-r.card.Speed) < 0.03*r.card.Speed
		elevator, throttle = p.byHeight(s, r.card.Speed, r.aim, r.height, dt)
		if r.time < r.card.settling() || !(steady || r.time > 2*r.card.settling()) {
			return elevator, throttle
		}
		k.began, k.start, k.throttle = true, r.time, throttle
	}
	if k.broken {
		return p.recovery(s, dt), 1
	}
	since := r.time - k.start
	closing := throttleClosing + r.card.Hand.Slope
	throttle = k.throttle * math.Max(0, 1-since/closing)
	rate := r.card.Size
	if rate == 0 {
		rate = 1
	}
	stall := p.f.StallSpeed(atmosphere.SeaLevelDensity)
	target := math.Max(slowestSpeed*stall, r.card.Speed-rate*math.Max(0, since-closing/2))
	a := p.expect(target, 0, 0)
	a.path += rate / atmosphere.Gravity
	elevator = p.bySpeed(s, target+rate*speedLag, a, dt) // the eye follows the needle late
	dropped := p.pitchWanted-s.pitch > droppedNose && s.indicated < nearStall*stall
	if p.f.Stall.First == WingFirst && s.indicated < nearStall*stall {
		dropped = dropped || s.pitch-p.pitchWanted > raisedNose || math.Abs(s.roll) > droppedWing
	}
	if dropped || s.indicated < slowestSpeed*stall || r.time >= r.card.Duration {
		k.broken, k.breakTime = true, r.time
	}
	return elevator, throttle
}

// HighestLift is the truth about maximum lift: the highest lift coefficient that the model reaches in a deceleration of 1 m/s²
// in still air with the throttle closed, flown by an exact hand, and the angle of attack [rad] there. It lies near MaxLift, where the
// first surface begins to let go; how near depends on the CG and on who lets go. It costs the simulation of about a minute.
func (a Aircraft) HighestLift() (lift, alpha float64, err error) {
	a.Stabiliser = Stabiliser{}
	stall := a.StallSpeed(atmosphere.SeaLevelDensity)
	still := Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 100}
	log, err := Fly(a, []Card{
		climbing(stall), {Kind: Deceleration, Speed: slowFrom * stall, Duration: slowFor, Size: 1},
	}, Weather{}, still, rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		return 0, 0, fmt.Errorf("rehearse: highest lift: %w", err)
	}
	s := log.Stretches[1]
	for i, t := range log.Time {
		if t >= s.From && t <= s.To && log.Truth.Lift[i] > lift {
			lift, alpha = log.Truth.Lift[i], log.Truth.Alpha[i]
		}
	}
	return lift, alpha, nil
}

// recovery lowers the nose for speed.
func (p *pilot) recovery(s seen, dt float64) float64 {
	a := p.expect(recovered*p.f.StallSpeed(atmosphere.SeaLevelDensity), 0, 1)
	return p.elevator(s, a, recoveryPitch, dt)
}

// over tells whether the speed is back.
func (k *slowing) over(r *run, s seen, stall float64) bool {
	return k.broken && (s.indicated > recovered*stall || r.time-k.breakTime > longestRecovery)
}
