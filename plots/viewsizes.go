package plots

import (
	"fmt"
	"math"
)

// size is what one thing measures, in words.
type size struct {
	name, text string
	odd        bool // something that is hardly meant
}

func sentences(sizes []size) []string {
	var out []string
	for _, s := range sizes {
		out = append(out, s.name+": "+s.text)
	}
	return out
}

// sizes says what each surface measures, so that a wrong unit or sign can be read off.
func (d ThreeViewData) sizes() []size {
	out := describe("", d.Surfaces)
	if len(d.Other) > 0 {
		out = append(out, describe(or(d.OtherName, "changed")+", ", d.Other)...)
	}
	for _, m := range d.Marks {
		out = append(out, size{name: or(m.Name, m.Kind.words()), text: "x " + number(m.X, 3) + " m"})
	}
	return out
}

func describe(prefix string, surfaces []Outline) []size {
	var out []size
	for _, s := range surfaces {
		x, y, z := emptySpan(), emptySpan(), emptySpan()
		for _, cut := range s.Stations {
			x.add(cut.LeadingEdge[0], cut.TrailingEdge[0])
			y.add(cut.LeadingEdge[1], cut.TrailingEdge[1])
			z.add(cut.LeadingEdge[2], cut.TrailingEdge[2])
		}
		first, last := s.Stations[0], s.Stations[len(s.Stations)-1]
		text := fmt.Sprintf("chord %s to %s m, x %s to %s, y %s to %s, z %s to %s m; %s",
			number(first.chord(), 2), number(last.chord(), 2), number(x.low, 2), number(x.high, 2),
			number(y.low, 2), number(y.high, 2), number(z.low, 2), number(z.high, 2), s.angles())
		for _, h := range s.Hinges {
			from, to := h.Line[0], h.Line[len(h.Line)-1]
			text += fmt.Sprintf("; hinge of the %s from y %s, z %s to y %s, z %s m", or(h.Control, "control"), number(from[1], 2), number(from[2], 2), number(to[1], 2), number(to[2], 2))
		}
		out = append(out, size{name: prefix + s.Name, text: text})
	}
	return out
}

// angles gives sweep of the leading edge (aft positive), dihedral (tip up positive) and the angle of the chords:
// incidence (leading edge up), or toe (leading edge inboard) of a surface that stands more than it lies.
func (o Outline) angles() string {
	first, last := o.Stations[0], o.Stations[len(o.Stations)-1]
	a, b := first.LeadingEdge, last.LeadingEdge
	dihedral := math.Atan2(b[2]-a[2], b[1]-a[1]) * degrees
	sweep := math.Atan2(b[0]-a[0], math.Hypot(b[1]-a[1], b[2]-a[2])) * degrees
	name, of := "incidence", func(c Cut) float64 { return c.LeadingEdge[2] - c.TrailingEdge[2] }
	if math.Abs(dihedral) > 45 && math.Abs(dihedral) < 135 {
		name, of = "toe", func(c Cut) float64 { return c.TrailingEdge[1] - c.LeadingEdge[1] }
	}
	angle := func(c Cut) string {
		return number(math.Atan2(of(c), c.TrailingEdge[0]-c.LeadingEdge[0])*degrees, 1)
	}
	return fmt.Sprintf("sweep %s°, dihedral %s°, %s %s to %s°", number(sweep, 1), number(dihedral, 1), name, angle(first), angle(last))
}

func (c Cut) chord() float64 {
	sum := 0.0
	for i := range c.LeadingEdge {
		sum += (c.TrailingEdge[i] - c.LeadingEdge[i]) * (c.TrailingEdge[i] - c.LeadingEdge[i])
	}
	return math.Sqrt(sum)
}
