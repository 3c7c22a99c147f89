package plots

import (
	"fmt"
	"math"
	"slices"
)

// oddity is something in the geometry that is hardly meant: a place and a sentence about it.
type oddity struct {
	words    string
	at       Position
	mirrored bool
}

// oddities looks for swapped stations, swapped edges and lost signs in all surfaces that are drawn.
func (d ThreeViewData) oddities() []oddity {
	var out []oddity
	for _, s := range slices.Concat(d.Surfaces, d.Other) {
		out = append(out, s.oddities()...)
	}
	return out
}

func (o Outline) oddities() []oddity {
	var out []oddity
	add := func(i int, format string, values ...any) {
		out = append(out, oddity{words: o.Name + ": " + fmt.Sprintf(format, values...), at: o.Stations[i].LeadingEdge, mirrored: o.Mirrored})
	}
	along := o.along()
	for i, cut := range o.Stations {
		if i > 0 && along[i] < along[i-1]-1e-9 {
			add(i, "station %d lies inboard of station %d", i+1, i)
		}
		if cut.LeadingEdge[0] > cut.TrailingEdge[0]+1e-9 {
			add(i, "the leading edge of station %d lies behind its trailing edge", i+1)
		}
		if o.Mirrored && math.Min(cut.LeadingEdge[1], cut.TrailingEdge[1]) < -1e-9 {
			add(i, "station %d lies left of the plane of symmetry, and a mirrored surface is given by its right half", i+1)
		}
	}
	first, last := o.Stations[0].LeadingEdge, o.Stations[len(o.Stations)-1].LeadingEdge
	if dy, dz := last[1]-first[1], last[2]-first[2]; o.Mirrored && dy < -1e-9 && -dy > math.Abs(dz) {
		add(0, "the stations run inboard; they start at the inboard end")
	}
	return out
}

// along is how far each station lies from the first towards the last, seen from ahead.
func (o Outline) along() []float64 {
	first, last := o.Stations[0].LeadingEdge, o.Stations[len(o.Stations)-1].LeadingEdge
	y, z := last[1]-first[1], last[2]-first[2]
	length := math.Hypot(y, z)
	out := make([]float64, len(o.Stations))
	for i, cut := range o.Stations {
		if length > 0 {
			out[i] = ((cut.LeadingEdge[1]-first[1])*y + (cut.LeadingEdge[2]-first[2])*z) / length
		}
	}
	return out
}
