package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ModesPlaneData is where motions of the aircraft lie on the planes that a specification states its levels on.
type ModesPlaneData struct {
	Title  string // empty: "Motions on the planes of the specification"
	Note   string // source of the boundaries, condition of the motions
	Panels []ModesPanel
}

// ModesPanel is one plane.
type ModesPanel struct {
	Name       string
	X, Y       string // labels of the axes, with units
	Log        bool   // both axes by powers of ten; all numbers are then above zero
	Boundaries []ModesBoundary
	Places     []ModesPlace
	Lacking    string // what is not known, in words; may be empty
}

// ModesBoundary is where a level ends: a line, and to which side of it things get worse.
type ModesBoundary struct {
	Level        string
	X, Y         []float64
	SideX, SideY float64 // direction of what is worse, each −1, 0 or 1
}

// ModesPlace is one configuration in the plane, with what follows for its level in words.
type ModesPlace struct {
	Name   string
	X, Y   Interval
	Levels string
	Main   bool // the configuration that the reader looks for first
}

// ModesPlane draws a frame for each plane: boundaries of the levels hatched on the worse side, and each configuration as a point with its 95 %
// interval both ways.
//
// It returns ErrNoData without panels, and an error for a number that is not above zero where a panel goes by powers of ten.
func ModesPlane(d ModesPlaneData) (Figure, error) {
	title := or(d.Title, "Motions on the planes of the specification")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	var panels []curvePanel
	var words []string
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Name, err)
		}
		panels = append(panels, p.panel())
		words = append(words, p.words())
	}
	head := header{title: title, note: d.Note, key: []keyEntry{
		intervalKey("full size, from the flights, 95 % interval", measuredMark()), limitKey("end of a level, hatched side is worse")}}
	return compose(title, strings.Join(words, " ")+" "+d.Note, paintTiles(head, 2, panels))
}

func (p ModesPanel) check() error {
	positive := func(values ...float64) bool {
		for _, v := range values {
			if p.Log && !(v > 0) {
				return false
			}
		}
		return true
	}
	for _, b := range p.Boundaries {
		if err := checkSeries(b.Level, b.X, b.Y); err != nil {
			return err
		}
		if !positive(b.X...) || !positive(b.Y...) {
			return fmt.Errorf("%s: a number is not above zero", b.Level)
		}
	}
	for _, m := range p.Places {
		for _, i := range []Interval{m.X, m.Y} {
			if err := i.check(); err != nil {
				return fmt.Errorf("%s: %w", m.Name, err)
			}
			if !i.determined() || !positive(i.Value) {
				return fmt.Errorf("%s: value %g; want a number that the frame can hold", m.Name, i.Value)
			}
		}
	}
	return nil
}

const planeHeight vg.Length = 290

func (p ModesPanel) panel() curvePanel {
	x, y := p.axes()
	out := curvePanel{title: p.Name, x: x, y: y, height: planeHeight}
	if p.Lacking != "" {
		out.notes = []string{p.Lacking}
	}
	if len(p.Places) == 0 {
		out.empty = "no flight tells of this motion at full size yet"
	}
	names := tags{}
	for _, b := range p.Boundaries {
		line := Curve{X: p.all(b.X), Y: p.all(b.Y)}
		out.things = append(out.things, planeBoundary{line, vg.Point{X: vg.Length(b.SideX), Y: vg.Length(b.SideY)}, func(i int) string {
			return fmt.Sprintf("%s ends at %s %s, %s %s", b.Level, p.X, bare(b.X[i]), p.Y, bare(b.Y[i]))
		}})
		names.avoid = append(names.avoid, line)
	}
	for _, m := range p.Places {
		names.keep = append(names.keep, spot{p.scale(m.X.Value), p.scale(m.Y.Value)})
	}
	var led ledNames
	for _, m := range p.Places {
		led = append(led, ledName{words: m.Name, x: p.laid(m.X), y: p.laid(m.Y), bold: m.Main})
	}
	out.things = append(out.things, led)
	for _, m := range p.Places {
		out.things = append(out.things, p.cross(m))
	}
	for i, b := range p.Boundaries {
		names.items = append(names.items, tag{words: b.Level, spots: insideOf(names.avoid[i], x, y), ink: limitInk, bold: true})
	}
	out.things = append(out.things, names)
	return out
}

// insideOf are the places on a curve inside a frame, thinned, the last part first.
func insideOf(c Curve, x, y axis) []spot {
	var in Curve
	for i := range c.X {
		if c.X[i] > x.low && c.X[i] < x.high && c.Y[i] > y.low && c.Y[i] < y.high {
			in.X, in.Y = append(in.X, c.X[i]), append(in.Y, c.Y[i])
		}
	}
	return curveSpots(in, 0.8)
}

// scale is where a number stands on an axis of the panel.
func (p ModesPanel) scale(v float64) float64 {
	if p.Log {
		return math.Log10(math.Max(v, 1e-9))
	}
	return v
}

func (p ModesPanel) all(values []float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = p.scale(v)
	}
	return out
}

func (p ModesPanel) laid(i Interval) Interval {
	return Interval{Value: p.scale(i.Value), Low: p.scale(i.Low), High: p.scale(i.High)}
}

// planeBoundary is the end of a level.
type planeBoundary struct {
	line  Curve
	worse vg.Point
	words func(i int) string
}

// Plot draws the line, cut to the frame.
func (b planeBoundary) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	var path []vg.Point
	for i := range b.line.X {
		path = append(path, vg.Point{X: tx(b.line.X[i]), Y: ty(b.line.Y[i])})
	}
	if len(path) < 2 {
		return
	}
	for _, piece := range c.ClipLinesXY(path) {
		hatchedPath(c, piece, b.worse)
	}
	var inside []int
	for i := range path {
		if c.Contains(path[i]) {
			inside = append(inside, i)
		}
	}
	for _, k := range places(len(inside), 4) {
		note(c, path[inside[k]], b.words(inside[k]))
	}
}

// bare writes a number that has no error to about three figures.
func bare(v float64) string { return number(v, decimalsForBare([]Interval{{Value: v}})) }

// cross is a place with its intervals both ways.
func (p ModesPanel) cross(m ModesPlace) plot.Plotter {
	return placeOf{x: p.laid(m.X), y: p.laid(m.Y), words: p.sentence(m)}
}

type placeOf struct {
	x, y  Interval
	words string
}

// Plot draws the cross and its point.
func (m placeOf) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	at := vg.Point{X: tx(m.x.Value), Y: ty(m.y.Value)}
	look := measuredMark()
	look.size = 0.1
	if c.ContainsX(at.X) {
		drawUpright(c, look, m.y, at.X, ty)
	}
	if c.ContainsY(at.Y) {
		drawInterval(c, look, lay(m.x, tx, c), at.Y)
	}
	if c.Contains(at) {
		look = measuredMark()
		look.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: look.ink, Radius: look.size}, at)
		note(c, at, m.words)
	}
}

// sentence says a place in words.
func (p ModesPanel) sentence(m ModesPlace) string {
	s := fmt.Sprintf("%s: %s %s, %s %s", m.Name, p.X, m.X.words(decimalsFor([]Interval{m.X})), p.Y, m.Y.words(decimalsFor([]Interval{m.Y})))
	if m.Levels != "" {
		s += ": " + m.Levels
	}
	return s
}

func (p ModesPanel) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: ", p.Name)
	if len(p.Places) == 0 {
		b.WriteString("no flight tells of it at full size yet. ")
	}
	for _, m := range p.Places {
		b.WriteString(p.sentence(m) + ". ")
	}
	return strings.TrimSpace(b.String() + sentenceOf(p.Lacking))
}
