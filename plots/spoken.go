package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// spoken lets places in a frame say their numbers; those outside the frame say nothing.
type spoken struct {
	x, y  []float64
	words func(i int) string
}

// Plot keeps a point at each place.
func (s spoken) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for i := range s.x {
		if at := (vg.Point{X: tx(s.x[i]), Y: ty(s.y[i])}); c.Contains(at) {
			note(c, at, s.words(i))
		}
	}
}

// curvePlaces is how many places of a curve say their numbers.
const curvePlaces = 7

// spokenCurve lets a curve say its numbers at about seven places, both ends included.
func spokenCurve(curve Curve, words func(x float64, y Interval) string) spoken {
	at := places(len(curve.X), curvePlaces)
	out := spoken{words: func(i int) string { return words(curve.X[at[i]], curve.at(at[i])) }}
	for _, i := range at {
		out.x, out.y = append(out.x, curve.X[i]), append(out.y, curve.Y[i])
	}
	return out
}

// places picks at most so many of n numbers, evenly from the first to the last.
func places(n, most int) []int {
	var out []int
	if n <= most {
		for i := range n {
			out = append(out, i)
		}
		return out
	}
	for k := range most {
		out = append(out, k*(n-1)/(most-1))
	}
	return out
}

// spokenUprights lets upright intervals say their numbers, at the value or, where the frame does not show that, in the
// middle of what it shows.
type spokenUprights struct {
	x     []float64
	y     []Interval
	words func(i int) string
}

// Plot keeps a point at each interval.
func (u spokenUprights) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for i, y := range u.y {
		at := vg.Point{X: tx(u.x[i])}
		if y.determined() && c.ContainsY(ty(y.Value)) {
			at.Y = ty(y.Value)
		} else {
			low, high := c.Min.Y, c.Max.Y
			if finite(y.Low) {
				low = min(max(ty(y.Low), c.Min.Y), c.Max.Y)
			}
			if finite(y.High) {
				high = min(max(ty(y.High), c.Min.Y), c.Max.Y)
			}
			at.Y = (low + high) / 2
		}
		if c.ContainsX(at.X) {
			note(c, at, u.words(i))
		}
	}
}

// spokenLevel lets a level limit say its number, at the left end of its line.
type spokenLevel struct {
	words string
	at    float64
}

// Plot keeps a point.
func (l spokenLevel) Plot(c draw.Canvas, p *plot.Plot) {
	_, ty := p.Transforms(&c)
	if at := (vg.Point{X: c.Min.X + 6, Y: ty(l.at)}); c.ContainsY(at.Y) {
		note(c, at, l.words)
	}
}

// spokenPassage lets an upright line say its place, at its upper end.
type spokenPassage struct {
	words string
	at    float64
}

// Plot keeps a point.
func (s spokenPassage) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	if at := (vg.Point{X: tx(s.at), Y: c.Max.Y - 4}); c.ContainsX(at.X) {
		note(c, at, s.words)
	}
}

// middle is where the words of a level interval belong: at its value, else in the middle of what is drawn.
func (s stretch) middle() vg.Length {
	if s.hasValue {
		return s.at
	}
	return (s.from + s.to) / 2
}

// measure joins a number in words and its unit: "7.2 (5.9 to 8.6) %". Words without a number stay alone.
func measure(words, unit string) string {
	unit = unitWords(unit)
	if unit == "" || unit == "pure number" || words == "not determined" {
		return words
	}
	if !strings.HasPrefix(unit, "°") {
		unit = " " + unit
	}
	if value, none, found := strings.Cut(words, " (no "); found {
		return value + unit + " (no " + none
	}
	return words + unit
}

// said joins what a number belongs to and the number: "foreplane long; aft loading: anchored 7.2 (5.9 to 8.6) %". Empty
// parts fall out.
func said(number string, of ...string) string {
	var parts []string
	for _, part := range of {
		if part = clean(part); part != "" {
			parts = append(parts, part)
		}
	}
	if len(parts) == 0 {
		return number
	}
	return strings.Join(parts, "; ") + ": " + number
}

// Sample is how much a number rests on: test points or manoeuvres, and the flights that they come from. Zero is not said.
type Sample struct{ Points, Flights int }

// words are "n = 44 points of 5 flights".
func (s Sample) words() string {
	flights := counted(s.Flights, "flight")
	switch {
	case s.Points > 0 && s.Flights > 0:
		return "n = " + counted(s.Points, "point") + " of " + flights
	case s.Points > 0:
		return "n = " + counted(s.Points, "point")
	case s.Flights > 0:
		return "n = " + flights
	}
	return ""
}

func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
