package program

import (
	"fmt"

	"wingproof/flightlog/unit"
)

func (l *loader) readBuilt(all []*scope) {
	for _, s := range all {
		b := Built{Part: s.v.text}
		l.builtAt[b.Part] = s.v.at
		name, at := s.text("surface", true)
		if name != "" {
			var ok bool
			if b.Surface, ok = known(name, l.surfaceNames()); !ok {
				s.wrong(at, "there is no lifting surface "+quoted(name), suggest(name, l.surfaceNames(), "lifting surface"))
			}
		}
		file, fileAt := s.text("bending_allowable", true)
		if file != "" {
			b.Y, b.Allowable = l.readAllowable(s, fileAt, file)
		}
		b.Basis = s.word("basis", []string{"limit", "ultimate"}, "")
		factor := number("knock_down", 0, 1).or(1)
		factor.open = true
		b.KnockDown, _ = s.number(factor)
		b.SD, _ = s.number(percent("sd", 0, 100).required())
		s.done()
		l.p.Built = append(l.p.Built, b)
	}
}

// readAllowable reads a table of bending moments along the span: y from the plane of symmetry, rising.
func (l *loader) readAllowable(s *scope, at spot, file string) (y, moment []float64) {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return nil, nil
	}
	t := l.readTable(path, raw)
	if t == nil {
		return nil, nil
	}
	place := t.measured(length("y").atLeast(0).required())
	bending := t.measured(measure{stem: "bending", dimension: unit.Moment, usual: "nm", high: 1e8}.required())
	t.done()
	for _, r := range t.rows {
		at, okY := t.needNumber(r, place)
		carries, okM := t.needNumber(r, bending)
		if okY && len(y) > 0 && at <= y[len(y)-1] {
			t.wrong(r, place, fmt.Sprintf("y = %s m does not rise", short(at)), "order the rows from the plane of symmetry outboard, each y once")
		}
		if okY && okM {
			y, moment = append(y, at), append(moment, carries)
		}
	}
	if len(t.rows) < 2 {
		l.wrong(path, t.headSpot, "", "an allowable needs two rows or more", "add the bending moment that the part carries at each station")
	}
	return y, moment
}

// checkBuiltParts reports a [built.NAME] that is no part of parts.csv. Without that table nothing is said.
func (l *loader) checkBuiltParts() {
	names := namesOf(l.p.Parts, func(p Part) string { return p.Name })
	if names == nil {
		return
	}
	for i := range l.p.Built {
		b := &l.p.Built[i]
		name, ok := known(b.Part, names)
		if !ok {
			l.wrong(ProgramFile, l.builtAt[b.Part], "", "[built."+b.Part+"] is no part of parts.csv", suggest(b.Part, names, "part"))
			continue
		}
		b.Part = name
	}
}
