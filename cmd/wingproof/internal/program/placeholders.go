package program

import "strings"

// placeHolder is the source that New writes beside a figure that nobody has stated.
const placeHolder = "place holder, replace"

// PlaceHolders lists, in words, what program.toml still has of a new folder: figures of [full_size] and tables whose source still says so.
func (p *Program) PlaceHolders() []string {
	f := p.FullSize
	var out []string
	for _, n := range []struct {
		words  string
		figure Figure
	}{{"gross mass", f.Mass}, {"empty mass", f.EmptyMass}, {"empty CG aft of datum", f.EmptyX}, {"empty CG above datum", f.EmptyZ}} {
		if holdsPlace(n.figure.Source) {
			out = append(out, n.words)
		}
	}
	return append(out, p.Held...)
}

// holdsPlace tells whether a source is that of a new folder.
func holdsPlace(source string) bool { return folded(source) == folded(placeHolder) }

// readSource reads where the figures of a table come from, which may be left out; a table that still is a place holder is remembered by
// the words that people know it by.
func (s *scope) readSource(words string) {
	if source, _ := s.text("source", false); holdsPlace(source) {
		s.l.p.Held = append(s.l.p.Held, words)
	}
}

// warnOfPlaceHolders tells what a signed folder still has of a new one. Of one that is not signed, that is told instead.
func (l *loader) warnOfPlaceHolders() {
	if held := l.p.PlaceHolders(); l.p.CautionsRead != "" && len(held) > 0 {
		l.warn("program.toml: still place holders of a new folder: %s; write your own figures, and where they come from as their source", strings.Join(held, ", "))
	}
}
