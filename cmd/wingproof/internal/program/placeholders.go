package program

import "strings"

// placeHolder is the source that New writes beside a figure that nobody has stated.
const placeHolder = "place holder, replace"

// PlaceHolders lists the keys of [full_size] whose source still says that they are those of a new folder.
func (p *Program) PlaceHolders() []string {
	f := p.FullSize
	var out []string
	for _, n := range []struct {
		key    string
		figure Figure
	}{{"mass", f.Mass}, {"empty_mass", f.EmptyMass}, {"empty_cg_x", f.EmptyX}, {"empty_cg_z", f.EmptyZ}} {
		if folded(n.figure.Source) == folded(placeHolder) {
			out = append(out, n.key)
		}
	}
	return out
}

// warnOfPlaceHolders tells what a signed folder still has of a new one. Of one that is not signed, that is told instead.
func (l *loader) warnOfPlaceHolders() {
	if held := l.p.PlaceHolders(); l.p.CautionsRead != "" && len(held) > 0 {
		l.warn("program.toml: %s of [full_size] are still place holders of a new folder; write your own figures, and where they come from as their source", strings.Join(held, ", "))
	}
}
