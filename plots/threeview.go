package plots

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ThreeViewData is the arrangement of lifting surfaces in datum axes: x aft, y right, z up, full-size
// metres.
type ThreeViewData struct {
	Title     string // empty: "Three views of the lifting surfaces"
	Surfaces  []Outline
	Name      string    // what Surfaces are, such as "baseline"; needed when Other is given
	Other     []Outline // a second geometry, whole or only what changed: what differs is drawn bold over the first
	OtherName string    // what Other is, such as "winglet tall"
	Body      []BodySection
	Wheels    []Wheel
	Marks     []Mark
}

// Outline is one lifting surface by its stations from the inboard to the outboard end.
type Outline struct {
	Name     string
	Stations []Cut
	Mirrored bool         // the left half is the mirror image; the stations are those of the right half
	Panels   [][]Position // corners of the panels of a lattice, in turn around each; drawn thin; may be empty
	Hinges   []Hinge
}

// Hinge is the hinge line of a control, from the inboard to the outboard end.
type Hinge struct {
	Control string
	Line    []Position
}

// BodySection is the fuselage at one station: x of the station, full width and height of its outline and the
// height of its middle above the datum, m. It is drawn for orientation only.
type BodySection struct{ X, Width, Height, Z float64 }

// Position is x, y, z in datum axes, m.
type Position [3]float64

// Cut is one station of a surface.
type Cut struct {
	Name                      string // empty: its number from 1
	LeadingEdge, TrailingEdge Position
}

// Wheel is where a wheel stands; Radius 0 draws a small one.
type Wheel struct {
	Name   string
	At     Position // hub
	Radius float64  // m
}

// MarkKind tells centres of gravity from neutral points.
type MarkKind int

// The kinds of marks.
const (
	CentreOfGravity MarkKind = iota
	NeutralPoint
)

// Mark is a point on the plane of symmetry.
type Mark struct {
	Kind MarkKind
	Name string
	X, Z float64
}

// ThreeView draws top, side and front view on one scale, nose to the left, with station numbers on the
// right half, names on the left half and the sizes in words, so that a wrong sign or a swapped column
// shows. Stations out of order, a trailing edge ahead of its leading edge and the like are ringed and said.
// The front view is seen from ahead: the right wing is at the left.
//
// It returns ErrNoData without surfaces, and an error that names surface and station when a coordinate is
// not finite or a surface has fewer than two stations.
func ThreeView(d ThreeViewData) (Figure, error) {
	title := or(d.Title, "Three views of the lifting surfaces")
	if len(d.Surfaces) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	if err := d.check(); err != nil {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, err)
	}
	compared := len(d.Other) > 0
	d.Other = slices.DeleteFunc(slices.Clone(d.Other), d.holds)
	sizes, odd := d.sizes(), d.oddities()
	for _, o := range odd {
		sizes = append(sizes, size{name: "look here", text: o.words, odd: true})
	}
	if compared && len(d.Other) == 0 {
		sizes = append(sizes, size{name: or(d.OtherName, "changed"), text: "every surface is the same as in " + or(d.Name, "baseline")})
	}
	return compose(title, strings.Join(sentences(sizes), ". ")+".", func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := d.header(title, len(odd) > 0).place(width)
		height, paint := d.place(width, sizes)
		return top + height, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			paint(c, c.Max.Y-top)
		}
	})
}

// holds tells whether the first geometry has the very same surface, so that only changes are drawn twice.
func (d ThreeViewData) holds(o Outline) bool {
	return slices.ContainsFunc(d.Surfaces, func(s Outline) bool {
		return s.Name == o.Name && s.Mirrored == o.Mirrored && slices.Equal(s.Stations, o.Stations) && slices.EqualFunc(s.Hinges, o.Hinges, sameHinge)
	})
}

func sameHinge(a, b Hinge) bool { return a.Control == b.Control && slices.Equal(a.Line, b.Line) }

// changed tells whether the second geometry draws a surface of this name anew.
func (d ThreeViewData) changed(s Outline) bool {
	return slices.ContainsFunc(d.Other, func(o Outline) bool { return o.Name == s.Name })
}

func (d ThreeViewData) check() error {
	for _, s := range slices.Concat(d.Surfaces, d.Other) {
		if err := s.check(); err != nil {
			return err
		}
	}
	if len(d.Body) == 1 {
		return errors.New("fuselage has 1 section; want two or more, or none")
	}
	x := make([]float64, len(d.Body))
	for i, b := range d.Body {
		x[i] = b.X
		if err := checkSeries(fmt.Sprintf("fuselage section %d", i+1), []float64{b.X, b.Width, b.Height, b.Z}); err != nil {
			return err
		}
		if b.Width < 0 || b.Height < 0 {
			return fmt.Errorf("fuselage section %d is %g m wide and %g m high; want neither below 0", i+1, b.Width, b.Height)
		}
	}
	if err := checkRising("fuselage section: x", x); err != nil {
		return err
	}
	for _, w := range d.Wheels {
		if err := checkSeries("wheel "+w.Name, append([]float64{w.Radius}, w.At[:]...)); err != nil {
			return err
		}
	}
	for _, m := range d.Marks {
		if err := checkSeries("mark "+m.Name, []float64{m.X, m.Z}); err != nil {
			return err
		}
	}
	return nil
}

// check finds what cannot be drawn.
func (o Outline) check() error {
	if len(o.Stations) < 2 {
		return fmt.Errorf("surface %q has %d stations; want two or more", o.Name, len(o.Stations))
	}
	for i, cut := range o.Stations {
		for _, v := range slices.Concat(cut.LeadingEdge[:], cut.TrailingEdge[:]) {
			if !finite(v) {
				return fmt.Errorf("surface %q, station %d: coordinate %g; want a finite number of metres", o.Name, i+1, v)
			}
		}
	}
	for i, panel := range o.Panels {
		for _, at := range panel {
			if err := checkSeries(fmt.Sprintf("surface %q, panel %d", o.Name, i+1), at[:]); err != nil {
				return err
			}
		}
	}
	for _, h := range o.Hinges {
		if len(h.Line) < 2 {
			return fmt.Errorf("surface %q, hinge of %q has %d points; want two or more", o.Name, h.Control, len(h.Line))
		}
		for _, at := range h.Line {
			if err := checkSeries(fmt.Sprintf("surface %q, hinge of %q", o.Name, h.Control), at[:]); err != nil {
				return err
			}
		}
	}
	return nil
}

func (d ThreeViewData) header(title string, odd bool) header {
	h := header{title: title, note: "Full-size metres from the datum; numbers along the right half are stations."}
	line := func(words string, m mark) { h.key = append(h.key, lineKey(words, m, false)) }
	if len(d.Other) > 0 {
		line(or(d.OtherName, "changed"), changedMark())
		line(or(d.Name, "baseline")+", where it differs", baselineMark())
		line("the same in both", outlineMark())
	}
	if slices.ContainsFunc(slices.Concat(d.Surfaces, d.Other), func(o Outline) bool { return len(o.Hinges) > 0 }) {
		line("hinge line", hingeMark())
	}
	if slices.ContainsFunc(slices.Concat(d.Surfaces, d.Other), func(o Outline) bool { return len(o.Panels) > 0 }) {
		line("panels of the lattice", latticeMark())
	}
	if len(d.Body) > 0 {
		h.key = append(h.key, keyEntry{words: "fuselage", sample: func(c draw.Canvas, x, y vg.Length) {
			c.FillPolygon(bodyFill, []vg.Point{{X: x, Y: y - 5}, {X: x + keySample, Y: y - 5}, {X: x + keySample, Y: y + 5}, {X: x, Y: y + 5}})
		}})
	}
	kinds := map[MarkKind]bool{}
	for _, m := range d.Marks {
		if !kinds[m.Kind] {
			kinds[m.Kind] = true
			h.key = append(h.key, keyEntry{words: m.Kind.words(), sample: func(c draw.Canvas, x, y vg.Length) { m.Kind.draw(c, x+keySample/2, y) }})
		}
	}
	if len(d.Wheels) > 0 {
		h.key = append(h.key, keyEntry{words: "wheel", sample: func(c draw.Canvas, x, y vg.Length) { circle(c, x+keySample/2, y, 4, 1.2) }})
	}
	if odd {
		h.key = append(h.key, keyEntry{words: "look here", sample: func(c draw.Canvas, x, y vg.Length) { ring(c, limitInk, vg.Point{X: x + keySample/2, Y: y}, 6) }})
	}
	return h
}

func outlineMark() mark { return markOf(disc{}, ink, measuredBand, 1.3) }
func hingeMark() mark   { return markOf(disc{}, anchoredInk, anchoredBand, 1, 6, 2, 1.5, 2) }
func latticeMark() mark { return markOf(disc{}, faintInk, measuredBand, 0.3) }

func (k MarkKind) words() string {
	if k == NeutralPoint {
		return "neutral point"
	}
	return "centre of gravity"
}

// draw paints the quartered circle of a centre of gravity or the open diamond of a neutral point.
func (k MarkKind) draw(c draw.Canvas, x, y vg.Length) {
	if k == NeutralPoint {
		diamond{}.DrawGlyph(&c, draw.GlyphStyle{Color: anchoredInk, Radius: 4}, vg.Point{X: x, Y: y})
		return
	}
	const r = 4.5
	disc{}.DrawGlyph(&c, draw.GlyphStyle{Color: paper, Radius: r}, vg.Point{X: x, Y: y})
	for _, start := range []float64{0, math.Pi} {
		var path vg.Path
		path.Move(vg.Point{X: x, Y: y})
		path.Line(vg.Point{X: x + r*vg.Length(math.Cos(start)), Y: y})
		path.Arc(vg.Point{X: x, Y: y}, r, start, math.Pi/2)
		path.Close()
		c.SetColor(ink)
		c.Fill(path)
	}
	circle(c, x, y, r, 1)
}

func circle(c draw.Canvas, x, y, radius, width vg.Length) {
	var path vg.Path
	path.Move(vg.Point{X: x + radius, Y: y})
	path.Arc(vg.Point{X: x, Y: y}, radius, 0, 2*math.Pi)
	path.Close()
	c.SetLineStyle(draw.LineStyle{Color: ink, Width: width})
	c.Stroke(path)
}

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
