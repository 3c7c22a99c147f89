package stall

// pitchShare is the share of the attached foreplane's moment slope below which a change of moment counts as nothing.
const pitchShare = 0.1

// pitch finds where letting go begins to move the nose; nil when no strip has an arm.
func (s *search) pitch() (*Pitch, error) {
	if !s.hasArms {
		return nil, nil
	}
	drop, _, err := s.first(0, func(p *sample) bool { return p.changeRate < -pitchShare*p.attachedRate })
	if err != nil {
		return nil, err
	}
	up, _, err := s.first(0, func(p *sample) bool { return p.changeRate > pitchShare*p.attachedRate })
	return &Pitch{NoseDrop: drop, PitchUp: up}, err
}
