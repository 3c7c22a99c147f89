package plots

import (
	"bytes"
	"fmt"
	"html"
	"image/color"
	"math"
	"strconv"
	"strings"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/vg"
)

// svg writes the sheet as one <svg> element that may stand inside HTML: without prolog, ids or rules that leak.
// The label holds the title and, if it is told, what the figure shows. Lengths are rounded to a tenth of a unit; equal touches that nothing lies between are one element.
func (s *sheet) svg(title, alt string) []byte {
	var out bytes.Buffer
	label := title
	if alt != "" {
		label += ". " + alt
	}
	size := fmt.Sprintf(`width="%g" height="%g" viewBox="0 0 %g %g"`, float64(s.width), float64(s.height), float64(s.width), float64(s.height))
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" %s role="img" aria-label="%s" font-family="%s" fill="none">`+"\n",
		size, html.EscapeString(label), fontFamilies)
	fmt.Fprintf(&out, "<title>%s</title>\n", html.EscapeString(title)) // names the file when it stands alone
	for _, b := range s.batches() {
		b.write(&out, s.height)
	}
	out.WriteString("</svg>\n")
	return out.Bytes()
}

// batch is touches of one look that are painted at once.
type batch struct {
	look    string // the attributes that they share
	touches []touch
	boxes   []vg.Rectangle
	all     vg.Rectangle
}

// farthestBack is how many batches a touch may pass on its way to one of its look.
const farthestBack = 200

// batches gathers touches of one look. A touch moves back only past touches that it does not overlap, so that what
// lies on top stays on top; two of half ink never share an element where they overlap, since there they are darker.
func (s *sheet) batches() []*batch {
	var out []*batch
	for _, t := range s.touches {
		look, box := t.look(), t.box()
		var home *batch
		for i := len(out) - 1; i >= 0 && i >= len(out)-farthestBack; i-- {
			overlaps := out[i].overlaps(box)
			if out[i].look == look && !(overlaps && t.ink.A < 255) {
				home = out[i]
				break
			}
			if overlaps {
				break
			}
		}
		if home == nil {
			home = &batch{look: look, all: box}
			out = append(out, home)
		}
		home.add(t, box)
	}
	return out
}

func (b *batch) add(t touch, box vg.Rectangle) {
	b.touches, b.boxes = append(b.touches, t), append(b.boxes, box)
	b.all.Min.X, b.all.Min.Y = min(b.all.Min.X, box.Min.X), min(b.all.Min.Y, box.Min.Y)
	b.all.Max.X, b.all.Max.Y = max(b.all.Max.X, box.Max.X), max(b.all.Max.Y, box.Max.Y)
}

func (b *batch) overlaps(box vg.Rectangle) bool {
	return !isFree(box, []vg.Rectangle{b.all}) && !isFree(box, b.boxes)
}

// write puts the batch down as one path, or as texts in a group.
func (b *batch) write(out *bytes.Buffer, height vg.Length) {
	if b.touches[0].kind != textTouch {
		fmt.Fprintf(out, `<path%s d="`, b.look)
		w := pathWriter{out: out, height: height}
		for _, t := range b.touches {
			switch disc, round := t.disc(); {
			case round:
				w.dot(disc.Pos)
			case t.kind == fillTouch:
				w.write(straightened(anticlockwise(t.path)))
			default:
				w.write(straightened(t.path))
			}
		}
		out.WriteString("\"/>\n")
		return
	}
	look := b.look
	if len(b.touches) > 1 {
		fmt.Fprintf(out, "<g%s>\n", look)
		look = ""
	}
	for _, t := range b.touches {
		t.writeText(out, look, height)
	}
	if len(b.touches) > 1 {
		out.WriteString("</g>\n")
	}
}

func (t touch) writeText(out *bytes.Buffer, look string, height vg.Length) {
	x, y := tenths(t.at.X), tenths(height-t.at.Y)
	place := fmt.Sprintf(` x="%s" y="%s"`, x, y)
	if math.Abs(t.turned) > 1e-9 {
		place += fmt.Sprintf(` transform="rotate(%s %s %s)"`, strconv.FormatFloat(-t.turned*degrees, 'f', 1, 64), x, y)
	}
	fmt.Fprintf(out, "<text%s%s>%s</text>\n", place, look, html.EscapeString(t.text))
}

// look is the attributes of a touch.
func (t touch) look() string {
	switch t.kind {
	case strokeTouch:
		look := paintOf("stroke", t.ink) + ` stroke-width="` + hundredths(t.width) + `"`
		if len(t.dashes) > 0 {
			var all []string
			for _, d := range t.dashes {
				all = append(all, hundredths(d))
			}
			look += ` stroke-dasharray="` + strings.Join(all, " ") + `"`
		}
		return look
	case fillTouch:
		if disc, round := t.disc(); round {
			return paintOf("stroke", t.ink) + ` stroke-width="` + hundredths(2*disc.Radius) + `" stroke-linecap="round"`
		}
		return paintOf("fill", t.ink)
	}
	look := paintOf("fill", t.ink) + ` font-size="` + hundredths(t.font.Size) + `"`
	if t.font.Weight == xfont.WeightBold {
		look += ` font-weight="bold"`
	}
	return look
}

// disc is the arc of a touch that is a filled circle and nothing else. Such are written as lines of next to no length with
// round ends, a third of the bytes.
func (t touch) disc() (vg.PathComp, bool) {
	p := t.path
	if t.kind != fillTouch || len(p) != 3 || p[0].Type != vg.MoveComp || p[1].Type != vg.ArcComp || p[2].Type != vg.CloseComp {
		return vg.PathComp{}, false
	}
	return p[1], math.Abs(p[1].Angle) > 2*math.Pi-1e-9
}

// paintOf is a paint with its opacity, as attributes.
func paintOf(what string, c color.NRGBA) string {
	out := fmt.Sprintf(` %s="#%02x%02x%02x"`, what, c.R, c.G, c.B)
	if c.R>>4 == c.R&15 && c.G>>4 == c.G&15 && c.B>>4 == c.B&15 {
		out = fmt.Sprintf(` %s="#%x%x%x"`, what, c.R&15, c.G&15, c.B&15)
	}
	if c.A < 255 {
		out += fmt.Sprintf(` %s-opacity="%s"`, what, short(int(math.Round(float64(c.A)/2.55)), 2))
	}
	return out
}
