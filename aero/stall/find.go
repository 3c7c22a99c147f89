package stall

import (
	"fmt"
	"slices"
)

// Find returns the stall order of a case: where the foreplane's total lift stops rising, where the first wing station
// reaches its maximum, and the margin between the two; the package comment defines both.
//
// What is not reached between AlphaMin and AlphaMax is returned as a bound, never as a number. Errors: a
// case that cannot be computed (all its mistakes at once), section lifts that are not numbers, an attached
// foreplane whose lift does not rise with α, ErrNotSettled.
func Find(c Case) (Order, error) {
	c, err := c.checked()
	if err != nil {
		return Order{}, err
	}
	s := newSearch(c)
	if err := s.scan(); err != nil {
		return Order{}, err
	}
	o := Order{Name: c.Name}
	isForeplane := func(strip Strip) bool { return strip.Part == Foreplane }
	isWing := func(strip Strip) bool { return strip.Part == Wing }
	isInboard := func(strip Strip) bool { return isWing(strip) && strip.Along <= 1-c.TipBand }

	if o.FirstForeplane, _, err = s.station(isForeplane); err != nil {
		return Order{}, err
	}
	var atWing *sample
	if o.FirstWing, atWing, err = s.station(isWing); err != nil {
		return Order{}, err
	}
	inboard, _, err := s.station(isInboard)
	if err != nil {
		return Order{}, err
	}
	o.Wing, o.WingInboard = o.FirstWing.Alpha, inboard.Alpha
	if err := s.order(&o, atWing); err != nil {
		return Order{}, err
	}
	s.describe(&o, atWing)
	return o, nil
}

// order fills in what depends on where the wing goes: the foreplane's stop, the margin and the pitching.
func (s *search) order(o *Order, atWing *sample) error {
	wing := s.insert(atWing)
	var err error
	if o.Foreplane, o.Notes, err = s.foreplaneStop(wing, s.c.StopShare); err != nil {
		return err
	}
	for _, share := range otherShares() {
		stop, _, err := s.foreplaneStop(wing, share)
		if err != nil {
			return err
		}
		o.Stops = append(o.Stops, Stop{Share: share, Alpha: stop})
	}
	o.Margin = o.Wing.Minus(o.Foreplane)
	o.Pitch, err = s.pitch()
	return err
}

// otherShares are those for which Order.Stops shows how much the definition matters.
func otherShares() []float64 { return []float64{0.1, 0.2, 0.3, 0.5} }

// station finds the first strip accepted by counts to reach its maximum, and the sample there.
func (s *search) station(counts func(Strip) bool) (Station, *sample, error) {
	reached := func(p *sample) bool {
		i := s.nearest(p, counts)
		return i >= 0 && p.spare(i) <= 0
	}
	alpha, p, err := s.first(0, reached)
	if err != nil {
		return Station{}, nil, err
	}
	found := Station{Strip: -1, Alpha: alpha}
	if reached(p) {
		found.Strip = s.nearest(p, counts)
		found.Surface, found.Along = s.c.Strips[found.Strip].Surface, s.c.Strips[found.Strip].Along
	}
	return found, p, nil
}

// foreplaneStop finds the α from which the foreplane's rise is below share and stays so up to the sample with
// the given index (the wing's α); if it is not below there, the first α after it.
func (s *search) foreplaneStop(wing int, share float64) (Bracket, []string, error) {
	flat := func(p *sample) bool { return p.rise < share }
	k := wing
	if !flat(s.samples[wing]) {
		stop, _, err := s.first(wing, flat)
		return stop, pauses(s.samples[:wing], flat), err
	}
	for k > 0 && flat(s.samples[k-1]) {
		k--
	}
	if k == 0 {
		return below(s.c.AlphaMin), nil, nil
	}
	stop, _, err := s.enclose(s.samples[k-1], s.samples[k], flat)
	return stop, pauses(s.samples[:k], flat), err
}

// pauses says in words that the foreplane's lift paused among the samples, which all come before it rises again.
func pauses(samples []*sample, flat func(*sample) bool) []string {
	k := slices.IndexFunc(samples, flat)
	if k < 0 {
		return nil
	}
	return []string{fmt.Sprintf("the foreplane's lift pauses near α = %s and rises again; the pause is not counted", degrees(samples[k].alpha))}
}
