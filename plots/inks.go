package plots

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"

	"git.sr.ht/~sbinet/gg"
	"gonum.org/v1/plot/vg"
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
	across := func(length vg.Length) int { return int(math.Round(length.Dots(float64(dotsAnInch)))) }
	dots := image.NewRGBA(image.Rect(0, 0, across(s.width), across(s.height)))
	pen := gg.NewContextForRGBA(dots) // draws on the dots themselves; a canvas that makes its own page copies it first
	pen.SetLineCapButt()
	pen.InvertY()
	s.repaint(vgimg.NewWith(vgimg.UseImageWithContext(dots, pen), vgimg.UseDPI(dotsAnInch)))
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

// inInks gives every dot the nearest of the colours. Dots are opaque.
func inInks(dots *image.RGBA, colours color.Palette) *image.Paletted {
	out := image.NewPaletted(dots.Bounds(), colours)
	var near nearest
	last, at := uint32(0), uint8(0)
	for y := range out.Rect.Dy() {
		from, to := dots.Pix[y*dots.Stride:], out.Pix[y*out.Stride:]
		for x := range out.Rect.Dx() {
			if dot := binary.LittleEndian.Uint32(from[4*x:]); dot != last {
				last, at = dot, near.of(dot, colours)
			}
			to[x] = at
		}
	}
	return out
}

// nearest remembers which colour is nearest to a dot, a dot being its red, green, blue and opacity from the lowest byte up; none that is
// opaque is 0. Dots that share a place drive each other out: a picture has some hundreds of different ones.
type nearest [1 << 11]struct {
	dot    uint32
	colour uint8
}

func (n *nearest) of(dot uint32, colours color.Palette) uint8 {
	const scatter = 2654435769 // 2³² over the golden ratio, so that dots that differ little lie apart
	place := &n[dot*scatter>>21]
	if place.dot != dot {
		place.dot = dot
		place.colour = uint8(colours.Index(color.RGBA{R: uint8(dot), G: uint8(dot >> 8), B: uint8(dot >> 16), A: 255}))
	}
	return place.colour
}
