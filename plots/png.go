package plots

import (
	"image"
	"math"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// rasterDots is the fineness of pictures: five dots for three units of a layout, so that thin lines stay crisp on fine screens
// and on paper.
const rasterDots = 120 // an inch; a unit is 1/72 inch

// repaint puts everything on the canvas of a picture, in its order.
func (s *sheet) repaint(c *vgimg.Canvas) {
	faces := map[font.Font]xfont.Face{}
	for i, t := range s.touches {
		if i == 0 && t.kind == fillTouch && t.ink == paper {
			continue // the sheet itself, which the canvas has already
		}
		c.SetColor(t.ink)
		switch t.kind {
		case strokeTouch:
			c.SetLineWidth(t.width)
			c.SetLineDash(t.dashes, 0)
			c.Stroke(t.path)
		case fillTouch:
			c.Fill(t.path)
		case textTouch:
			t.letter(c, s.height, faces)
		}
	}
}

// letter writes a text. Level text goes straight onto the dots, its baseline on a whole one, so that letters are crisp and each
// face is made once only; turned text goes the canvas's own way.
func (t touch) letter(c *vgimg.Canvas, height vg.Length, faces map[font.Font]xfont.Face) {
	face := font.DefaultCache.Lookup(t.font, t.font.Size)
	if t.turned != 0 {
		c.Push()
		c.Translate(t.at)
		c.Rotate(t.turned)
		c.FillString(face, vg.Point{}, t.text)
		c.Pop()
		return
	}
	if faces[t.font] == nil {
		faces[t.font] = face.FontFace(c.DPI())
	}
	dots := c.DPI() / 72
	pen := xfont.Drawer{Dst: c.Image(), Src: image.NewUniform(t.ink), Face: faces[t.font]}
	pen.Dot.X = fixed.Int26_6(math.Round(float64(t.at.X) * dots * 64))
	pen.Dot.Y = fixed.I(int(math.Round(float64(height-t.at.Y) * dots)))
	pen.DrawString(t.text)
}
