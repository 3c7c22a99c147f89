package plots

import (
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// side says which end of a text stands at its point.
type side float64

const (
	left   side = 0
	centre side = 0.5
	right  side = 1
)

// put writes s with its baseline at y.
func put(c draw.Canvas, p pen, x, y vg.Length, at side, s string) {
	if s == "" {
		return
	}
	face := font.DefaultCache.Lookup(p.style.Font, p.style.Font.Size)
	c.SetColor(p.style.Color)
	c.FillString(face, vg.Point{X: x - vg.Length(at)*p.width(s), Y: y}, s)
}

// putHaloed writes s over lines: on a patch of paper, so that it stays readable.
func putHaloed(c draw.Canvas, p pen, x, y vg.Length, s string) {
	if s == "" {
		return
	}
	size := p.style.Font.Size
	from, to := vg.Point{X: x - 1, Y: y - 0.25*size}, vg.Point{X: x + p.width(s) + 1, Y: y + 0.85*size}
	c.FillPolygon(halo, []vg.Point{from, {X: to.X, Y: from.Y}, to, {X: from.X, Y: to.Y}})
	put(c, p, x, y, left, s)
}

// shorten cuts s with an ellipsis so that it is no wider than room.
func shorten(p pen, s string, room vg.Length) string {
	s = clean(s)
	if p.width(s) <= room {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(runes[:n]), " ") + "…"
		if p.width(cut) <= room {
			return cut
		}
	}
	return "…"
}

// wrap breaks s into lines no wider than room; a word that is wider than a line is shortened.
func wrap(p pen, s string, room vg.Length) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(clean(s)) {
		word = shorten(p, word, room)
		switch {
		case line == "":
			line = word
		case p.width(line+" "+word) <= room:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// putLines writes lines downwards from the top edge y and returns the new top edge.
func putLines(c draw.Canvas, p pen, x, y vg.Length, lines []string) vg.Length {
	for _, line := range lines {
		put(c, p, x, y-p.style.Font.Size, left, line)
		y -= p.line()
	}
	return y
}
