package report

import (
	"fmt"
	"io"

	"wingproof/aero"
)

// StripGroup is the load along the surfaces of one configuration.
type StripGroup struct {
	Name   string
	Strips []aero.StripLoad
}

// StripTable writes the load along every span as text no wider than width columns (100 when width is 0).
func StripTable(w io.Writer, head LatticeHead, groups []StripGroup, width int) error {
	head.GridErrors = false
	if err := head.write(w, width); err != nil {
		return err
	}
	for i, g := range groups {
		if i > 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if err := paragraph(w, plain(g.Name)+": strips of the right half; positions of the quarter-chord point; load is section lift times chord over the mean chord; "+
			"section lift of a winglet is positive inboard", width); err != nil {
			return err
		}
		t := textTable{heads: []string{"surface", "x, m", "y, m", "z, m", "width, m", "chord, m", "section lift", "load"}, most: []int{0, 8, 8, 8, 9, 9, 13, 9}}
		last := ""
		for _, s := range g.Strips {
			name := plain(s.Surface)
			if name == last {
				name = ""
			} else {
				last = name
			}
			t.add(name, number(s.Centre.X, 4), number(s.Centre.Y, 4), number(s.Centre.Z, 4), number(s.Width, 4), number(s.Chord, 4),
				number(s.SectionLift, 4), number(s.SectionLift*s.Chord/head.Reference.MeanChord, 4))
		}
		if err := t.write(w, width); err != nil {
			return err
		}
	}
	return nil
}
