package report

import (
	"strings"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
)

// lettering measures text in the letters of the wall sheet: Liberation Sans, as wide as Arial, Helvetica and Arimo letter by letter,
// so that a line breaks at the same word whichever of them a shop's computer has. The letters come with package plots. Widths of words
// are kept, since the same text is tried at many sizes; it is for one goroutine.
type lettering struct {
	face  font.Face
	space float64
	words map[string][]float64 // of a text, at size 1
}

func newLettering(bold bool) *lettering {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: 1}
	if bold {
		f.Weight = xfont.WeightBold
	}
	l := &lettering{face: font.DefaultCache.Lookup(f, 1), words: map[string][]float64{}}
	l.space = float64(l.face.Width(" "))
	return l
}

// of measures the words of a text at size 1.
func (l *lettering) of(text string) []float64 {
	widths, ok := l.words[text]
	if !ok {
		for _, word := range strings.Fields(text) {
			widths = append(widths, float64(l.face.Width(word)))
		}
		l.words[text] = widths
	}
	return widths
}

// width of one line of text in letters of a size, in the unit of the size.
func (l *lettering) width(text string, size float64) float64 {
	words := l.of(text)
	w := l.space * float64(max(0, len(words)-1))
	for _, word := range words {
		w += word
	}
	return w * size
}

// lines is how many lines a text takes that breaks between words; a word that is wider than the room breaks where it must.
func (l *lettering) lines(text string, size, room float64) int {
	lines, at := 1, 0.0
	for i, word := range l.of(text) {
		w := word * size
		if i > 0 && at+l.space*size+w <= room {
			at += l.space*size + w
			continue
		}
		if i > 0 {
			lines++
		}
		over := int(w / room)
		lines += over
		at = w - float64(over)*room
	}
	return lines
}
