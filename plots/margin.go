package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// MarginData is the static margin of every configuration at its loadings, in percent of the mean
// aerodynamic chord, positive stable. Row.Group is the configuration, Row.Label the loading or CG.
type MarginData struct {
	Title  string // empty: "Static margin"
	Rows   []Row
	Limits []Limit // percent
}

// Margin draws the forest plot of static margins: measured, predicted and anchored interval of each row
// over the limits.
//
// It returns ErrNoData without rows, and an error that names the row when an interval is broken.
func Margin(d MarginData) (Figure, error) {
	title := or(d.Title, "Static margin")
	if err := checkRows(title, d.Rows, d.Limits); err != nil {
		return Figure{}, err
	}
	finding := limitsFinding(d.Rows, d.Limits)
	return compose(title, finding+forestAlt(d.Rows, d.Limits, "%"), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		head := header{title: title, note: "How far the centre of gravity lies ahead of the neutral point; more is steadier. " + finding, key: standardKey(d.Rows, len(d.Limits) > 0)}
		top, paintHead := head.place(width)
		f := newForest(d.Rows, d.Limits, "static margin, % of the mean aerodynamic chord", width-2*edge, nil)
		f.unit = "%"
		height := top + f.height() + edge
		return height, func(c draw.Canvas) {
			paintHead(c, c.Max.Y)
			f.paint(c, edge, c.Max.Y-top)
		}
	})
}

func checkRows(title string, rows []Row, limits []Limit) error {
	if len(rows) == 0 {
		return fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	for i, r := range rows {
		if err := r.check(); err != nil {
			return fmt.Errorf("plots: %s: row %d: %w", title, i+1, err)
		}
	}
	return checkLimits(title, limits)
}

func checkLimits(title string, limits []Limit) error {
	for _, l := range limits {
		if !finite(l.Value) {
			return fmt.Errorf("plots: %s: limit %q is %g; want a finite number", title, l.Name, l.Value)
		}
	}
	return nil
}

// limitsFinding says how many rows keep all limits with their whole interval, and names up to three that do not; no
// limits: nothing.
func limitsFinding(rows []Row, limits []Limit) string {
	if len(limits) == 0 {
		return ""
	}
	var keep, all int
	var crossing, breaking []string
	for _, r := range rows {
		i, _, found := r.best()
		if !found || !i.determined() {
			continue
		}
		all++
		name := strings.Trim(r.Group+", "+r.Label, ", ")
		switch worst := worstVerdict(i, limits); worst {
		case keeps:
			keep++
		case crosses:
			crossing = append(crossing, name)
		default:
			breaking = append(breaking, name)
		}
	}
	switch {
	case all == 0:
		return ""
	case keep == all:
		return "Every interval keeps its limits from end to end. "
	}
	out := fmt.Sprintf("%d of %d intervals keep their limits from end to end", keep, all)
	if len(crossing) > 0 {
		out += fmt.Sprintf("; %d cross one: %s", len(crossing), fewNames(crossing))
	}
	if len(breaking) > 0 {
		out += fmt.Sprintf("; %d break one from end to end: %s", len(breaking), fewNames(breaking))
	}
	return out + ". "
}

// fewNames lists three names at most.
func fewNames(names []string) string {
	if len(names) > 3 {
		return strings.Join(names[:3], "; ") + fmt.Sprintf(" and %d more", len(names)-3)
	}
	return strings.Join(names, "; ")
}

// forestAlt says each row in words, with what the limits make of it.
func forestAlt(rows []Row, limits []Limit, unit string) string {
	var all []Interval
	for _, r := range rows {
		all = append(all, r.intervals()...)
	}
	decimals := decimalsFor(all)
	var b strings.Builder
	for _, r := range rows {
		name := strings.Trim(r.Group+", "+r.Label, ", ")
		i, origin, found := r.best()
		if !found {
			fmt.Fprintf(&b, "%s: no data. ", name)
			continue
		}
		fmt.Fprintf(&b, "%s: %s %s", name, origin, i.words(decimals))
		if i.determined() && unit != "" {
			b.WriteString(" " + unit)
		}
		for _, l := range limits {
			if i.determined() {
				fmt.Fprintf(&b, "; %s, %s", l.words(decimals), l.verdict(i))
			}
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}

func or(s, fallback string) string {
	if strings.TrimSpace(s) == "" {
		return fallback
	}
	return s
}
