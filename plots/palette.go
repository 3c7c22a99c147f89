package plots

import (
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"slices"
)

// colourBits is how many bits of each of red, green and blue tell colours apart: edges of letters and lines run from
// ink to paper in sixteen steps.
const colourBits = 4

// colourBin gathers the colours that count as one: how many dots, and the colour of most of them.
type colourBin struct {
	key, dots, lead int
	colour          color.RGBA
}

// add counts a run of dots; the colour of most dots is found by letting unlike ones cancel.
func (b *colourBin) add(c color.RGBA, run int) {
	b.dots += run
	switch {
	case c == b.colour:
		b.lead += run
	case b.lead >= run:
		b.lead -= run
	default:
		b.colour, b.lead = c, run-b.lead
	}
}

// fewColours is a picture with a palette of 256 colours at most, a fifth of the bytes: figures are drawn in a few inks.
// The colours that most dots have stay as they are, a rare one becomes the nearest of them.
func fewColours(picture image.Image) *image.Paletted {
	all, isRGBA := picture.(*image.RGBA)
	if !isRGBA {
		all = image.NewRGBA(picture.Bounds())
		draw.Draw(all, all.Bounds(), picture, picture.Bounds().Min, draw.Src)
	}
	bins := make([]colourBin, 1<<(3*colourBits))
	runs(all.Pix, func(c color.RGBA, from, to int) { bins[binOf(c)].add(c, to-from) })
	var used []colourBin
	for key, b := range bins {
		if b.dots > 0 {
			b.key = key
			used = append(used, b)
		}
	}
	slices.SortStableFunc(used, func(a, b colourBin) int { return cmp.Compare(b.dots, a.dots) })
	var palette color.Palette
	index := make([]uint8, len(bins))
	for i, b := range used {
		if i < 256 {
			palette = append(palette, b.colour)
			index[b.key] = uint8(i)
		} else {
			index[b.key] = uint8(palette.Index(b.colour))
		}
	}
	out := image.NewPaletted(all.Bounds(), palette)
	runs(all.Pix, func(c color.RGBA, from, to int) {
		i := index[binOf(c)]
		for k := from; k < to; k++ {
			out.Pix[k] = i
		}
	})
	return out
}

// runs cuts dots of four bytes each into runs of one colour.
func runs(dots []uint8, each func(c color.RGBA, from, to int)) {
	n := len(dots) / 4
	for from := 0; from < n; {
		one := [4]uint8(dots[4*from : 4*from+4])
		to := from + 1
		for to < n && [4]uint8(dots[4*to:4*to+4]) == one {
			to++
		}
		each(color.RGBA{R: one[0], G: one[1], B: one[2], A: 255}, from, to)
		from = to
	}
}

func binOf(c color.RGBA) int {
	const drop = 8 - colourBits
	return int(c.R>>drop)<<(2*colourBits) | int(c.G>>drop)<<colourBits | int(c.B>>drop)
}
