package plots

import (
	"cmp"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// foreplaneTip is where the tip of a foreplane passes the wing, m from the plane of symmetry.
type foreplaneTip struct {
	at   float64
	line draw.LineStyle
}

type tipList []foreplaneTip

// foreplaneTips gathers each place once, from the inner to the outer.
func foreplaneTips(base, series []SpanLoadSeries) tipList {
	var out tipList
	add := func(s SpanLoadSeries, look mark) {
		known := slices.ContainsFunc(out, func(t foreplaneTip) bool { return t.at == s.ForeplaneTip })
		if s.ForeplaneTip > 0 && !known {
			line := look.line
			line.Width, line.Dashes = 0.9, []vg.Length{1, 2}
			out = append(out, foreplaneTip{s.ForeplaneTip, line})
		}
	}
	for i, s := range series {
		add(s, spanMark(i, len(series)))
	}
	for _, s := range base {
		add(s, baselineMark())
	}
	slices.SortStableFunc(out, func(a, b foreplaneTip) int { return cmp.Compare(a.at, b.at) })
	return out
}

func (l tipList) passages() []plot.Plotter {
	var out []plot.Plotter
	for _, t := range l {
		out = append(out, passage(t), spokenPassage{"foreplane tip at " + number(t.at, 2) + " m", t.at})
	}
	return out
}

// tags names one or two tips at their lines, the inner to the left; more would stand in each other's way.
func (l tipList) tags(y float64) []tag {
	if len(l) > 2 {
		return nil
	}
	var out []tag
	for i, t := range l {
		side := vg.Length(1)
		if i < len(l)-1 {
			side = -1
		}
		out = append(out, tag{words: "foreplane tip " + number(t.at, 2) + " m", ink: t.line.Color, aside: side, spots: []spot{{t.at, y}}})
	}
	return out
}

// notes lists three tips or more above the frame.
func (l tipList) notes() []string {
	if len(l) < 3 {
		return nil
	}
	var at []string
	for _, t := range l {
		at = append(at, number(t.at, 2))
	}
	return []string{"dotted: foreplane tips at " + strings.Join(at, ", ") + " m"}
}
