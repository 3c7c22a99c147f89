package plots

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// endName names a curve at its end.
type endName struct {
	words string
	end   spot
	look  mark
}

// endNames writes names right of the frame, spread so that none covers another, led to their curves by thin lines.
type endNames struct {
	items []endName
	room  vg.Length
}

const endLead vg.Length = 24 // from the frame to the names

// Plot draws leads and names.
func (n endNames) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	wanted := make([]vg.Length, len(n.items))
	for i, item := range n.items {
		wanted[i] = ty(item.end.y)
	}
	heights := spread(wanted, smallSize*leading, c.Min.Y+smallSize/2, c.Max.Y-smallSize/2)
	for i, item := range n.items {
		words := newPen(smallSize, true, item.look.ink)
		from := vg.Point{X: tx(item.end.x) + 4, Y: ty(item.end.y)}
		to := vg.Point{X: c.Max.X + endLead - 4, Y: heights[i]}
		c.StrokeLines(draw.LineStyle{Color: item.look.ink, Width: 0.6}, []vg.Point{from, {X: max(from.X, to.X-8), Y: from.Y}, to})
		put(c, words, c.Max.X+endLead, heights[i]-0.36*smallSize, left, shorten(words, item.words, n.room-endLead))
	}
}

// spread moves heights as little as an even pass up and down allows, so that neighbours keep a distance
// within low and high. Equal wishes keep their order, the first on top.
func spread(wanted []vg.Length, apart, low, high vg.Length) []vg.Length {
	order := make([]int, len(wanted))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wanted[b], wanted[a]) })
	out := append([]vg.Length{}, wanted...)
	ceiling := high
	for _, i := range order {
		out[i] = min(out[i], ceiling)
		ceiling = out[i] - apart
	}
	floor := low
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		out[i] = max(out[i], floor)
		floor = out[i] + apart
	}
	return out
}
