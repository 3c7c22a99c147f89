package plots

import (
	"errors"
	"fmt"
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

func hingeMark() mark { return markOf(disc{}, anchoredInk, anchoredBand, 1, 6, 2, 1.5, 2) }

func latticeMark() mark { return markOf(disc{}, faintInk, measuredBand, 0.3) }
