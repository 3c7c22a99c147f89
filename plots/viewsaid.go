package plots

import (
	"fmt"
	"strconv"

	"gonum.org/v1/plot/vg/draw"
)

// speak lets stations, marks, wheels and what looks wrong say their numbers in a view.
func (d ThreeViewData) speak(c draw.Canvas, b board) {
	for _, s := range d.Surfaces {
		name := ""
		if d.changed(s) {
			name = or(d.Name, "baseline")
		}
		b.speakStations(c, name, s)
	}
	for _, s := range d.Other {
		b.speakStations(c, or(d.OtherName, "changed"), s)
	}
	if b.markAt {
		for _, m := range d.Marks {
			note(c, b.at(Position{m.X, 0, m.Z}), or(m.Name, m.Kind.words())+": x "+number(m.X, 3)+" m aft of datum")
		}
	}
	for _, w := range d.Wheels {
		note(c, b.at(w.At), or(w.Name, "wheel")+": "+w.At.words())
	}
	for _, o := range d.oddities() {
		note(c, b.at(o.at), "look here: "+o.words)
	}
}

// speakStations puts a point on each leading edge of the half that is given.
func (b board) speakStations(c draw.Canvas, geometry string, s Outline) {
	for i, cut := range s.Stations {
		note(c, b.at(cut.LeadingEdge), said("leading edge "+cut.LeadingEdge.words()+", chord "+number(cut.chord(), 3)+" m",
			geometry, s.Name, "station "+or(cut.Name, strconv.Itoa(i+1))))
	}
}

// words are the coordinates of a place in datum axes.
func (p Position) words() string {
	return fmt.Sprintf("x %s, y %s, z %s m", number(p[0], 3), number(p[1], 3), number(p[2], 3))
}
