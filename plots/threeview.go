package plots

import (
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
	Other     []Outline // a second geometry: what differs is drawn over the first; may be empty
	OtherName string    // what Other is, such as "winglet tall"
	Wheels    []Wheel
	Marks     []Mark
}

// Outline is one lifting surface by its stations from the inboard to the outboard end.
type Outline struct {
	Name     string
	Stations []Cut
	Mirrored bool         // the left half is the mirror image
	Panels   [][]Position // thin closed polygons; may be empty
}

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
// shows. The front view is seen from ahead: the right wing is at the left.
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
	sizes := d.sizes()
	if compared && len(d.Other) == 0 {
		sizes = append(sizes, size{or(d.OtherName, "changed"), "every surface is the same as in " + or(d.Name, "baseline")})
	}
	return compose(title, strings.Join(sentences(sizes), ". ")+".", func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := d.header(title).place(width)
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
		return s.Name == o.Name && s.Mirrored == o.Mirrored && slices.Equal(s.Stations, o.Stations)
	})
}

func (d ThreeViewData) check() error {
	for _, s := range append(append([]Outline{}, d.Surfaces...), d.Other...) {
		if len(s.Stations) < 2 {
			return fmt.Errorf("surface %q has %d stations; want two or more", s.Name, len(s.Stations))
		}
		for i, cut := range s.Stations {
			for _, v := range append(append([]float64{}, cut.LeadingEdge[:]...), cut.TrailingEdge[:]...) {
				if !finite(v) {
					return fmt.Errorf("surface %q, station %d: coordinate %g; want a finite number of metres", s.Name, i+1, v)
				}
			}
		}
		for _, panel := range s.Panels {
			for _, at := range panel {
				if err := checkSeries("surface "+s.Name+": panel", at[:]); err != nil {
					return err
				}
			}
		}
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

func (d ThreeViewData) header(title string) header {
	h := header{title: title, note: "Full-size metres from the datum; numbers along the right half are stations."}
	line := func(words string, m mark) keyEntry { return lineKey(words, m, false) }
	if len(d.Other) > 0 {
		h.key = append(h.key, line(or(d.Name, "baseline"), outlineMark()), line(or(d.OtherName, "changed"), otherMark()))
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
	return h
}

func outlineMark() mark { return markOf(disc{}, ink, measuredBand, 1.3) }
func otherMark() mark   { return markOf(diamond{}, predictedInk, predictedBand, 1.4, 5, 2.5) }

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
type size struct{ name, text string }

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
		out = append(out, size{or(m.Name, m.Kind.words()), "x " + number(m.X, 3) + " m"})
	}
	return out
}

func describe(prefix string, surfaces []Outline) []size {
	var out []size
	for _, s := range surfaces {
		var x, y, z span
		x, y, z = emptySpan(), emptySpan(), emptySpan()
		for _, cut := range s.Stations {
			x.add(cut.LeadingEdge[0], cut.TrailingEdge[0])
			y.add(cut.LeadingEdge[1], cut.TrailingEdge[1])
			z.add(cut.LeadingEdge[2], cut.TrailingEdge[2])
		}
		first, last := s.Stations[0], s.Stations[len(s.Stations)-1]
		out = append(out, size{prefix + s.Name, fmt.Sprintf("chord %s to %s m, x %s to %s, y %s to %s, z %s to %s m",
			number(first.chord(), 2), number(last.chord(), 2), number(x.low, 2), number(x.high, 2),
			number(y.low, 2), number(y.high, 2), number(z.low, 2), number(z.high, 2))})
	}
	return out
}

func (c Cut) chord() float64 {
	sum := 0.0
	for i := range c.LeadingEdge {
		sum += (c.TrailingEdge[i] - c.LeadingEdge[i]) * (c.TrailingEdge[i] - c.LeadingEdge[i])
	}
	return math.Sqrt(sum)
}
