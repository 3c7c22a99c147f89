package program

import "fmt"

func (l *loader) readLoadings(all []*scope) {
	for _, s := range all {
		var loading Loading
		var at spot
		loading.Name, at = s.text("name", true)
		if _, twice := known(loading.Name, l.loadingNames()); twice {
			s.wrong(at, "the loading "+quoted(loading.Name)+" is there twice", "give each loading a name of its own")
		}
		loading.Flies = s.truth("flies", true)
		s.readSource("what " + quoted(loading.Name) + " carries")
		for _, item := range s.groups("items", "an item of loading "+loading.Name, true) {
			var i Item
			i.What, _ = item.text("what", true)
			i.Mass, _ = item.number(mass("mass").required())
			i.X, _ = item.number(length("x").required())
			i.Y, _ = item.number(length("y"))
			i.Z, _ = item.number(length("z").required())
			item.tank(&i)
			item.done()
			loading.Items = append(loading.Items, i)
		}
		s.done()
		l.p.Loadings = append(l.p.Loadings, loading)
	}
}

// tank reads between which distances from the plane of symmetry an item lies, on both sides.
func (s *scope) tank(i *Item) {
	from, to := length("span_from").atLeast(0), length("span_to").atLeast(0)
	var okFrom, okTo bool
	i.SpanFrom, okFrom = s.number(from)
	i.SpanTo, okTo = s.number(to)
	fromAt, toAt := s.placeOf(from), s.placeOf(to)
	switch {
	case fromAt != nil && toAt == nil:
		s.wrong(*fromAt, quoted(i.What)+" states span_from without span_to", "add span_to_m, the outboard end of the tank")
	case fromAt == nil && toAt != nil:
		s.wrong(*toAt, quoted(i.What)+" states span_to without span_from", "add span_from_m, the inboard end of the tank; 0 is the plane of symmetry")
	case okFrom && okTo && i.SpanTo <= i.SpanFrom:
		s.wrong(*toAt, fmt.Sprintf("%s ends %s m from the plane of symmetry and begins at %s m", quoted(i.What), short(i.SpanTo), short(i.SpanFrom)),
			"write the inboard end as span_from and the outboard end as span_to")
	case okFrom && okTo && i.Y != 0:
		s.wrong(*s.placeOf(length("y")), quoted(i.What)+" lies on both sides and has y = "+short(i.Y)+" m", "leave y out, or state y alone for a load on one side")
	}
}

func (l *loader) loadingNames() []string {
	return namesOf(l.p.Loadings, func(x Loading) string { return x.Name })
}
