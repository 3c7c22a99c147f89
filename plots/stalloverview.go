package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// StallOverviewData is the stall-order margin of many cases, a row each. Margins and limits are in radians,
// positive when the foreplane lets go first; Row.Group may hold the scale or configuration, Row.Label the case.
type StallOverviewData struct {
	Title  string // empty: "Which surface lets go first"
	Rows   []Row
	Limits []Limit
}

// StallOverview draws the margin of each case as a bar from the zero line "wing first | foreplane first",
// with its interval and its numbers; bars on the wing's side are dark.
//
// It returns ErrNoData without rows, and an error that names the row when an interval is broken.
func StallOverview(d StallOverviewData) (Figure, error) {
	title := or(d.Title, "Which surface lets go first")
	if err := checkRows(title, d.Rows, d.Limits); err != nil {
		return Figure{}, err
	}
	rows, limits := inDegrees(d.Rows, d.Limits)
	head := header{title: title, key: standardKey(rows, len(limits) > 0),
		note: orderFinding(rows) + "Angle at which the first wing station reaches its maximum minus angle at which the foreplane's lift stops rising. Computed section by section; deep stall is not judged here."}
	zero := zeroLine{less: "wing first", more: "foreplane first", bars: true, say: func(_ Row, i Interval) string { return marginWords(i) }}
	return compose(title, orderFinding(rows)+overviewWords(rows, limits), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		top, paintHead := head.place(width)
		f := newForest(rows, limits, "margin, degrees of angle of attack", width-2*edge, &zero)
		f.quantity, f.unit = "margin", "°"
		return top + f.height() + edge, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			f.paint(c, edge, c.Max.Y-top)
		}
	})
}

func inDegrees(rows []Row, limits []Limit) ([]Row, []Limit) {
	turn := func(i *Interval) *Interval {
		if i == nil {
			return nil
		}
		scaled := i.scaled(degrees)
		return &scaled
	}
	var outRows []Row
	for _, r := range rows {
		outRows = append(outRows, Row{Group: r.Group, Label: r.Label, Measured: turn(r.Measured), Predicted: turn(r.Predicted), Anchored: turn(r.Anchored)})
	}
	var outLimits []Limit
	for _, l := range limits {
		l.Value *= degrees
		outLimits = append(outLimits, l)
	}
	return outRows, outLimits
}

// marginWords writes a margin in degrees; one with a single bound is that bound.
func marginWords(i Interval) string {
	switch {
	case !i.determined() && finite(i.Low) && !finite(i.High):
		return "above " + number(i.Low, 1)
	case !i.determined() && finite(i.High) && !finite(i.Low):
		return "below " + number(i.High, 1)
	}
	return i.words(1)
}

// orderFinding says in how many cases the wing lets go first, and where the margin is least.
func orderFinding(rows []Row) string {
	least, cases, wing := -1, 0, 0
	value := func(i Interval) float64 {
		switch {
		case i.determined():
			return i.Value
		case finite(i.Low): // more than that: the bound may stand for it
			return i.Low
		}
		return i.High
	}
	for k, r := range rows {
		i, _, found := r.best()
		if !found || !finite(value(i)) {
			continue
		}
		cases++
		if value(i) < 0 {
			wing++
		}
		if best, _, _ := rows[max(least, 0)].best(); least < 0 || value(i) < value(best) {
			least = k
		}
	}
	if least < 0 {
		return ""
	}
	i, _, _ := rows[least].best()
	out := fmt.Sprintf("The foreplane lets go first in %d of %d cases", cases-wing, cases)
	if wing > 0 {
		out += fmt.Sprintf(", the WING in %d", wing)
	}
	return out + fmt.Sprintf("; the least margin is %s: %s. ", measure(marginWords(i), "°"), strings.Trim(rows[least].Group+", "+rows[least].Label, ", "))
}

// overviewWords says each case: the order in words, then the interval and what the limits make of it.
func overviewWords(rows []Row, limits []Limit) string {
	var b strings.Builder
	for _, r := range rows {
		name := strings.Trim(r.Group+", "+r.Label, ", ")
		i, origin, found := r.best()
		if !found {
			fmt.Fprintf(&b, "%s: no data. ", name)
			continue
		}
		fmt.Fprintf(&b, "%s: %s; %s %s degrees", name, stallWords(i), origin, marginWords(i))
		for _, l := range limits {
			fmt.Fprintf(&b, "; %s, %s", l.words(1), l.verdict(i))
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}
