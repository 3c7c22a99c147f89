package plots

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Figure is one finished drawing.
//
// SVG is laid out for desk screens and paper, Narrow is the same content for a phone; both are one <svg>
// element that can stand inline in a page. Title heads the figure; Alt says in words what it shows, with
// the numbers, for readers who do not see it.
type Figure struct {
	SVG    []byte
	Narrow []byte
	Title  string
	Alt    string
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
	wide, err := render(title, alt, lay, wideWidth)
	if err != nil {
		return Figure{}, err
	}
	narrow, err := render(title, alt, lay, narrowWidth)
	if err != nil {
		return Figure{}, err
	}
	return Figure{SVG: wide, Narrow: narrow, Title: title, Alt: alt}, nil
}

func render(title, alt string, lay layout, width vg.Length) ([]byte, error) {
	height, paint := lay(width)
	height = vg.Length(math.Ceil(float64(height)))
	canvas := vgsvg.NewWith(vgsvg.UseWH(width, height))
	c := draw.New(canvas)
	c.FillPolygon(paper, []vg.Point{{}, {X: width}, {X: width, Y: height}, {Y: height}})
	paint(c)
	var raw bytes.Buffer
	if _, err := canvas.WriteTo(&raw); err != nil {
		return nil, fmt.Errorf("plots: write %q: %w", title, err)
	}
	return inline(raw.Bytes(), title, alt, width, height)
}

// inline turns a stand-alone SVG document into one element that may stand inside HTML.
func inline(raw []byte, title, alt string, width, height vg.Length) ([]byte, error) {
	_, rest, found := bytes.Cut(raw, []byte("<svg"))
	_, body, closed := bytes.Cut(rest, []byte(">"))
	if !found || !closed {
		return nil, fmt.Errorf("plots: %q: the drawing has no svg element", title)
	}
	text := strings.ReplaceAll(string(body), "font-family:Liberation Sans;font-variant:normal;", "")
	text = strings.ReplaceAll(text, "font-weight:normal;font-style:normal;", "")
	text = strings.ReplaceAll(text, "font-style:normal;", "")
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%g" height="%g" viewBox="0 0 %g %g" role="img" aria-label="%s" font-family="%s">`+"\n",
		float64(width), float64(height), float64(width), float64(height), html.EscapeString(title+". "+alt), fontFamilies)
	fmt.Fprintf(&out, "<title>%s</title>\n<desc>%s</desc>\n", html.EscapeString(title), html.EscapeString(alt))
	out.WriteString(strings.TrimSpace(text))
	out.WriteByte('\n')
	return out.Bytes(), nil
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
