package plots

import (
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// letter writes surface names on the left half and station names on the right half, where free.
func (d ThreeViewData) letter(c draw.Canvas, b board) {
	names, numbers := newPen(smallSize, true, ink), newPen(9, false, faintInk)
	for _, s := range d.Surfaces {
		sign := 1.0
		if s.Mirrored {
			sign = -1
		}
		b.nameSurface(c, names, s, sign)
	}
	for _, m := range d.Marks {
		at := b.at(Position{m.X, 0, m.Z})
		b.write(c, newPen(9, false, ink), vg.Point{X: at.X, Y: at.Y - 11}, m.Name)
	}
	for _, s := range d.Surfaces {
		for i, cut := range s.Stations {
			at := b.at(cut.LeadingEdge)
			b.write(c, numbers, vg.Point{X: at.X - 8, Y: at.Y}, or(cut.Name, strconv.Itoa(i+1)))
		}
	}
}

// nameSurface writes the name in the middle of a surface that has room for it, else beside it.
func (b board) nameSurface(c draw.Canvas, p pen, s Outline, sign float64) {
	x, y := emptySpan(), emptySpan()
	for _, cut := range s.Stations {
		for _, at := range []Position{cut.LeadingEdge, cut.TrailingEdge} {
			point := b.at(Position{at[0], sign * at[1], at[2]})
			x.add(float64(point.X))
			y.add(float64(point.Y))
		}
	}
	middle := vg.Point{X: vg.Length(x.low+x.high) / 2, Y: vg.Length(y.low+y.high) / 2}
	half := float64(p.width(shorten(p, s.Name, 90))) / 2
	if x.high-x.low < 2*half+8 || y.high-y.low < 16 {
		*b.taken = append(*b.taken, vg.Rectangle{Min: vg.Point{X: vg.Length(x.low), Y: vg.Length(y.low)}, Max: vg.Point{X: vg.Length(x.high), Y: vg.Length(y.high)}})
		middle.X = vg.Length(x.high + half + 6)
		if middle.X+vg.Length(half) > b.box.Max.X {
			middle.X = vg.Length(x.low - half - 6)
		}
	}
	b.write(c, p, middle, s.Name)
}

// write sets a word centred near a point, where no other word stands and as few outlines pass as can be; where
// no place is free the word is left out, and the list of sizes still names the surface.
func (b board) write(c draw.Canvas, p pen, at vg.Point, word string) {
	word = shorten(p, word, 90)
	size := p.style.Font.Size
	half := p.width(word) / 2
	var place vg.Rectangle
	fewest := -1
	for _, step := range []vg.Point{{}, {Y: -12}, {Y: 12}, {X: -half - 8}, {X: half + 8}, {X: half + 8, Y: 12}, {X: half + 8, Y: -12}, {Y: -24}, {Y: 24}, {X: -half - 8, Y: -12}, {X: -half - 8, Y: 12}} {
		x := min(max(at.X+step.X, b.box.Min.X+half+2), b.box.Max.X-half-2)
		y := min(max(at.Y+step.Y, b.box.Min.Y+size/2+2), b.box.Max.Y-size/2-2)
		r := vg.Rectangle{Min: vg.Point{X: x - half - 1, Y: y - size/2}, Max: vg.Point{X: x + half + 1, Y: y + size/2}}
		if !b.free(r) {
			continue
		}
		if covered := b.covers(c, r); fewest < 0 || covered < fewest {
			place, fewest = r, covered
		}
		if fewest == 0 {
			break
		}
	}
	if fewest < 0 {
		return
	}
	*b.taken = append(*b.taken, place)
	c.FillPolygon(halo, []vg.Point{place.Min, {X: place.Max.X, Y: place.Min.Y}, place.Max, {X: place.Min.X, Y: place.Max.Y}})
	put(c, p, (place.Min.X+place.Max.X)/2, (place.Min.Y+place.Max.Y)/2-size*0.36, centre, word)
}

// covers counts the outlines that pass a box.
func (b board) covers(c draw.Canvas, r vg.Rectangle) int {
	n := 0
	inside := draw.Canvas{Canvas: c.Canvas, Rectangle: r}
	for _, line := range b.edges {
		if len(inside.ClipLinesXY(line)) > 0 {
			n++
		}
	}
	return n
}

func (b board) free(r vg.Rectangle) bool {
	for _, t := range *b.taken {
		if r.Min.X < t.Max.X && t.Min.X < r.Max.X && r.Min.Y < t.Max.Y && t.Min.Y < r.Max.Y {
			return false
		}
	}
	return true
}
