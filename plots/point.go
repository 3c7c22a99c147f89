package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Point is a place in a figure that says a number: what it is, its value with interval and unit.
//
// X and Y are in SVG units from the upper left corner, rounded to a tenth. Text is plain: whoever puts it into a
// page escapes it.
type Point struct {
	X, Y float64
	Text string
}

// mostPoints is how many points a layout of a figure keeps at most.
const mostPoints = 300

// note keeps a point of a figure: the place that a number is drawn at, and the number in words. A canvas that keeps
// no points passes it over.
func note(c draw.Canvas, at vg.Point, text string) {
	var canvas vg.Canvas = c
	for {
		inner, cropped := canvas.(draw.Canvas)
		if !cropped {
			break
		}
		canvas = inner.Canvas
	}
	if s, ok := canvas.(*sheet); ok {
		s.note(at, clean(text))
	}
}

// distinct keeps equal points once, and of more than most as many as that, evenly over their order.
func distinct(points []Point, most int) []Point {
	seen := map[Point]bool{}
	var once []Point
	for _, p := range points {
		if !seen[p] {
			seen[p] = true
			once = append(once, p)
		}
	}
	if len(once) <= most {
		return once
	}
	out := make([]Point, most)
	for i := range out {
		out[i] = once[i*(len(once)-1)/(most-1)]
	}
	return out
}

// toTenth rounds a length to a tenth of a unit; a tie that a processor may compute to either side goes up.
func toTenth(v vg.Length) float64 { return math.Floor(float64(v)*10+0.5+1e-6) / 10 }
