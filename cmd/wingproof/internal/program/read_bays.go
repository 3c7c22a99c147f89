package program

import "fmt"

// mostBallast is more than any bay of a model takes, kg: it catches grams under a head of kilograms. Common practice, no source.
const mostBallast = 200.0

// bayReach is how far outside the surfaces a bay may lie, as a share of their length: ballast on a boom ahead of the nose.
const bayReach = 0.5

// readBays reads where ballast may sit. The places stay at model size.
func (l *loader) readBays(all []*scope) {
	for _, s := range all {
		var b Bay
		var at spot
		b.Name, at = s.text("name", true)
		if _, twice := known(b.Name, l.bayNames()); twice && b.Name != "" {
			s.wrong(at, "the ballast bay "+quoted(b.Name)+" is there twice", "give each bay a name of its own")
		}
		s.bayPlace(&b)
		y := modelPlace("y")
		b.Y, _ = s.number(y)
		if b.Y < 0 {
			s.wrong(*s.placeOf(y), fmt.Sprintf("bay %s has y = %s m", quoted(b.Name), short(b.Y)),
				"write the distance from the middle, as on the right: a bay off the middle is there on both sides, and both are filled alike")
		}
		b.Z, _ = s.number(modelPlace("z").required())
		most := mass("most").atMost(mostBallast).positive().required()
		b.Most, _ = s.number(most)
		s.done()
		l.p.Model.Bays = append(l.p.Model.Bays, b)
	}
}

func modelPlace(stem string) measure {
	return length(stem).in("mm").atLeast(-mostReach).atMost(mostReach)
}

// bayPlace reads x, or x_from and x_to.
func (s *scope) bayPlace(b *Bay) {
	one, from, to := modelPlace("x"), modelPlace("x_from"), modelPlace("x_to")
	oneAt, fromAt, toAt := s.placeOf(one), s.placeOf(from), s.placeOf(to)
	x, okOne := s.number(one)
	var okFrom, okTo bool
	b.From, okFrom = s.number(from)
	b.To, okTo = s.number(to)
	if okOne {
		b.From, b.To = x, x
	}
	name := "bay " + quoted(b.Name)
	switch {
	case oneAt != nil && (fromAt != nil || toAt != nil):
		s.wrong(*oneAt, name+" states x and also a range of x", "keep x_mm for one place, or x_from_mm and x_to_mm for a tray")
	case fromAt != nil && toAt == nil:
		s.wrong(*fromAt, name+" states x_from without x_to", "add x_to_mm, its aft end")
	case fromAt == nil && toAt != nil:
		s.wrong(*toAt, name+" states x_to without x_from", "add x_from_mm, its forward end")
	case okFrom && okTo && b.To <= b.From:
		s.wrong(*toAt, fmt.Sprintf("%s ends at x = %s m and begins at %s m", name, short(b.To), short(b.From)), "write the forward end as x_from and the aft end as x_to; x counts aft")
	case oneAt == nil && fromAt == nil && !s.asksFor(one, from, to):
		s.missing("x_mm", "x_mm = ..., or x_from_mm = ... and x_to_mm = ... for a tray")
	}
}

// asksFor tells whether the table holds one of the measures, though with a unit that is wrong: that was told already.
func (s *scope) asksFor(measures ...measure) bool {
	for _, k := range s.v.keys {
		for _, m := range measures {
			if _, how := m.match(k.name); how != another {
				return true
			}
		}
	}
	return false
}

// doubtBays warns of bays far off the surfaces; these are read behind them.
func (l *loader) doubtBays() {
	front, back, ok := l.extent()
	ratio := l.p.Model.LengthRatio
	if !ok || !(ratio > 0) {
		return
	}
	spare := bayReach * (back - front)
	for _, b := range l.p.Model.Bays {
		if b.To/ratio < front-spare || b.From/ratio > back+spare {
			l.warn("program.toml: ballast bay %s lies at %.0f mm, and the surfaces of the model reach from %.0f to %.0f mm; bays are stated at model size, from the model's datum",
				quoted(b.Name), 1000*b.From, 1000*front*ratio, 1000*back*ratio)
		}
	}
}

func (l *loader) bayNames() []string {
	return namesOf(l.p.Model.Bays, func(x Bay) string { return x.Name })
}
