package plots

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Figure is one finished drawing.
//
// SVG is laid out for desk screens and paper, Narrow is the same content for a phone; both are one <svg>
// element that can stand inline in a page. Title heads the figure; Alt says in words what it shows, with
// the numbers, for readers who do not see it. Points and NarrowPoints are the places of the two layouts that say
// a number, some 300 at most: of more, an even part is kept.
type Figure struct {
	SVG          []byte
	Narrow       []byte
	Title        string
	Alt          string
	Points       []Point
	NarrowPoints []Point

	wide *sheet // what the picture is made from; plain data, so that figures compare
}

// Widths of the two layouts in SVG units; a unit is meant to be about a pixel.
const (
	wideWidth   vg.Length = 660
	narrowWidth vg.Length = 344
)

// layout decides the height of a drawing at a width and returns what paints it.
type layout func(width vg.Length) (height vg.Length, paint func(draw.Canvas))

// compose renders one layout at both widths.
func compose(title, alt string, lay layout) (Figure, error) {
	title, alt = clean(title), clean(alt)
	wide, narrow := paintOn(lay, wideWidth), paintOn(lay, narrowWidth)
	return Figure{
		SVG: wide.svg(title, alt), Narrow: narrow.svg(title, alt), Title: title, Alt: alt,
		Points: distinct(wide.points, mostPoints), NarrowPoints: distinct(narrow.points, mostPoints), wide: wide,
	}, nil
}

// paintOn paints a layout on a sheet of its height.
func paintOn(lay layout, width vg.Length) *sheet {
	height, paint := lay(width)
	s := newSheet(width, vg.Length(math.Ceil(float64(height))))
	c := draw.New(s)
	c.FillPolygon(paper, []vg.Point{{}, {X: s.width}, {X: s.width, Y: s.height}, {Y: s.height}})
	paint(c)
	s.pens = nil
	return s
}

// clean makes any string fit for XML: control characters and broken encodings become spaces.
func clean(s string) string {
	s = strings.ToValidUTF8(s, " ")
	s = strings.Map(func(r rune) rune {
		if r < 0x20 || (r >= 0x7f && r < 0xa0) || r == 0xfffe || r == 0xffff || (r >= 0x202a && r <= 0x202e) || (r >= 0x2066 && r <= 0x2069) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
