package program

import (
	"fmt"
)

func (l *loader) readChoices(all []*scope) {
	for _, s := range all {
		var c Choice
		var at spot
		c.Name, at = s.text("name", true)
		if _, twice := known(c.Name, l.choiceNames()); twice {
			s.wrong(at, "the choice "+quoted(c.Name)+" is there twice", "give each choice a name of its own")
		}
		if _, fixed := known(c.Name, flightHeads()); fixed {
			s.wrong(at, "the choice "+quoted(c.Name)+" has the name of a column of flights.csv", "call it otherwise, such as "+c.Name+"_size")
		}
		baseline, baselineAt := s.text("baseline", true)
		if levels := s.group("level", "level", true); levels != nil {
			c.Levels = l.readLevels(s, levels, c.Name)
		}
		s.done()
		if baseline != "" && len(c.Levels) > 0 {
			name, ok := known(baseline, c.levelNames())
			if !ok {
				s.wrong(baselineAt, "the baseline "+quoted(baseline)+" is no level of choice "+quoted(c.Name), suggest(baseline, c.levelNames(), "level"))
			}
			c.Baseline = name
		}
		l.p.Choices = append(l.p.Choices, c)
	}
}

func (l *loader) readLevels(s, levels *scope, choice string) []Level {
	var out []Level
	for i := range levels.v.keys {
		k := &levels.v.keys[i]
		levels.taken[k.name] = true
		level := Level{Name: k.name}
		l.levelAt[[2]string{choice, k.name}] = k.at
		if !s.form(k.value, "level."+k.name, listForm) {
			continue
		}
		for _, v := range k.value.list {
			if s.form(v, "each entry of level."+k.name, groupForm) {
				level.Edits = append(level.Edits, l.readEdit(l.scope(v, "an edit of level "+k.name)))
			}
		}
		out = append(out, level)
	}
	if len(out) < 2 {
		s.wrong(levels.v.at, "choice "+quoted(choice)+" has fewer than two levels", "list the levels that are still discussed, such as level.small = [ ... ]; a matter with one level is no choice")
	}
	return out
}

func (l *loader) readEdit(s *scope) Edit {
	var e Edit
	name, at := s.text("surface", true)
	if name != "" {
		var ok bool
		if e.Surface, ok = known(name, l.surfaceNames()); !ok {
			s.wrong(at, "there is no lifting surface "+quoted(name), suggest(name, l.surfaceNames(), "lifting surface"))
		}
	}
	if file, fileAt := s.text("stations", false); file != "" {
		e.Stations, _ = l.readStations(s, fileAt, file)
	}
	for _, size := range editSizes() {
		*size.field(&e) = s.pointer(size.measure)
	}
	if len(s.v.keys) < 2 && s.v.get("surface") != nil {
		s.wrong(s.v.at, fmt.Sprintf("this edit of %s changes nothing", quoted(name)), "add what changes, such as height_m = 1.2, or leave the level's list empty")
	}
	s.done()
	return e
}
