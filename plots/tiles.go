package plots

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// tile is one panel of small multiples: words above, a frame below. It is painted with its left edge at
// x, the head from y downwards and the body from body downwards.
type tile struct {
	head, body vg.Length
	paint      func(c draw.Canvas, x, y, body vg.Length)
}

const gap vg.Length = 22 // between tiles

// columnsFor picks the number of columns: most at the wide layout, one on a phone.
func columnsFor(width vg.Length, panels, most int) int {
	if width <= narrowWidth {
		return 1
	}
	return min(most, panels)
}

func tileWidth(width vg.Length, columns int) vg.Length {
	return (width - 2*edge - gap*vg.Length(columns-1)) / vg.Length(columns)
}

// tileGrid sets tiles row by row; in a row all heads are as high as the highest, so that frames line up.
func tileGrid(tiles []tile, width vg.Length, columns int) (vg.Length, func(c draw.Canvas, y vg.Length)) {
	var heads, rows []vg.Length
	total := edge
	for i := 0; i < len(tiles); i += columns {
		head, body := vg.Length(0), vg.Length(0)
		for _, t := range tiles[i:min(i+columns, len(tiles))] {
			head, body = max(head, t.head), max(body, t.body)
		}
		heads, rows = append(heads, head), append(rows, head+body+8)
		total += head + body + 8
	}
	return total, func(c draw.Canvas, y vg.Length) {
		for i, t := range tiles {
			x := edge + vg.Length(i%columns)*(tileWidth(width, columns)+gap)
			t.paint(c, x, y, y-heads[i/columns])
			if i%columns == columns-1 {
				y -= rows[i/columns]
			}
		}
	}
}

// panelRow is a row of frames side by side; shares are their parts of the width.
type panelRow struct {
	panels []curvePanel
	shares []float64
}

// paintRows is the common body of the figures whose rows differ in what they hold; on a phone all frames
// stand in one column.
func paintRows(head header, rows []panelRow) layout {
	return func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		height, paintHead := head.place(width)
		arranged := rows
		if width <= narrowWidth {
			arranged = oneColumn(rows)
		}
		paints := []func(c draw.Canvas, y vg.Length){paintHead}
		starts := []vg.Length{0}
		for _, r := range arranged {
			h, paint := r.place(width)
			paints, starts = append(paints, paint), append(starts, height)
			height += h
		}
		return height + edge, func(c draw.Canvas) {
			for i, paint := range paints {
				paint(c, c.Max.Y-starts[i])
			}
		}
	}
}

func oneColumn(rows []panelRow) []panelRow {
	var out []panelRow
	for _, r := range rows {
		for _, p := range r.panels {
			out = append(out, panelRow{panels: []curvePanel{p}, shares: []float64{1}})
		}
	}
	return out
}

// place sets the frames of a row on one base line and returns the height of the row.
func (r panelRow) place(width vg.Length) (vg.Length, func(c draw.Canvas, y vg.Length)) {
	room := width - 2*edge - gap*vg.Length(len(r.panels)-1)
	head, body := vg.Length(0), vg.Length(0)
	tiles := make([]tile, len(r.panels))
	for i, p := range r.panels {
		tiles[i] = p.tile(room * vg.Length(r.shares[i]))
		head, body = max(head, tiles[i].head), max(body, tiles[i].body)
	}
	return head + body + 8, func(c draw.Canvas, y vg.Length) {
		x := edge
		for i, t := range tiles {
			t.paint(c, x, y, y-head)
			x += room*vg.Length(r.shares[i]) + gap
		}
	}
}
