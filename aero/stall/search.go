package stall

import (
	"math"
	"slices"
)

// accuracy is the width, rad, to which a change of state is enclosed.
const accuracy = 1e-5

// search is one case on its way to its order.
type search struct {
	c       Case
	alphas  []float64 // where answers are looked for first, and the curve is drawn: rising, from end to end of the range
	rises   []float64 // of the foreplane there
	samples []*sample // all that was solved, by rising α
	holder  *holder
}

// answer is a yes or no at an angle of attack.
type answer func(alpha float64) (bool, error)

func newSearch(c Case) search { return search{c: c, holder: newHolder(c.Response, len(c.Strips))} }

// scan looks from one end of the range to the other in equal steps.
func (s *search) scan() error {
	n := int(math.Ceil((s.c.AlphaMax - s.c.AlphaMin) / s.c.Step * (1 - 1e-12)))
	for k := range n + 1 {
		alpha := s.c.AlphaMin + (s.c.AlphaMax-s.c.AlphaMin)*float64(k)/float64(n)
		if k == n {
			alpha = s.c.AlphaMax
		}
		if _, err := s.insert(alpha); err != nil {
			return err
		}
	}
	return nil
}

// insert adds an angle to those of the curve and returns its index.
func (s *search) insert(alpha float64) (int, error) {
	k, there := slices.BinarySearch(s.alphas, alpha)
	if there {
		return k, nil
	}
	if _, err := s.at(alpha); err != nil {
		return 0, err
	}
	rise, err := s.rise(alpha)
	s.alphas, s.rises = slices.Insert(s.alphas, k, alpha), slices.Insert(s.rises, k, rise)
	return k, err
}

// first returns where the answer becomes yes for the first time from index from on, and that angle, at which it is yes.
//
// When it is yes at index 0 already, or nowhere, the bracket says so and the angle is that end of the range.
func (s *search) first(from int, holds answer) (Bracket, float64, error) {
	for k := from; k < len(s.alphas); k++ {
		yes, err := holds(s.alphas[k])
		switch {
		case err != nil:
			return Bracket{}, 0, err
		case !yes:
			continue
		case k == 0:
			return below(s.c.AlphaMin), s.c.AlphaMin, nil
		}
		return s.enclose(s.alphas[k-1], s.alphas[k], holds)
	}
	return beyond(s.c.AlphaMax), s.c.AlphaMax, nil
}

// enclose bisects between an angle where the answer is no and a higher one where it is yes.
func (s *search) enclose(no, yes float64, holds answer) (Bracket, float64, error) {
	for yes-no > accuracy {
		middle := (no + yes) / 2
		is, err := holds(middle)
		if err != nil {
			return Bracket{}, 0, err
		}
		if is {
			yes = middle
		} else {
			no = middle
		}
	}
	return known(yes), yes, nil
}
