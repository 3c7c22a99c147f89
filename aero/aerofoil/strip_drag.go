package aerofoil

import (
	"errors"
	"fmt"
	"math"
)

// Strip is a chordwise strip of a lifting surface in one flight condition.
type Strip struct {
	Surface    string     // name of the lifting surface
	Area       float64    // plan area (width along the surface × chord), m²; a mirror image is added by the caller
	Chord      float64    // m
	Reynolds   float64    // of the chord
	Thickness  float64    // fraction of the chord, 0 when unknown: then the form factor is 1
	Polar      *Polar     // section data, one pointer an aerofoil (it tells which errors are common); nil: friction and form factor
	Flap       float64    // rad, trailing edge down positive; used with a polar only
	State      string     // Clean, Contaminated or empty for clean
	Transition Transition // used without a polar, when the state is clean; the zero value is turbulent from the leading edge
}

// Relative standard deviations of profile drag from a polar; common practice, no source.
const (
	polarDeviation   = 0.07 // inside the table: another tunnel, another finish
	outsideDeviation = 0.25 // outside it, where values are held constant
)

// StripDrag adds the profile drag of strips: Σ area · cd, with cd from the strip's polar, else from ProfileDrag.
//
// Assumed: each strip acts as a section in two-dimensional flow along its chord at the dynamic pressure
// of the free stream (no sweep, slipstream or wake of another surface), smooth and closed (no gaps,
// steps, leaks), near the lift for which the polar or the friction estimate holds (no growth with lift, which belongs to
// the drag due to lift), without interference at junctions; bodies, gear and cooling are the caller's.
// A contaminated strip without a polar is turbulent from the leading edge.
//
// Errors of one source are common: all strips from friction are wrong together, and so are all strips
// from one polar, so that their standard deviations (ProfileDragDeviation; 7 % in a polar, 25 % beyond
// its ends) add up; different sources are independent.
//
// An error (errors.Join) names every strip that cannot be used: not a positive area, chord or Reynolds
// number, a thickness outside 0 to 0.5, an unknown state, a polar without that state, and strips whose Reynolds
// number for their chord differs threefold from that of the first, as when model and full size are mixed.
func StripDrag(strips []Strip) (DragArea, error) {
	if err := checkStrips(strips); err != nil {
		return DragArea{}, err
	}
	var sum stripSum
	for i, s := range strips {
		if err := sum.add(s); err != nil {
			return DragArea{}, stripError(i, s, err.Error())
		}
	}
	return sum.result(), nil
}

func stripError(index int, s Strip, what string) error {
	return fmt.Errorf("strip %d of surface %q: %s", index+1, s.Surface, what)
}

func checkStrips(strips []Strip) error {
	var found []error
	first := 0.0 // Reynolds number per metre of the first strip without a problem
	for i, s := range strips {
		if what := s.problem(); what != "" {
			found = append(found, stripError(i, s, what))
			continue
		}
		if first == 0 {
			first = s.Reynolds / s.Chord
		}
		ratio := s.Reynolds / s.Chord / first
		if ratio > 3 || ratio < 1.0/3 {
			found = append(found, stripError(i, s, fmt.Sprintf("Reynolds number %.3g at a chord of %.3g m is %.3g times that of the first strip for its chord; take all strips at one scale and speed", s.Reynolds, s.Chord, ratio)))
		}
		if s.Polar == nil {
			continue
		}
		if _, _, err := s.Polar.ProfileDrag(s.Reynolds, s.Flap, s.state()); err != nil {
			found = append(found, stripError(i, s, err.Error()))
		}
	}
	return errors.Join(found...)
}

// problem says in words what is wrong with a strip by itself.
func (s Strip) problem() string {
	for _, v := range []struct {
		words string
		value float64
	}{{"area", s.Area}, {"chord", s.Chord}, {"Reynolds number", s.Reynolds}} {
		if !(v.value > 0) || math.IsInf(v.value, 0) {
			return fmt.Sprintf("its %s is %g and must be positive", v.words, v.value)
		}
	}
	switch {
	case !(s.Thickness >= 0 && s.Thickness <= 0.5):
		return fmt.Sprintf("its thickness is %g; give a fraction of the chord, such as 0.12", s.Thickness)
	case !(math.Abs(s.Flap) <= math.Pi/2):
		return fmt.Sprintf("its flap deflection is %g rad; give radians within a right angle", s.Flap)
	case s.state() != Clean && s.state() != Contaminated:
		return fmt.Sprintf("its state is %q; write clean or contaminated", s.State)
	}
	return ""
}

func (s Strip) state() string {
	if s.State == "" {
		return Clean
	}
	return s.State
}

// drag is the strip's drag coefficient with its relative standard deviation and a doubt in words.
func (s Strip) drag() (cd, relative float64, doubt, right string, err error) {
	if s.Polar != nil {
		value, inside, err := s.Polar.ProfileDrag(s.Reynolds, s.Flap, s.state())
		if inside || err != nil {
			return value, polarDeviation, "", "", err
		}
		return value, outsideDeviation, "its polar does not reach the Reynolds numbers or flap deflections of its strips", "add rows; the nearest are held", nil
	}
	transition := s.Transition
	if s.state() == Contaminated {
		transition = Transition{}
	}
	switch {
	case math.Abs(s.Flap) > flapTolerance:
		doubt, right = "the drag of its deflected flap is not in the friction estimate", "give its aerofoil a polar with flap deflections"
	case s.Thickness == 0:
		doubt, right = "the thickness is not known, so that it counts as a flat plate", "give its aerofoil a thickness"
	}
	return ProfileDrag(s.Reynolds, s.Thickness, transition), ProfileDragDeviation(s.Reynolds), doubt, right, nil
}
