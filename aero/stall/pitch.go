package stall

import (
	"fmt"
	"slices"
)

// pitchShare is the share of the attached foreplane's moment slope below which a change of moment counts as nothing.
const pitchShare = 0.1

// pitch finds where letting go begins to move the nose; nil when no strip has an arm.
func (s *search) pitch() (*Pitch, error) {
	if !slices.ContainsFunc(s.c.Strips, func(strip Strip) bool { return strip.Arm != 0 }) {
		return nil, nil
	}
	for _, alpha := range s.alphas {
		if _, err := s.pitchRate(alpha); err != nil {
			return nil, err
		}
	}
	drop, _, err := s.first(0, func(alpha float64) (bool, error) {
		rate, err := s.pitchRate(alpha)
		return rate < -pitchShare, err
	})
	if err != nil {
		return nil, err
	}
	up, _, err := s.first(0, func(alpha float64) (bool, error) {
		rate, err := s.pitchRate(alpha)
		return rate > pitchShare, err
	})
	return &Pitch{NoseDrop: drop, PitchUp: up}, err
}

// pitchRate is the rate at which letting go adds to the nose-up moment from an angle on, as a share of the attached foreplane's.
func (s *search) pitchRate(alpha float64) (float64, error) {
	step := look
	if alpha+step > s.c.AlphaMax {
		step = -look
	}
	here, err := s.at(alpha)
	if err != nil {
		return 0, err
	}
	there, err := s.at(alpha + step)
	if err != nil {
		return 0, err
	}
	attached := (there.now.foreplaneMoment - here.now.foreplaneMoment) / step
	if !(attached > 0) {
		return 0, fmt.Errorf("stall order %q at α = %s: the attached foreplane does not raise the nose with α; give arms in metres ahead of the CG",
			s.c.Name, degrees(alpha))
	}
	return (there.now.pitchChange - here.now.pitchChange) / step / attached, nil
}
