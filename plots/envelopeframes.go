package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// paintUpper draws mass against CG; the horizontal axis stands below the lower frame.
func (e envelope) paintUpper(c draw.Canvas) {
	p := frame(axis{low: e.x.low, high: e.x.high}, axis{low: e.y.low, high: e.y.high})
	p.HideAxes()
	p.Add(grid{x: e.x.ticks, y: e.y.ticks}, envelopeScales{e})
	for _, l := range e.data.Limits {
		p.Add(envelopeBound{l})
	}
	if g := e.data.GrossMass; g > 0 {
		p.Add(level{limit: Limit{Value: g}, plain: true})
	}
	for _, b := range e.data.Burns {
		p.Add(lineOf{curve: Curve{X: b.CG, Y: b.Mass}, look: mark{line: burnLine()}})
	}
	p.Add(envelopeLoadings{e.data}, e.names())
	p.Draw(c)
}

// names are those of loadings, limits and gross mass, as direct labels.
func (e envelope) names() tags {
	d, out := e.data, tags{}
	for _, l := range d.Loadings {
		at := spot{l.CG.Value, l.Mass.Value}
		out.keep = append(out.keep, at)
		out.items = append(out.items, tag{words: l.Name, spots: []spot{at}, ink: ink, bold: true})
	}
	for _, l := range d.Limits {
		line := Curve{X: l.CG, Y: l.Mass}
		out.avoid = append(out.avoid, line)
		aside := vg.Length(1)
		if l.Aft {
			aside = -1
		}
		out.items = append(out.items, tag{words: l.Name, spots: e.inside(line, 0.85), ink: limitInk, bold: true, aside: aside})
	}
	for _, b := range d.Burns {
		out.avoid = append(out.avoid, Curve{X: b.CG, Y: b.Mass})
	}
	if d.GrossMass > 0 {
		middle := []spot{}
		for _, share := range []float64{0.9, 0.1, 0.5, 0.3, 0.7} {
			middle = append(middle, spot{e.x.low + share*(e.x.high-e.x.low), d.GrossMass})
		}
		out.items = append(out.items, tag{words: "gross mass " + number(d.GrossMass, 0) + " kg", spots: middle, ink: faintInk})
	}
	return out
}

// inside are the places on a curve where its name may stand, those in the frame.
func (e envelope) inside(line Curve, preferred float64) []spot {
	var out []spot
	for _, s := range curveSpots(line, preferred) {
		if s.x >= e.x.low && s.x <= e.x.high && s.y >= e.y.low && s.y <= e.y.high {
			out = append(out, s)
		}
	}
	return out
}

// envelopeScales writes masses at the left, and percent of the mean chord above.
type envelopeScales struct{ envelope }

// Plot draws ticks and frame.
func (e envelopeScales) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	small, label := newPen(smallSize, false, faintInk), newPen(smallSize, false, ink)
	line := draw.LineStyle{Color: faintInk, Width: 0.8}
	c.StrokeLine2(line, c.Min.X, c.Min.Y, c.Min.X, c.Max.Y)
	for _, t := range e.y.ticks {
		c.StrokeLine2(line, c.Min.X-4, ty(t.Value), c.Min.X, ty(t.Value))
		put(c, small, c.Min.X-6, ty(t.Value)-3.5, right, t.Label)
	}
	if !(e.data.MeanChord > 0) {
		put(c, label, c.Min.X-envelopeGutter, c.Max.Y+8, left, e.y.label)
		return
	}
	put(c, label, c.Min.X-envelopeGutter, c.Max.Y+22, left, e.y.label)
	words := "% of the mean aerodynamic chord"
	put(c, label, c.Max.X, c.Max.Y+22, right, shorten(label, words, c.Max.X-c.Min.X-20))
	c.StrokeLine2(line, c.Min.X, c.Max.Y, c.Max.X, c.Max.Y)
	percent := span{e.data.percent(e.x.low), e.data.percent(e.x.high)}
	for _, t := range exact(niceAxis("", percent, max(3, int((c.Max.X-c.Min.X)/50))), percent).ticks {
		x := tx(e.data.MeanChordLeadingEdge + t.Value/100*e.data.MeanChord)
		c.StrokeLine2(line, x, c.Max.Y, x, c.Max.Y+4)
		put(c, small, x, c.Max.Y+7, centre, t.Label)
	}
}

// envelopeBound is a limit over the masses, hatched on the side that is not allowed.
type envelopeBound struct{ EnvelopeLimit }

// Plot draws the line, cut to the frame.
func (l envelopeBound) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	var path []vg.Point
	for i := range l.CG {
		path = append(path, vg.Point{X: tx(l.CG[i]), Y: ty(l.Mass[i])})
	}
	forbidden := vg.Point{X: -1}
	if l.Aft {
		forbidden.X = 1
	}
	if len(path) < 2 {
		return
	}
	for _, piece := range c.ClipLinesXY(path) {
		hatchedPath(c, piece, forbidden)
	}
	for _, i := range places(len(l.CG), 3) {
		if at := path[i]; c.Contains(at) {
			note(c, at, fmt.Sprintf("%s: %s m at %s kg", l.Name, number(l.CG[i], 3), number(l.Mass[i], 0)))
		}
	}
}

// envelopeLoadings are the loadings with their intervals both ways.
type envelopeLoadings struct{ EnvelopeData }

// Plot draws them.
func (l envelopeLoadings) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	for _, one := range l.Loadings {
		at := vg.Point{X: tx(one.CG.Value), Y: ty(one.Mass.Value)}
		bars := loadingMark()
		bars.size = 0.1
		drawUpright(c, bars, one.Mass, at.X, ty)
		drawInterval(c, bars, lay(one.CG, tx, c), at.Y)
		m := loadingMark()
		m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: m.size}, at)
		note(c, at, fmt.Sprintf("%s: %s kg at %s m%s", one.Name, one.Mass.words(0), one.CG.words(3), l.percentWords(one.CG)))
	}
}

// paintLower draws a row for each configuration, and the axis.
func (e envelope) paintLower(c draw.Canvas) {
	small := newPen(smallSize, false, ink)
	label := shorten(small, e.x.label, c.Max.X-c.Min.X+envelopeGutter)
	put(c, small, min(c.Center().X, c.Max.X-small.width(label)/2), c.Min.Y+4, centre, label)
	x := e.x
	x.label = ""
	c.Rectangle.Min.Y += 16
	p := frame(x, axis{low: 0, high: 1})
	p.Add(grid{x: e.x.ticks}, envelopeRows{e})
	p.Draw(c)
}

// envelopeRows are neutral points, limits and CGs flown.
type envelopeRows struct{ envelope }

// Plot draws them downwards.
func (e envelopeRows) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	if len(e.data.Rows) == 0 {
		return
	}
	heading := newPen(headSize, true, ink)
	start := c.Min.X - envelopeGutter
	putHaloed(c, heading, start, c.Max.Y-15, shorten(heading, e.data.rowsHeading(), c.Max.X-start))
	y := c.Max.Y - 16
	for _, r := range e.data.Rows {
		name := newPen(smallSize, r.Configuration == e.data.Configuration, ink)
		putHaloed(c, name, start, y-11, shorten(name, r.Configuration, c.Max.X-start))
		e.paintRow(c, tx, y-envelopeRow+8, r)
		y -= envelopeRow
	}
}

// paintRow draws one configuration at height y.
func (e envelopeRows) paintRow(c draw.Canvas, tx func(float64) vg.Length, y vg.Length, r EnvelopeRow) {
	drawInterval(c, anchoredMark(), lay(r.NeutralPoint, tx, c), y)
	if r.NeutralPoint.determined() {
		note(c, vg.Point{X: tx(r.NeutralPoint.Value), Y: y}, fmt.Sprintf("%s: neutral point %s m%s", r.Configuration, r.NeutralPoint.words(3), e.data.percentWords(r.NeutralPoint)))
	}
	for _, bound := range []struct {
		at   float64
		side vg.Length
		name string
	}{{r.Forward, -1, "forward"}, {r.Aft, 1, "aft"}} {
		at := tx(bound.at)
		if math.IsNaN(bound.at) || !c.ContainsX(at) {
			continue
		}
		hatchedPath(c, []vg.Point{{X: at, Y: y - 6}, {X: at, Y: y + 6}}, vg.Point{X: bound.side})
		note(c, vg.Point{X: at, Y: y}, fmt.Sprintf("%s: %s limit %s m", r.Configuration, bound.name, number(bound.at, 3)))
	}
	m := measuredMark()
	for _, cg := range r.Flown {
		m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: 2.4}, vg.Point{X: tx(cg), Y: y})
		note(c, vg.Point{X: tx(cg), Y: y}, fmt.Sprintf("%s: flown at %s m", r.Configuration, number(cg, 3)))
	}
}
