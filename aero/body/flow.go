package body

import "fmt"

// Flow is the local angle of the stream on the body's axis at x [m aft of datum] per radian of angle of attack or
// of sideslip: 1 in free air. As an argument, nil stands for free air.
type Flow func(x float64) float64

// at evaluates the flow; a nil flow is free air.
func (f Flow) at(x float64) float64 {
	if f == nil {
		return 1
	}
	return f(x)
}

// Root is the chord of a lifting surface in the plane of symmetry, full-size metres aft of datum. A strake's leading
// edge counts when it is the strake that meets the body.
type Root struct {
	LeadingEdge, TrailingEdge float64
}

// check refuses a root without a chord.
func (r Root) check() error {
	if r.TrailingEdge > r.LeadingEdge {
		return nil
	}
	return &StationError{0, fmt.Sprintf("the root runs from x = %.4g m to x = %.4g m", r.LeadingEdge, r.TrailingEdge),
		"x counts aft: the trailing edge needs the larger x"}
}

// covers tells whether x lies on the root chord, both edges included.
func (r Root) covers(x float64) bool { return x >= r.LeadingEdge && x <= r.TrailingEdge }

// WithRoot returns the flow that is 0 within the root chord of a surface and the given flow ahead of and behind it:
// for a foreplane, whose downwash the given flow holds. The error says that the root has no chord.
func WithRoot(root Root, outside Flow) (Flow, error) {
	if err := root.check(); err != nil {
		return nil, err
	}
	return func(x float64) float64 {
		if root.covers(x) {
			return 0
		}
		return outside.at(x)
	}, nil
}

// WithWing returns the flow along a body with a wing: the given flow ahead of the root's leading edge, 0
// within the root chord, and behind it a linear rise from 0 at the trailing edge to the given flow at end
// [m aft of datum: the tailplane's quarter chord, or the last station of a body without one], which holds
// from there on. An end on the root chord or ahead of it makes the flow 0 from the leading edge aft.
//
// The given flow is asked ahead of the wing and at the end only, never close behind a trailing
// edge, where a lattice is least to be trusted. The error says that the root has no chord.
//
// Source: H. Multhopp, NACA TM 1036, 1942 (from memory).
func WithWing(root Root, end float64, outside Flow) (Flow, error) {
	if err := root.check(); err != nil {
		return nil, err
	}
	room := end - root.TrailingEdge
	last := 0.0
	if room > 0 {
		last = outside.at(end)
	}
	return func(x float64) float64 {
		switch {
		case x < root.LeadingEdge:
			return outside.at(x)
		case x <= root.TrailingEdge || room <= 0:
			return 0
		case x >= end:
			return last
		}
		return last * (x - root.TrailingEdge) / room
	}, nil
}
