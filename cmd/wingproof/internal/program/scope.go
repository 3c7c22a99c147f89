package program

import (
	"fmt"
	"math"
	"strconv"

	"wingproof/flightlog/unit"
)

// scope reads the keys of one table of program.toml, remembers which keys it asked for, and at the end
// reports the keys that nobody asked for.
type scope struct {
	l     *loader
	v     *value
	name  string // for messages: [full_size], limit "aft margin"
	asked []string
	taken map[string]bool
}

func (l *loader) scope(v *value, name string) *scope {
	return &scope{l: l, v: v, name: name, taken: map[string]bool{}}
}

// wrong reports a mistake in program.toml.
func (s *scope) wrong(at spot, what, right string) { s.l.wrong(ProgramFile, at, "", what, right) }

// ask notes that a key may stand here and returns its value, or nil.
func (s *scope) ask(name string, must bool, example string) *value {
	s.asked = append(s.asked, name)
	if k := s.v.get(name); k != nil {
		s.taken[name] = true
		return k.value
	}
	if must {
		s.missing(name, example)
	}
	return nil
}

func (s *scope) missing(name, example string) {
	if s.l.broken {
		return
	}
	s.wrong(s.v.at, fmt.Sprintf("%s has no %s", s.name, name), "add "+example)
}

func (s *scope) form(v *value, name string, want form) bool {
	if v.form == want {
		return true
	}
	s.wrong(v.at, fmt.Sprintf("%s is %s, not %s", name, v.form, want), "write "+name+" = "+example(want))
	return false
}

func example(f form) string {
	return [...]string{`"text"`, "1.5", "true", "2026-03-14", "[ ... ]", "{ ... }"}[f]
}

// text reads a text key; at is where its value stands.
func (s *scope) text(name string, must bool) (text string, at spot) {
	v := s.ask(name, must, name+` = "..."`)
	if v == nil || !s.form(v, name, textForm) {
		return "", s.v.at
	}
	if must && v.text == "" {
		s.wrong(v.at, name+" is empty", "write "+name+` = "..."`)
	}
	return v.text, v.at
}

// word reads a text key that must be one of a list. An absent key gives the fallback.
func (s *scope) word(name string, list []string, fallback string) string {
	v := s.ask(name, fallback == "", name+" = "+oneOf(list))
	if v == nil || !s.form(v, name, textForm) {
		return fallback
	}
	word, ok := known(v.text, list)
	if !ok {
		s.wrong(v.at, name+" = "+quoted(v.text)+" is not known", "write "+oneOf(list))
		return fallback
	}
	return word
}

func (s *scope) truth(name string, fallback bool) bool {
	v := s.ask(name, false, "")
	if v == nil || !s.form(v, name, truthForm) {
		return fallback
	}
	return v.truth
}

// find looks for the key that holds a measure, with whatever unit behind its stem.
func (s *scope) find(m measure) (k *key, u unit.Unit) {
	s.asked = append(s.asked, m.name())
	complained := false
	for i := range s.v.keys {
		candidate := &s.v.keys[i]
		got, how := m.match(candidate.name)
		if how == another || s.taken[candidate.name] {
			continue
		}
		s.taken[candidate.name] = true
		switch {
		case how != rightly:
			what, right := m.unitMistake(candidate.name, how)
			s.wrong(candidate.at, what, right)
			complained = true
		case k != nil:
			s.wrong(candidate.at, fmt.Sprintf("%s is stated twice, as %s and as %s", m.stem, k.name, candidate.name), "keep one of the two")
		default:
			k, u = candidate, got
		}
	}
	if k == nil && m.must && !complained {
		s.missing(m.name(), m.name()+" = ...")
	}
	return k, u
}

// number reads a measure in SI; stated is false when it is absent or wrong, and then its fallback comes back.
func (s *scope) number(m measure) (si float64, stated bool) {
	k, u := s.find(m)
	if k == nil {
		return m.fallback, false
	}
	return s.convert(m, k.name, k.value, u)
}

func (s *scope) convert(m measure, name string, v *value, u unit.Unit) (float64, bool) {
	if !s.form(v, name, numberForm) {
		return m.fallback, false
	}
	si, what, right := m.convert(v.number, u, name)
	if what != "" {
		s.wrong(v.at, what, right)
		return m.fallback, false
	}
	return si, true
}

// placeOf is where the value of a measure stands; nil when the table does not hold it.
func (s *scope) placeOf(m measure) *spot {
	for i := range s.v.keys {
		if _, how := m.match(s.v.keys[i].name); how == rightly {
			return &s.v.keys[i].value.at
		}
	}
	return nil
}

// pointer reads a measure that may be absent.
func (s *scope) pointer(m measure) *float64 {
	if si, ok := s.number(m); ok {
		return &si
	}
	return nil
}

// whole reads an integer key.
func (s *scope) whole(name string, low, high int64, must bool, fallback int64) int64 {
	v := s.ask(name, must, name+" = "+strconv.FormatInt(low, 10))
	if v == nil || !s.form(v, name, numberForm) {
		return fallback
	}
	n := int64(v.number)
	if v.whole {
		n, _ = strconv.ParseInt(v.text, 0, 64)
	}
	if !v.whole || v.number != math.Trunc(v.number) || n < low || n > high {
		s.wrong(v.at, name+" = "+v.text+" is not a whole number in range", fmt.Sprintf("write a whole number from %d to %d", low, high))
		return fallback
	}
	return n
}

// group opens a table of keys; nil when it is absent or not a table.
func (s *scope) group(name, title string, must bool) *scope {
	v := s.ask(name, must, title)
	if v == nil || !s.form(v, name, groupForm) {
		return nil
	}
	return s.l.scope(v, title)
}

// list reads a list; nil when it is absent or not a list.
func (s *scope) list(name string, must bool) []*value {
	v := s.ask(name, must, name+" = [ ... ]")
	if v == nil || !s.form(v, name, listForm) {
		return nil
	}
	return v.list
}

// groups opens every table of a list such as [[limit]] or items = [{ ... }].
func (s *scope) groups(name, title string, must bool) []*scope {
	var out []*scope
	for _, v := range s.list(name, must) {
		if s.form(v, "each entry of "+name, groupForm) {
			out = append(out, s.l.scope(v, title))
		}
	}
	return out
}

// named opens every table below a name, such as [built.spar] and [built.strake].
func (s *scope) named(name string) []*scope {
	v := s.ask(name, false, "")
	if v == nil || !s.form(v, name, groupForm) {
		return nil
	}
	var out []*scope
	for i := range v.keys {
		k := &v.keys[i]
		title := "[" + name + "." + k.name + "]"
		if s.form(k.value, name+"."+k.name, groupForm) {
			sub := s.l.scope(k.value, title)
			sub.asked = append(sub.asked, "")
			sub.v = &value{form: groupForm, at: k.value.at, text: k.name, keys: k.value.keys}
			if k.value.inline || !k.value.defined {
				sub.v.at = k.at
			}
			out = append(out, sub)
		}
	}
	return out
}

// words reads a list of texts with their places.
func (s *scope) words(name string, must bool) (words []string, at []spot) {
	for _, v := range s.list(name, must) {
		if s.form(v, "each entry of "+name, textForm) {
			words, at = append(words, v.text), append(at, v.at)
		}
	}
	return words, at
}

// done reports the keys that nobody asked for.
func (s *scope) done() {
	for _, k := range s.v.keys {
		if s.taken[k.name] {
			continue
		}
		right := "take it out"
		var names []string
		for _, n := range s.asked {
			if n != "" && !s.taken[n] {
				names = append(names, n)
			}
		}
		if best, ok := nearest(k.name, names); ok {
			right = "did you mean " + best + "?"
		} else if len(s.asked) > 0 {
			right = "keys here are " + listed(s.asked)
		}
		s.wrong(k.at, fmt.Sprintf("%s has no key %s", s.name, quoted(k.name)), right)
	}
}

func listed(names []string) string {
	text := ""
	for _, n := range names {
		if n == "" {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += n
	}
	return text
}
