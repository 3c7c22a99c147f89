package plots

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"

	"gonum.org/v1/plot/vg/vgimg"
)

// fewInks is how many colours the picture has where its inks allow it: so many take half a byte a dot.
const fewInks = 16

// Picture is the wide layout as a PNG picture, at twice its size in dots, in few colours: its inks and their mixtures with the paper.
// The same figure gives the same bytes; a figure that was not drawn by this package has no picture.
func (f Figure) Picture() ([]byte, error) {
	if f.wide == nil {
		return nil, errors.New("plots: no picture: the figure was not drawn")
	}
	return f.wide.inFewInks(rasterDots)
}

// inFewInks is the sheet as PNG.
func (s *sheet) inFewInks(dotsAnInch int) ([]byte, error) {
	canvas := vgimg.NewWith(vgimg.UseWH(s.width, s.height), vgimg.UseDPI(dotsAnInch), vgimg.UseBackgroundColor(paper))
	s.repaint(canvas)
	dots, ok := canvas.Image().(*image.RGBA)
	if !ok {
		return nil, fmt.Errorf("plots: a canvas of %T has no dots to count", canvas.Image())
	}
	var out bytes.Buffer
	if err := png.Encode(&out, inInks(dots, s.inks())); err != nil {
		return nil, fmt.Errorf("plots: as a picture: %w", err)
	}
	return out.Bytes(), nil
}

// inks are the paper, every ink as it looks on paper, in the order of their use, and as many mixtures of dark inks with paper as there is
// room for: halves first, then three quarters.
func (s *sheet) inks() color.Palette {
	out := color.Palette{paper}
	seen := map[color.NRGBA]bool{paper: true}
	add := func(c color.NRGBA) {
		if !seen[c] && len(out) < 256 {
			seen[c] = true
			out = append(out, c)
		}
	}
	for _, t := range s.touches {
		add(onPaper(t.ink, float64(t.ink.A)/255))
	}
	inks := len(out)
	for _, share := range []float64{0.5, 0.75} {
		for i := 1; i < inks && len(out) < fewInks; i++ {
			if ink := out[i].(color.NRGBA); isDark(ink) {
				add(onPaper(ink, share))
			}
		}
	}
	return out
}

// onPaper mixes an ink with paper; share is the ink's.
func onPaper(ink color.NRGBA, share float64) color.NRGBA {
	mix := func(a, b uint8) uint8 { return uint8(share*float64(a) + (1-share)*float64(b) + 0.5) }
	return color.NRGBA{R: mix(ink.R, paper.R), G: mix(ink.G, paper.G), B: mix(ink.B, paper.B), A: 255}
}

// isDark tells inks of lines and letters from those of rules and bands, whose edges need no smoothing.
func isDark(c color.NRGBA) bool { return int(c.R)+2*int(c.G)+int(c.B) < 3*255 }

// inInks gives every dot the nearest of the colours.
func inInks(dots *image.RGBA, colours color.Palette) *image.Paletted {
	out := image.NewPaletted(dots.Bounds(), colours)
	nearest := map[[3]uint8]uint8{}
	for y := range out.Rect.Dy() {
		from, to := dots.Pix[y*dots.Stride:], out.Pix[y*out.Stride:]
		var last [3]uint8
		at, known := uint8(0), false
		for x := range out.Rect.Dx() {
			dot := [3]uint8(from[4*x : 4*x+3])
			if !known || dot != last {
				last, known = dot, true
				var seen bool
				if at, seen = nearest[dot]; !seen {
					at = uint8(colours.Index(color.RGBA{R: dot[0], G: dot[1], B: dot[2], A: 255}))
					nearest[dot] = at
				}
			}
			to[x] = at
		}
	}
	return out
}
