package plots

import (
	"math"

	"gonum.org/v1/plot"
)

// spanAxes are the scales that all frames of the figure share.
type spanAxes struct {
	data       SpanLoadData
	own        []string // surfaces with a frame of their own, in order of appearance
	spanwise   bool     // some surface runs along the span
	span       span
	load, lift span
}

func (d SpanLoadData) axes() spanAxes {
	a := spanAxes{data: d, span: emptySpan(), load: emptySpan(), lift: emptySpan()}
	a.span.add(0)
	a.load.add(0)
	a.lift.add(0)
	seen := map[string]bool{}
	for _, s := range d.Series {
		for _, surface := range s.Surfaces {
			load, lift := surface.load(d.MeanChord), surface.sectionLift()
			a.load.add(append(append(append([]float64{}, load.Y...), load.Low...), load.High...)...)
			a.lift.add(append(append(append([]float64{}, lift.Y...), lift.Low...), lift.High...)...)
			switch {
			case !surface.OwnLength:
				a.span.add(surface.Station...)
				a.spanwise = true
			case !seen[surface.Surface]:
				seen[surface.Surface] = true
				a.own = append(a.own, surface.Surface)
			}
		}
		if s.ForeplaneTip > 0 {
			a.span.add(s.ForeplaneTip)
		}
	}
	a.load.add(a.load.high + 0.15*a.load.length()) // room for the words on the foreplane's tip
	a.lift.add(a.lift.high + 0.15*a.lift.length())
	return a
}

// rows are the two rows of frames, load above section lift, for the series drawn together.
func (a spanAxes) rows(name string, base, series []SpanLoadSeries) []panelRow {
	var out []panelRow
	for _, load := range []bool{true, false} {
		var r panelRow
		if a.spanwise {
			r.panels = append(r.panels, a.panel(name, "", load, base, series))
		}
		for _, own := range a.own {
			r.panels = append(r.panels, a.panel(name, own, load, base, series))
		}
		out = append(out, r)
	}
	if len(out[0].panels) == 1 {
		out = []panelRow{{panels: []curvePanel{out[0].panels[0], out[1].panels[0]}}}
	}
	for i := range out {
		out[i].shares = spanShares(len(out[i].panels), a.spanwise && len(a.own) > 0)
	}
	return out
}

// spanShares gives the span more room than the surfaces beside it.
func spanShares(n int, wideFirst bool) []float64 {
	shares := make([]float64, n)
	for i := range shares {
		shares[i] = 1 / float64(n)
	}
	if wideFirst {
		shares[0] = math.Max(0.5, 1-0.38*float64(n-1))
		for i := 1; i < n; i++ {
			shares[i] = (1 - shares[0]) / float64(n-1)
		}
	}
	return shares
}

// panel is one frame: the surfaces along the span (own empty) or one surface along its own length.
func (a spanAxes) panel(name, own string, load bool, base, series []SpanLoadSeries) curvePanel {
	p := curvePanel{title: own}
	if own == "" {
		p.title = "along the span"
	}
	if name == "" {
		p.title = capital(p.title)
	} else {
		p.title = name + ": " + p.title
	}
	p.y = niceAxis("section lift coefficient cl, pure number", a.lift, 6)
	if load {
		p.y = niceAxis("load c·cl over mean chord, pure number", a.load, 6)
	}
	across, label := a.span, "distance from the plane of symmetry, m"
	if own != "" {
		across, label = a.length(own), "distance along the "+own+" from its root, m"
	}
	p.x = niceAxis(label, across, 5)
	p.things = []plot.Plotter{level{plain: true}}
	t := tags{}
	if own == "" {
		tips := foreplaneTips(base, series)
		p.things = append(p.things, tips.passages()...)
		p.notes = tips.notes()
		t.items = append(t.items, tips.tags(p.y.high-0.06*(p.y.high-p.y.low))...)
	}
	for _, s := range base {
		p.things = append(p.things, a.curves(s, own, load, baselineMark(), false, 0, &t)...)
	}
	for i, s := range series {
		p.things = append(p.things, a.curves(s, own, load, spanMark(i, len(series)), true, i, &t)...)
	}
	if own == "" {
		first := append(append([]SpanLoadSeries{}, series...), base...)[0]
		t.items = append(t.items, surfaceTags(first, load, a.data.MeanChord)...)
	}
	if len(t.avoid) == 0 {
		p.empty = "not in these configurations"
	}
	p.things = append(p.things, t)
	return p
}

func (a spanAxes) length(own string) span {
	s := emptySpan()
	s.add(0)
	for _, series := range a.data.Series {
		for _, surface := range series.Surfaces {
			if surface.OwnLength && surface.Surface == own {
				s.add(surface.Station...)
			}
		}
	}
	return s
}

// curves draws one series in one frame; glyphs of series i stand staggered so that they do not hide each other.
func (a spanAxes) curves(s SpanLoadSeries, own string, load bool, look mark, glyphs bool, i int, t *tags) []plot.Plotter {
	var out []plot.Plotter
	for _, surface := range s.Surfaces {
		if surface.OwnLength != (own != "") || (own != "" && surface.Surface != own) {
			continue
		}
		c := surface.sectionLift()
		if load {
			c = surface.load(a.data.MeanChord)
		}
		t.avoid = append(t.avoid, c)
		out = append(out, bandOf{c, look}, lineOf{c, look})
		if glyphs || len(c.X) == 1 {
			out = append(out, thinned(c, look, i))
		}
		quantity := "section lift coefficient"
		if load {
			quantity = "load"
		}
		out = append(out, spokenCurve(c, func(x float64, y Interval) string {
			return said(quantity+" "+computed(y, 2), s.Configuration, surface.Surface+" at "+number(x, 2)+" m")
		}))
	}
	return out
}

// thinned picks about seven points of a curve for its glyphs, starting later for later series.
func thinned(c Curve, look mark, shift int) pointsOf {
	out := pointsOf{look: look, size: 2.4}
	step := max(1, len(c.X)/7)
	for i := min(shift*step/3, len(c.X)-1); i < len(c.X); i += step {
		out.x, out.y = append(out.x, c.X[i]), append(out.y, c.Y[i])
	}
	return out
}

// surfaceTags names the surfaces along the span at their curves.
func surfaceTags(s SpanLoadSeries, load bool, meanChord float64) []tag {
	var out []tag
	for _, surface := range s.Surfaces {
		if surface.OwnLength {
			continue
		}
		c := surface.sectionLift()
		if load {
			c = surface.load(meanChord)
		}
		out = append(out, tag{words: surface.Surface, spots: curveSpots(c, 0.55), ink: ink, bold: true})
	}
	return out
}
