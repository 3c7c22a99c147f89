package rehearse

import (
	"fmt"
	"math"
)

// Stabiliser is an active stabiliser between the pilot and the servos. It adds to the commands; the log holds what comes out of it,
// as of a recorder behind it, unless LogStick is set.
//
// A positive gain opposes the motion, whatever the sign of the control. Attitude means the angle turned through of late, the rate
// integrated with a slow leak, so that a steady bank is let alone. Rates are those of the body, without noise and delay.
type Stabiliser struct {
	PitchRate, RollRate, YawRate float64 // rad of elevator, aileron, rudder per rad/s
	Pitch, Roll                  float64 // rad of elevator, aileron per rad of attitude
	Leak                         float64 // time constant of the attitude's leak, s; 0 means 2 s, invented
	LogStick                     bool    // the recorder sits ahead of the stabiliser: the log holds the pilot's stick
}

func (s Stabiliser) check() error {
	if !(s.PitchRate >= 0 && s.RollRate >= 0 && s.YawRate >= 0 && s.Pitch >= 0 && s.Roll >= 0 && s.Leak >= 0) {
		return fmt.Errorf("rehearse: stabiliser gains %g, %g, %g s, %g, %g and leak %g s must not be negative; positive ones oppose the motion",
			s.PitchRate, s.RollRate, s.YawRate, s.Pitch, s.Roll, s.Leak)
	}
	return nil
}

// stabiliser is a Stabiliser at work, its gains with the signs of the controls.
type stabiliser struct {
	Stabiliser
	on            bool
	pitched, roll float64 // angle turned through of late, rad
}

func newStabiliser(f *airframe) stabiliser {
	s := stabiliser{Stabiliser: f.Stabiliser}
	if s.Leak == 0 {
		s.Leak = 2
	}
	s.on = s.PitchRate != 0 || s.RollRate != 0 || s.YawRate != 0 || s.Pitch != 0 || s.Roll != 0
	s.PitchRate, s.Pitch = math.Copysign(s.PitchRate, f.elevator.Pitch), math.Copysign(s.Pitch, f.elevator.Pitch)
	s.RollRate, s.Roll = math.Copysign(s.RollRate, f.aileron.Roll), math.Copysign(s.Roll, f.aileron.Roll)
	s.YawRate = math.Copysign(s.YawRate, f.rudd.Yaw)
	return s
}

// add gives the commands of one step of dt [s] behind the stabiliser.
func (s *stabiliser) add(c commands, body *state, dt float64) commands {
	s.pitched += (body.q - s.pitched/s.Leak) * dt
	s.roll += (body.p - s.roll/s.Leak) * dt
	c.elevator -= s.PitchRate*body.q + s.Pitch*s.pitched
	c.aileron -= s.RollRate*body.p + s.Roll*s.roll
	c.rudder -= s.YawRate * body.r
	return c
}
