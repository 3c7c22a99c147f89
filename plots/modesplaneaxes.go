package plots

import (
	"math"

	"gonum.org/v1/plot"
)

// axes hold the places, as much of their intervals as leaves the others legible, and the boundaries near them.
func (p ModesPanel) axes() (x, y axis) {
	across, up := emptySpan(), emptySpan()
	var wide, high []Interval
	for _, m := range p.Places {
		wide, high = append(wide, p.laid(m.X)), append(high, p.laid(m.Y))
		across.add(p.scale(m.X.Value))
		up.add(p.scale(m.Y.Value))
	}
	across.reach(wide)
	up.reach(high)
	if across.empty() {
		for _, b := range p.Boundaries {
			across.add(p.all(b.X)...)
			up.add(p.all(b.Y)...)
		}
	}
	p.nearby(&across, &up)
	if p.Log {
		across.add(across.low-0.15, across.high+0.15)
		up.add(up.low-0.08, up.high+0.08)
		return powerAxis(p.X, across), powerAxis(p.Y, up)
	}
	across.add(0, across.high+0.08*across.length())
	up.add(0, up.high+0.08*up.length())
	return niceAxis(p.X, across, 4), niceAxis(p.Y, up, 6)
}

// nearby widens the frame by the boundaries that lie within a factor of six, or to the right within a frame and a half.
func (p ModesPanel) nearby(across, up *span) {
	if p.Log {
		const factor = 0.78 // log10 of 6
		low, high := up.low-factor, up.high+factor
		for _, b := range p.Boundaries {
			line := Curve{X: p.all(b.X), Y: p.all(b.Y)}
			for i := range line.X {
				if line.X[i] >= across.low && line.X[i] <= across.high && line.Y[i] >= low && line.Y[i] <= high {
					up.add(line.Y[i])
				}
			}
		}
		return
	}
	reach := across.high + 1.5*math.Max(across.length(), math.Abs(across.high))
	for _, b := range p.Boundaries {
		for _, x := range b.X {
			if x <= reach {
				across.add(x)
			}
		}
	}
}

// powerAxis is an axis by powers of ten in the logarithm of the numbers, with ticks at 1, 2 and 5, or more of them where the span is short.
func powerAxis(label string, s span) axis {
	a := axis{label: clean(label), low: s.low, high: s.high}
	for _, steps := range [][]float64{{1, 2, 5}, {1, 2, 3, 4, 5, 7}, {1, 1.2, 1.4, 1.6, 1.8, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8, 9}} {
		if a.ticks = powerTicks(s, steps); len(a.ticks) >= 3 {
			break
		}
	}
	return a
}

// powerTicks are ticks at some numbers in every power of ten.
func powerTicks(s span, steps []float64) []plot.Tick {
	var out []plot.Tick
	for power := math.Floor(s.low); power <= s.high; power++ {
		for _, m := range steps {
			at := power + math.Log10(m)
			if at < s.low || at > s.high {
				continue
			}
			decimals := -power
			if m != math.Round(m) {
				decimals++
			}
			out = append(out, plot.Tick{Value: at, Label: number(m*math.Pow(10, power), int(math.Max(0, decimals)))})
		}
	}
	return out
}
