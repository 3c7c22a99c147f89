package stall

import (
	"cmp"
	"math"
	"slices"
)

// accuracy is the width, rad, to which a change of state is enclosed.
const accuracy = 1e-5

// search holds the samples of one case.
type search struct {
	c       Case
	hasArms bool      // pitch is asked for
	samples []*sample // by rising α

	here, behind, ahead *holder // one for each end of the stop window, so that each starts from its own last state
}

func newSearch(c Case) *search {
	n := len(c.Strips)
	return &search{
		c: c, hasArms: slices.ContainsFunc(c.Strips, func(strip Strip) bool { return strip.Arm != 0 }),
		here: newHolder(c.Response, n), behind: newHolder(c.Response, n), ahead: newHolder(c.Response, n),
	}
}

// scan fills the samples from one end of the range to the other in equal steps.
func (s *search) scan() error {
	n := int(math.Ceil((s.c.AlphaMax - s.c.AlphaMin) / s.c.Step * (1 - 1e-12)))
	s.samples = make([]*sample, n+1)
	for k := range s.samples {
		alpha := s.c.AlphaMin + (s.c.AlphaMax-s.c.AlphaMin)*float64(k)/float64(n)
		if k == n {
			alpha = s.c.AlphaMax
		}
		p, err := s.at(alpha)
		if err != nil {
			return err
		}
		s.samples[k] = p
	}
	return nil
}

// last is the sample at the upper end of the range.
func (s *search) last() *sample { return s.samples[len(s.samples)-1] }

// first returns where holds becomes true for the first time from sample index from on, and the sample there.
//
// When it holds at index 0 already, or nowhere, the bracket says so and the sample is that end of the range.
func (s *search) first(from int, holds func(*sample) bool) (Bracket, *sample, error) {
	for k := from; k < len(s.samples); k++ {
		if !holds(s.samples[k]) {
			continue
		}
		if k == 0 {
			return below(s.c.AlphaMin), s.samples[0], nil
		}
		return s.enclose(s.samples[k-1], s.samples[k], holds)
	}
	return beyond(s.c.AlphaMax), s.last(), nil
}

// enclose bisects between a sample where holds is false and one where it is true.
func (s *search) enclose(no, yes *sample, holds func(*sample) bool) (Bracket, *sample, error) {
	for yes.alpha-no.alpha > accuracy {
		p, err := s.at((no.alpha + yes.alpha) / 2)
		if err != nil {
			return Bracket{}, nil, err
		}
		if holds(p) {
			yes = p
		} else {
			no = p
		}
	}
	return known(yes.alpha), yes, nil
}

// insert adds a sample at its place by α and returns its index.
func (s *search) insert(p *sample) int {
	k, there := slices.BinarySearchFunc(s.samples, p.alpha, func(o *sample, alpha float64) int { return cmp.Compare(o.alpha, alpha) })
	if !there {
		s.samples = slices.Insert(s.samples, k, p)
	}
	return k
}
