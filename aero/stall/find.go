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
	s, err := Begin(c)
	if err != nil {
		return Order{}, err
	}
	return s.Order()
}

// Search is a case that was searched as far as its margin. It must not be used by two at once.
type Search struct {
	search
	wing    int // index of the wing's α among those of the curve
	outline Order
}

// Begin searches a case for its margin and no further, half of the work of Find: for those who try many elevators, or who
// only ask how the margin moves. Errors: as for Find, but for arms
// that do not raise the nose, which Order checks.
func Begin(c Case) (*Search, error) {
	c, err := c.checked()
	if err != nil {
		return nil, err
	}
	s := &Search{search: newSearch(c), outline: Order{Name: c.Name, FirstForeplane: Station{Strip: -1, Alpha: unknown()}}}
	if err := s.scan(); err != nil {
		return nil, err
	}
	o := &s.outline
	if o.FirstWing, err = s.station(isWing); err != nil {
		return nil, err
	}
	inboard, err := s.station(func(strip Strip) bool { return isWing(strip) && strip.Along <= 1-c.TipBand })
	if err != nil {
		return nil, err
	}
	o.Wing, o.WingInboard = o.FirstWing.Alpha, inboard.Alpha
	if s.wing, err = s.insert(s.reached(o.Wing)); err != nil {
		return nil, err
	}
	if o.Foreplane, o.Notes, err = s.foreplaneStop(s.wing, c.StopShare); err != nil {
		return nil, err
	}
	o.Margin = o.Wing.Minus(o.Foreplane)
	o.Curve, err = s.curve()
	return s, err
}

// Outline is the order as far as it is known: Foreplane, Wing, Margin, FirstWing, WingInboard and Curve. The rest is left unknown or empty.
func (s *Search) Outline() Order { return s.outline }

// Order finds the rest of the order, and returns the whole as Find does.
func (s *Search) Order() (Order, error) {
	o := s.outline
	var err error
	if o.FirstForeplane, err = s.station(isForeplane); err != nil {
		return Order{}, err
	}
	for _, share := range otherShares() {
		stop, _, err := s.foreplaneStop(s.wing, share)
		if err != nil {
			return Order{}, err
		}
		o.Stops = append(o.Stops, Stop{Share: share, Alpha: stop})
	}
	if o.Pitch, err = s.pitch(); err != nil {
		return Order{}, err
	}
	o.Surfaces, _ = s.surfaces()
	if o.Sections, err = s.sections(s.alphas[s.wing]); err != nil {
		return Order{}, err
	}
	o.Notes = append(slices.Clone(o.Notes), s.notes(&o)...)
	return o, nil
}

func isForeplane(strip Strip) bool { return strip.Part == Foreplane }
func isWing(strip Strip) bool      { return strip.Part == Wing }

// reached is the angle of a bracket that first found, or the end of the range nearest to it.
func (s *search) reached(b Bracket) float64 { return min(max(b.Low, s.c.AlphaMin), s.c.AlphaMax) }

// otherShares are those for which Order.Stops shows how much the definition matters.
func otherShares() []float64 { return []float64{0.1, 0.2, 0.3, 0.5} }

// station finds the first strip accepted by counts to reach its maximum.
func (s *search) station(counts func(Strip) bool) (Station, error) {
	alpha, at, err := s.first(0, func(alpha float64) (bool, error) {
		p, err := s.at(alpha)
		return err == nil && s.gone(p, counts) >= 0, err
	})
	if err != nil {
		return Station{}, err
	}
	p, err := s.at(at)
	if err != nil {
		return Station{}, err
	}
	found := Station{Strip: s.gone(p, counts), Alpha: alpha}
	if found.Strip >= 0 {
		found.Surface, found.Along = s.c.Strips[found.Strip].Surface, s.c.Strips[found.Strip].Along
	}
	return found, nil
}

// foreplaneStop finds the α from which the foreplane's rise is below share and stays so up to that with
// the given index (the wing's α); if it is not below there, the first α after it.
func (s *search) foreplaneStop(wing int, share float64) (Bracket, []string, error) {
	flat := func(alpha float64) (bool, error) {
		rise, err := s.rise(alpha)
		return rise < share, err
	}
	k := wing // the first angle from which the lift stays flat
	for k > 0 && s.rises[k] < share && s.rises[k-1] < share {
		k--
	}
	notes := s.pauses(k, share)
	var stop Bracket
	var err error
	switch {
	case s.rises[wing] >= share:
		stop, _, err = s.first(wing, flat)
	case k == 0:
		stop = below(s.c.AlphaMin)
	default:
		stop, _, err = s.enclose(s.alphas[k-1], s.alphas[k], flat)
	}
	return stop, notes, err
}

// pauses says in words that the foreplane's lift paused before the angle with an index, up to which it rises again.
func (s *search) pauses(before int, share float64) []string {
	k := slices.IndexFunc(s.rises[:before], func(rise float64) bool { return rise < share })
	if k < 0 {
		return nil
	}
	return []string{fmt.Sprintf("the foreplane's lift pauses near α = %s and rises again; the pause is not counted", degrees(s.alphas[k]))}
}
