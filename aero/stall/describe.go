package stall

import (
	"fmt"
	"slices"
)

// surfaces are the names of the surfaces in the order of the strips, and the index of each strip's.
func (s *search) surfaces() (names []string, of []int) {
	of = make([]int, len(s.c.Strips))
	for i, strip := range s.c.Strips {
		if of[i] = slices.Index(names, strip.Surface); of[i] < 0 {
			of[i] = len(names)
			names = append(names, strip.Surface)
		}
	}
	return names, of
}

// curve is the state at every angle of the curve.
func (s *search) curve() ([]Point, error) {
	names, of := s.surfaces()
	out := make([]Point, len(s.alphas))
	for k, alpha := range s.alphas {
		p, err := s.at(alpha)
		if err != nil {
			return nil, err
		}
		letGo := make([]int, len(names))
		for i, gone := range p.held.LetGo {
			if gone {
				letGo[of[i]]++
			}
		}
		out[k] = Point{
			Alpha: alpha, ForeplaneLift: p.now.foreplane, WingLift: p.now.wing, Lift: p.now.whole,
			ForeplaneAttached: p.now.foreplaneAttached, WingAttached: p.now.wingAttached,
			ForeplaneRise: s.rises[k], LetGo: letGo, PitchChange: p.now.pitchChange,
		}
	}
	return out, nil
}

// sections is a picture of all strips at an angle of attack.
func (s *search) sections(alpha float64) (Sections, error) {
	p, err := s.at(alpha)
	if err != nil {
		return Sections{}, err
	}
	out := Sections{Alpha: alpha, Strips: make([]SectionState, len(s.c.Strips))}
	for i, strip := range s.c.Strips {
		out.Strips[i] = SectionState{
			Strip: strip, Attached: p.attached[i], Lift: p.held.Lift[i], MaxLift: p.maximum[i],
			Turn: p.held.Turn[i], LetGo: p.held.LetGo[i],
		}
	}
	return out, nil
}

func (s *search) notes(o *Order) []string {
	var notes []string
	add := func(format string, values ...any) { notes = append(notes, fmt.Sprintf(format, values...)) }
	from, to := degrees(s.c.AlphaMin), degrees(s.c.AlphaMax)
	for _, e := range []struct {
		what  string
		alpha Bracket
	}{{"the foreplane's total lift stops rising", o.Foreplane}, {"the first wing station reaches its maximum", o.Wing}} {
		switch e.alpha {
		case below(s.c.AlphaMin):
			add("%s at or below α = %s, where the search begins; begin lower", e.what, from)
		case beyond(s.c.AlphaMax):
			add("%s beyond α = %s, where the search ends, if at all", e.what, to)
		}
	}
	if first := o.FirstWing; first.Strip >= 0 && first.Along > 1-s.c.TipBand {
		add("the first wing station lies in the outer %.3g %% of the span, where section lift is least certain; farther inboard the first comes at α = %s",
			100*s.c.TipBand, o.WingInboard)
	}
	if lowest, highest, differ := s.spread(o); differ {
		add("the margin changes its sign with what counts as stopped: from %s to %s between shares of %.2g and %.2g", lowest, highest,
			o.Stops[0].Share, o.Stops[len(o.Stops)-1].Share)
	}
	if o.Pitch != nil {
		if up, ok := o.Pitch.PitchUp.Value(); ok {
			add("sections that let go push the nose up from α = %s on: a danger", degrees(up))
		}
	}
	return notes
}

// spread returns the margin for the smallest and the largest share of Order.Stops, and whether one is
// surely not positive and the other surely not negative.
func (s *search) spread(o *Order) (lowest, highest Bracket, differ bool) {
	lowest, highest = o.Wing.Minus(o.Stops[0].Alpha), o.Wing.Minus(o.Stops[len(o.Stops)-1].Alpha)
	return lowest, highest, lowest.High < 0 && highest.Low > 0
}
