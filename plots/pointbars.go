package plots

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// of95 is how many standard deviations of a normal distribution bound its middle 95 %.
const of95 = 1.96

// ownIntervals are the 95 % intervals of points by themselves; none where no standard deviation is known.
func ownIntervals(values, sd []float64) []Interval {
	out := make([]Interval, len(sd))
	for i, s := range sd {
		out[i] = Interval{values[i], values[i] - of95*s, values[i] + of95*s}
	}
	return out
}

// barInk is the ink of marks, lightened: bars lie behind many points and are not to be louder than these.
var barInk = color.NRGBA{R: 118, G: 118, B: 118, A: 255}

func barLine() draw.LineStyle { return draw.LineStyle{Color: barInk, Width: 0.5} }

const (
	dotSize vg.Length = 1.7
	// leastBar is how far a bar runs from its point at least; what is shorter hides behind the dot.
	leastBar = dotSize + 0.3
)

// barsOf draws the 95 % interval of each point by itself, cut to the frame: level strokes and upright ones, without caps.
type barsOf struct{ testPoints }

// Plot draws the bars that reach out from behind their points.
func (b barsOf) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for i := range b.x {
		at := vg.Point{X: tx(b.x[i]), Y: ty(b.y[i])}
		if !c.Contains(at) {
			continue
		}
		if half := tx(b.x[i]+half(b.xSD, i)) - at.X; half >= leastBar {
			c.StrokeLine2(barLine(), max(at.X-half, c.Min.X), at.Y, min(at.X+half, c.Max.X), at.Y)
		}
		if half := ty(b.y[i]+half(b.ySD, i)) - at.Y; half >= leastBar {
			c.StrokeLine2(barLine(), at.X, max(at.Y-half, c.Min.Y), at.X, min(at.Y+half, c.Max.Y))
		}
	}
}

// half is how far the 95 % interval of point i reaches to either side; 0 where nothing is known.
func half(sd []float64, i int) float64 {
	if sd == nil {
		return 0
	}
	return of95 * sd[i]
}

// withOwn writes a number of a test point and the half length of its own interval: "0.296 ± 0.010". One that rounds to nothing
// is said to be smaller than the last decimal.
func withOwn(value, half float64, decimals int) string {
	words := number(value, decimals)
	if half <= 0 {
		return words
	}
	reach := number(half, decimals)
	if strings.Trim(reach, "0.") == "" {
		least := "1"
		if decimals > 0 {
			least = "0." + strings.Repeat("0", decimals-1) + "1"
		}
		return words + " ± less than " + least
	}
	return words + " ± " + reach
}

// barsKey explains points that have bars.
func barsKey(words string, m mark) keyEntry {
	points := pointKey(words, m)
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		for _, dx := range []vg.Length{0.25, 0.5, 0.75} {
			c.StrokeLine2(barLine(), x+dx*keySample, y-5, x+dx*keySample, y+5)
		}
		points.sample(c, x, y)
	}}
}
