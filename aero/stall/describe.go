package stall

import (
	"fmt"
	"slices"
)

// describe fills in the curve, the picture of the sections and the notes.
func (s *search) describe(o *Order, atWing *sample) {
	surface := make([]int, len(s.c.Strips)) // index of each strip's surface
	for i, strip := range s.c.Strips {
		surface[i] = slices.Index(o.Surfaces, strip.Surface)
		if surface[i] < 0 {
			surface[i] = len(o.Surfaces)
			o.Surfaces = append(o.Surfaces, strip.Surface)
		}
	}
	o.Curve = make([]Point, len(s.samples))
	for k, p := range s.samples {
		o.Curve[k] = p.point(surface, len(o.Surfaces))
	}
	o.Sections = Sections{Alpha: atWing.alpha, Strips: make([]SectionState, len(s.c.Strips))}
	for i, strip := range s.c.Strips {
		o.Sections.Strips[i] = SectionState{
			Strip: strip, Attached: atWing.attached[i], Lift: atWing.held.Lift[i], MaxLift: atWing.maximum[i],
			Turn: atWing.held.Turn[i], LetGo: atWing.held.LetGo[i],
		}
	}
	o.Notes = append(o.Notes, s.notes(o)...)
}

func (p *sample) point(surface []int, surfaces int) Point {
	letGo := make([]int, surfaces)
	for i, gone := range p.held.LetGo {
		if gone {
			letGo[surface[i]]++
		}
	}
	return Point{
		Alpha: p.alpha, ForeplaneLift: p.now.foreplane, WingLift: p.now.wing, Lift: p.now.whole,
		ForeplaneAttached: p.now.foreplaneAttached, WingAttached: p.now.wingAttached,
		ForeplaneRise: p.rise, LetGo: letGo, PitchChange: p.now.pitchChange,
	}
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
