package plots

import (
	"image/color"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// fontFamilies names the font whose metrics were used, then families with equal widths.
const fontFamilies = "Liberation Sans, Arimo, Arial, Helvetica, sans-serif"

// Colours; each line and text colour has a contrast of 4.5 or more on white.
var (
	paper         = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	halo          = color.NRGBA{R: 255, G: 255, B: 255, A: 225}
	ink           = color.NRGBA{R: 26, G: 26, B: 26, A: 255}
	faintInk      = color.NRGBA{R: 84, G: 84, B: 84, A: 255}
	rule          = color.NRGBA{R: 222, G: 222, B: 222, A: 255}
	measuredInk   = color.NRGBA{R: 26, G: 26, B: 26, A: 255}
	predictedInk  = color.NRGBA{R: 168, G: 67, B: 0, A: 255}
	anchoredInk   = color.NRGBA{R: 0, G: 86, B: 143, A: 255}
	limitInk      = color.NRGBA{R: 140, G: 20, B: 50, A: 255}
	fourthInk     = color.NRGBA{R: 0, G: 110, B: 84, A: 255}
	measuredBand  = color.NRGBA{R: 26, G: 26, B: 26, A: 38}
	predictedBand = color.NRGBA{R: 168, G: 67, B: 0, A: 38}
	anchoredBand  = color.NRGBA{R: 0, G: 86, B: 143, A: 38}
	bodyFill      = color.NRGBA{R: 26, G: 26, B: 26, A: 20}
	limitFill     = color.NRGBA{R: 140, G: 20, B: 50, A: 70}
	fourthBand    = color.NRGBA{R: 0, G: 110, B: 84, A: 38}
)

// Type sizes in SVG units.
const (
	titleSize vg.Length = 14
	headSize  vg.Length = 11.5
	bodySize  vg.Length = 11
	smallSize vg.Length = 10
	leading   vg.Length = 1.25 // line distance over type size
)

// pen is a text style with its measure.
type pen struct{ style text.Style }

func newPen(size vg.Length, bold bool, ink color.Color) pen {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if bold {
		f.Weight = xfont.WeightBold
	}
	return pen{style: text.Style{Color: ink, Font: f, Handler: text.Plain{Fonts: font.DefaultCache}}}
}

func (p pen) width(s string) vg.Length { return p.style.Width(s) }
func (p pen) line() vg.Length          { return p.style.Font.Size * leading }

// mark is the look of one kind of number: glyph, line and band.
type mark struct {
	glyph draw.GlyphDrawer
	ink   color.Color
	line  draw.LineStyle
	band  color.Color
	size  vg.Length // radius of the glyph
}

func markOf(glyph draw.GlyphDrawer, ink, band color.Color, width vg.Length, dashes ...vg.Length) mark {
	return mark{glyph: glyph, ink: ink, band: band, size: 3.2, line: draw.LineStyle{Color: ink, Width: width, Dashes: dashes}}
}

func measuredMark() mark { return markOf(disc{}, measuredInk, measuredBand, 1.2) }
func predictedMark() mark {
	return markOf(diamond{}, predictedInk, predictedBand, 1.3, 4, 2.5)
}
func anchoredMark() mark { return markOf(block{}, anchoredInk, anchoredBand, 2.2) }

// baselineMark is what lies beneath a changed level: thin, light and dashed, without a glyph of its own.
func baselineMark() mark { return markOf(disc{}, faintInk, measuredBand, 0.9, 3, 2.2) }

// changedMark is a changed level: bold.
func changedMark() mark { return markOf(disc{}, ink, measuredBand, 2.2) }

// seriesMark tells series apart that share one frame, by glyph, dashes and hue together.
func seriesMark(i int) mark {
	marks := []mark{
		markOf(disc{}, measuredInk, measuredBand, 1.4),
		markOf(diamond{}, predictedInk, predictedBand, 1.5, 6, 3),
		markOf(block{}, anchoredInk, anchoredBand, 1.6, 10, 3, 2, 3),
		markOf(triangle{}, fourthInk, fourthBand, 1.6, 2, 2.5),
	}
	return marks[i%len(marks)]
}

// disc, block, diamond and triangle are glyphs; open ones have a white heart.
type (
	disc     struct{}
	block    struct{}
	diamond  struct{}
	triangle struct{}
)

// DrawGlyph draws a filled circle.
func (disc) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, p vg.Point) {
	var path vg.Path
	path.Move(vg.Point{X: p.X + s.Radius, Y: p.Y})
	path.Arc(p, s.Radius, 0, 6.283185307179586)
	path.Close()
	c.SetColor(s.Color)
	c.Fill(path)
}

// DrawGlyph draws a filled square.
func (block) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, p vg.Point) {
	r := s.Radius
	c.FillPolygon(s.Color, []vg.Point{{X: p.X - r, Y: p.Y - r}, {X: p.X + r, Y: p.Y - r}, {X: p.X + r, Y: p.Y + r}, {X: p.X - r, Y: p.Y + r}})
}

// DrawGlyph draws an open diamond.
func (diamond) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, p vg.Point) {
	r := 1.3 * s.Radius
	open(c, s, []vg.Point{{X: p.X - r, Y: p.Y}, {X: p.X, Y: p.Y - r}, {X: p.X + r, Y: p.Y}, {X: p.X, Y: p.Y + r}})
}

// DrawGlyph draws an open triangle.
func (triangle) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, p vg.Point) {
	r := 1.2 * s.Radius
	open(c, s, []vg.Point{{X: p.X - r, Y: p.Y - 0.7*r}, {X: p.X + r, Y: p.Y - 0.7*r}, {X: p.X, Y: p.Y + r}})
}

// open draws an outline about a white heart; that of a small glyph is thin, so that the heart stays white.
func open(c *draw.Canvas, s draw.GlyphStyle, corners []vg.Point) {
	c.FillPolygon(paper, corners)
	c.StrokeLines(draw.LineStyle{Color: s.Color, Width: min(1.4, 0.5*s.Radius)}, append(corners, corners[0], corners[1]))
}
