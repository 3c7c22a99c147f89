package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// LevelComparisonData sets the levels of one choice side by side, one small panel a quantity.
type LevelComparisonData struct {
	Title  string // empty: "Levels of CHOICE side by side"
	Choice string
	Panels []QuantityPanel
}

// QuantityPanel is one quantity over the levels of a choice; Row.Label is the level.
type QuantityPanel struct {
	Name   string // plain words, such as "static margin at the aft loading"
	Unit   string // such as "% of chord" or "per radian"; "-" for a pure number
	Rows   []Row
	Limits []Limit
}

// LevelComparison draws small multiples: for every quantity a dot with its interval for each level, and
// the limits.
//
// It returns ErrNoData without panels or with a panel that has no rows.
func LevelComparison(d LevelComparisonData) (Figure, error) {
	title := or(d.Title, "Levels of "+d.Choice+" side by side")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	var all []Row
	var alt strings.Builder
	limits := false
	for _, p := range d.Panels {
		if err := checkRows(title+": "+p.Name, p.Rows, p.Limits); err != nil {
			return Figure{}, err
		}
		all = append(all, p.Rows...)
		limits = limits || len(p.Limits) > 0
		fmt.Fprintf(&alt, "%s: %s%s ", capital(p.Name), limitsFinding(p.Rows, p.Limits), forestAlt(p.Rows, p.Limits, unitWords(p.Unit)))
	}
	return compose(title, alt.String(), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := header{title: title, key: standardKey(all, limits)}.place(width)
		tiles := make([]tile, len(d.Panels))
		columns := columnsFor(width, len(d.Panels), 2)
		for i, p := range d.Panels {
			tiles[i] = quantityTile(p, tileWidth(width, columns))
		}
		height, paint := tileGrid(tiles, width, columns)
		return top + height, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			paint(c, c.Max.Y-top)
		}
	})
}

func quantityTile(p QuantityPanel, width vg.Length) tile {
	heading := newPen(headSize, true, ink)
	lines := wrap(heading, capital(p.Name), width)
	f := newForest(p.Rows, p.Limits, axisLabel(p.Name, p.Unit, width), width, nil)
	f.quantity, f.unit = p.Name, unitWords(p.Unit)
	head := vg.Length(len(lines))*heading.line() + 6
	return tile{head: head, body: f.height(), paint: func(c draw.Canvas, x, y, body vg.Length) {
		putLines(c, heading, x, y, lines)
		f.paint(c, x, body)
	}}
}

// axisLabel joins name and unit, or falls back to the unit where both do not fit.
func axisLabel(name, unit string, width vg.Length) string {
	p := newPen(smallSize, false, ink)
	if unit == "-" || unit == "" {
		unit = "pure number"
	}
	full := name + ", " + unit
	if p.width(full) <= 0.5*width {
		return full
	}
	return unit
}

func unitWords(unit string) string {
	if unit == "-" {
		return ""
	}
	return unit
}

func capital(s string) string {
	if s == "" {
		return s
	}
	runes := []rune(s)
	return strings.ToUpper(string(runes[0])) + string(runes[1:])
}
