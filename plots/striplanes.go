package plots

import (
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Heights of the lanes above the panels.
const (
	findingLane   vg.Length = 9
	manoeuvreLane vg.Length = 15
	mostLanes               = 4
	namesApart    vg.Length = 3
)

// placedName is a manoeuvre with the room that its name takes.
type placedName struct {
	StripManoeuvre
	lane     int
	from, to vg.Length // of the bar
	words    string    // empty when there is no room
	at       vg.Length // left edge of the words
}

// placeNames puts the names of manoeuvres into lanes so that none stands on another; a name that finds no room is cut at its
// comma, and if that does not help keeps its bar alone.
func placeNames(list []StripManoeuvre, p pen, x func(float64) vg.Length, left, right vg.Length) (out []placedName, lanes int) {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(a, b StripManoeuvre) int {
		switch {
		case a.From < b.From:
			return -1
		case a.From > b.From:
			return 1
		}
		return 0
	})
	var ends [mostLanes]vg.Length
	for i := range ends {
		ends[i] = left - namesApart
	}
	for _, m := range sorted {
		if !finite(m.From) || !finite(m.To) {
			continue
		}
		n := placedName{StripManoeuvre: m, from: max(left, min(right, x(m.From))), to: max(left, min(right, x(m.To))), lane: -1}
		n.takeLane(&ends, p, left, right)
		if n.lane < 0 { // the bar alone goes where it covers least
			n.lane = 0
			for lane := range ends {
				if ends[lane] < ends[n.lane] {
					n.lane = lane
				}
			}
			ends[n.lane] = max(ends[n.lane], n.to)
		}
		lanes = max(lanes, n.lane+1)
		out = append(out, n)
	}
	return out, lanes
}

// takeLane finds the first lane that has room for the name of a manoeuvre, or for the name up to its comma.
func (n *placedName) takeLane(ends *[mostLanes]vg.Length, p pen, left, right vg.Length) {
	short, _, _ := strings.Cut(n.Name, ",")
	for _, name := range []string{n.Name, short} {
		words := shorten(p, name, right-left)
		width := p.width(words)
		at := max(left, min(right-width, (n.from+n.to-width)/2))
		for lane := range ends {
			if min(n.from, at) >= ends[lane]+namesApart {
				n.lane, n.words, n.at = lane, words, at
				ends[lane] = max(n.to, at+width)
				return
			}
		}
	}
}

// paintNames draws bars and names downwards from the top edge y.
func paintNames(c draw.Canvas, p pen, names []placedName, y vg.Length) {
	for _, n := range names {
		base := y - vg.Length(n.lane+1)*manoeuvreLane + 1
		c.StrokeLine2(draw.LineStyle{Color: faintInk, Width: 1.8}, n.from, base, max(n.to, n.from+1.5), base)
		put(c, p, n.at, base+4, left, n.words)
	}
}

// paintFindings draws the lane of findings: losses as filled bars, what is only told as open ones.
func paintFindings(c draw.Canvas, list []StripFinding, x func(float64) vg.Length, left, right, y vg.Length) {
	const least vg.Length = 2.5
	for _, loss := range []bool{false, true} { // losses lie on top
		for _, f := range list {
			if f.Loss != loss || !finite(f.From) || !finite(f.To) {
				continue
			}
			from, to := max(left, min(right, x(f.From))), max(left, min(right, x(f.To)))
			if to-from < least {
				from, to = from-least/2, from+least/2
			}
			box := []vg.Point{{X: from, Y: y - findingLane + 2}, {X: to, Y: y - findingLane + 2}, {X: to, Y: y - 1.5}, {X: from, Y: y - 1.5}}
			if loss {
				c.FillPolygon(limitInk, box)
				continue
			}
			c.FillPolygon(paper, box)
			c.StrokeLines(draw.LineStyle{Color: limitInk, Width: 0.9}, append(box, box[0]))
		}
	}
}

// paintPoints shades the test points over one frame: kept ones filled with firm edges, dropped ones hatched.
func paintPoints(c draw.Canvas, list []StripPoint, x func(float64) vg.Length, frame vg.Rectangle) {
	for _, p := range list {
		from, to := max(frame.Min.X, min(frame.Max.X, x(p.From))), max(frame.Min.X, min(frame.Max.X, x(p.To)))
		if to <= from {
			continue
		}
		box := vg.Rectangle{Min: vg.Point{X: from, Y: frame.Min.Y}, Max: vg.Point{X: to, Y: frame.Max.Y}}
		if p.Kept {
			keptBox(c, box)
		} else {
			droppedBox(c, box)
		}
	}
}

func corners(b vg.Rectangle) []vg.Point {
	return []vg.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
}

func keptBox(c draw.Canvas, b vg.Rectangle) {
	c.FillPolygon(anchoredBand, corners(b))
	edge := draw.LineStyle{Color: anchoredInk, Width: 0.7}
	c.StrokeLine2(edge, b.Min.X, b.Min.Y, b.Min.X, b.Max.Y)
	c.StrokeLine2(edge, b.Max.X, b.Min.Y, b.Max.X, b.Max.Y)
	c.StrokeLine2(draw.LineStyle{Color: anchoredInk, Width: 2.4}, b.Min.X, b.Max.Y-1.2, b.Max.X, b.Max.Y-1.2)
}

// droppedBox hatches a box with strokes that rise to the right.
func droppedBox(c draw.Canvas, b vg.Rectangle) {
	const apart vg.Length = 6
	var strokes vg.Path // one path: a long flight has hundreds of them
	height := b.Max.Y - b.Min.Y
	for start := b.Min.X - height; start < b.Max.X; start += apart {
		from, to := max(start, b.Min.X), min(start+height, b.Max.X)
		if to > from {
			strokes.Move(vg.Point{X: from, Y: b.Min.Y + from - start})
			strokes.Line(vg.Point{X: to, Y: b.Min.Y + to - start})
		}
	}
	c.SetLineStyle(draw.LineStyle{Color: faintInk, Width: 0.35})
	c.Stroke(strokes)
	edge := draw.LineStyle{Color: faintInk, Width: 0.5, Dashes: []vg.Length{2, 2}}
	c.StrokeLine2(edge, b.Min.X, b.Min.Y, b.Min.X, b.Max.Y)
	c.StrokeLine2(edge, b.Max.X, b.Min.Y, b.Max.X, b.Max.Y)
}
