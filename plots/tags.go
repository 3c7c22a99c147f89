package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// spot is a place in the coordinates of a frame.
type spot struct{ x, y float64 }

// tag is a direct label: words that belong to one of several spots, in order of preference.
type tag struct {
	words string
	spots []spot
	ink   color.Color
	bold  bool
	aside vg.Length // beside its spot rather than above: 1 right first, -1 left first, 0 no
}

// tags writes direct labels inside a frame, each where it covers no other label and as few curves as it can.
type tags struct {
	items []tag
	avoid []Curve // curves that should stay visible
	keep  []spot  // marks that must stay visible
}

// curveSpots samples places on a curve where its name may stand, the preferred part (0 to 1) first.
func curveSpots(c Curve, preferred float64) []spot {
	n := len(c.X)
	if n == 0 {
		return nil
	}
	var out []spot
	for _, step := range []float64{0, 0.08, -0.08, 0.16, -0.16, 0.25, -0.25, 0.35, -0.35, 0.45, -0.45} {
		if f := preferred + step; f >= 0 && f <= 1 {
			i := int(f*float64(n-1) + 0.5)
			out = append(out, spot{c.X[i], c.Y[i]})
		}
	}
	return out
}

// Plot writes the labels in their order; one for which no free place is left is not written, and the words
// that describe the figure still name it.
func (t tags) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	var lines [][]vg.Point
	for _, curve := range t.avoid {
		var line []vg.Point
		for i := range curve.X {
			line = append(line, vg.Point{X: tx(curve.X[i]), Y: ty(curve.Y[i])})
		}
		lines = append(lines, line)
	}
	var taken []vg.Rectangle
	for _, s := range t.keep {
		at := vg.Point{X: tx(s.x), Y: ty(s.y)}
		taken = append(taken, around(at, 5, 5))
	}
	for _, item := range t.items {
		words := newPen(smallSize, item.bold, item.ink)
		text := shorten(words, item.words, 0.85*(c.Max.X-c.Min.X))
		half := vg.Point{X: words.width(text)/2 + 2, Y: 0.6 * smallSize}
		best, found := bestPlace(c, item.places(half, tx, ty), half, taken, lines)
		if !found {
			continue
		}
		taken = append(taken, around(best, half.X, half.Y))
		putHaloed(c, words, best.X-half.X+2, best.Y-0.36*smallSize, text)
	}
}

// places lists the middles where the label may stand: above, below and beside each spot.
func (t tag) places(half vg.Point, tx, ty func(float64) vg.Length) []vg.Point {
	var out []vg.Point
	if t.aside != 0 {
		for _, s := range t.spots {
			at, far := vg.Point{X: tx(s.x), Y: ty(s.y)}, t.aside*(half.X+2)
			out = append(out, vg.Point{X: at.X + far, Y: at.Y}, vg.Point{X: at.X - far, Y: at.Y})
		}
	}
	for _, reach := range []vg.Length{6, 14, 24, 34} {
		for _, s := range t.spots {
			at := vg.Point{X: tx(s.x), Y: ty(s.y)}
			up, aside := half.Y+reach, half.X+reach
			for _, d := range []vg.Point{{Y: up}, {Y: -up}, {X: aside}, {X: -aside}, {X: half.X, Y: up}, {X: -half.X, Y: up}, {X: half.X, Y: -up}, {X: -half.X, Y: -up}} {
				out = append(out, vg.Point{X: at.X + d.X, Y: at.Y + d.Y})
			}
		}
	}
	return out
}

// bestPlace takes the first place inside the frame, free of labels, that covers the fewest curves.
func bestPlace(c draw.Canvas, places []vg.Point, half vg.Point, taken []vg.Rectangle, lines [][]vg.Point) (vg.Point, bool) {
	best, least := vg.Point{}, -1
	for _, at := range places {
		box := around(at, half.X, half.Y)
		if box.Min.X < c.Min.X+1 || box.Max.X > c.Max.X || box.Min.Y < c.Min.Y+1 || box.Max.Y > c.Max.Y || !isFree(box, taken) {
			continue
		}
		covered := 0
		inside := draw.Canvas{Canvas: c.Canvas, Rectangle: box}
		for _, line := range lines {
			if len(line) > 1 && len(inside.ClipLinesXY(line)) > 0 {
				covered++
			}
		}
		if least < 0 || covered < least {
			best, least = at, covered
		}
		if least == 0 {
			break
		}
	}
	return best, least >= 0
}

func around(at vg.Point, x, y vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: at.X - x, Y: at.Y - y}, Max: vg.Point{X: at.X + x, Y: at.Y + y}}
}

func isFree(r vg.Rectangle, taken []vg.Rectangle) bool {
	for _, t := range taken {
		if r.Min.X < t.Max.X && t.Min.X < r.Max.X && r.Min.Y < t.Max.Y && t.Min.Y < r.Max.Y {
			return false
		}
	}
	return true
}

// passage is an upright line across a frame at a place of note.
type passage struct {
	at   float64
	line draw.LineStyle
}

// Plot draws the line where it lies inside the frame.
func (s passage) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	if x := tx(s.at); c.ContainsX(x) {
		c.StrokeLine2(s.line, x, c.Min.Y, x, c.Max.Y)
	}
}

// pick draws a ring around a place of note.
type pick struct {
	at  spot
	ink color.Color
}

// Plot draws the ring.
func (r pick) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	ring(c, r.ink, vg.Point{X: tx(r.at.x), Y: ty(r.at.y)}, 5)
}
