package plots

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// sheet is a drawing as plain data: what was painted, in its order, and the points that say something. It is
// painted on as a canvas; SVG and picture are written from it.
type sheet struct {
	width, height vg.Length
	touches       []touch
	points        []Point
	pens          []brush // the states that Push keeps; the last one holds
}

// touchKind tells what a touch puts on the sheet.
type touchKind int

const (
	strokeTouch touchKind = iota
	fillTouch
	textTouch
)

// touch is one thing on the sheet, in sheet units from the lower left corner.
type touch struct {
	kind   touchKind
	ink    color.NRGBA
	path   vg.Path     // of a stroke or a fill
	width  vg.Length   // of a stroke
	dashes []vg.Length // of a stroke; none: solid
	font   font.Font   // of a text
	at     vg.Point    // of a text: where its baseline starts
	turned float64     // of a text: rad, anticlockwise
	text   string
}

// brush is the state of the canvas.
type brush struct {
	ink    color.NRGBA
	width  vg.Length
	dashes []vg.Length
	// where a point x, y of the painter lies: a·x + c·y + e, b·x + d·y + f
	a, b, c, d, e, f float64
}

func newSheet(width, height vg.Length) *sheet {
	s := &sheet{width: width, height: height, pens: []brush{{a: 1, d: 1}}}
	vg.Initialize(s)
	return s
}

func (s *sheet) brush() *brush { return &s.pens[len(s.pens)-1] }

// Size is the size of the sheet.
func (s *sheet) Size() (width, height vg.Length) { return s.width, s.height }

// SetLineWidth sets the width of strokes.
func (s *sheet) SetLineWidth(w vg.Length) { s.brush().width = w }

// SetLineDash sets the dashes of strokes; no figure shifts them.
func (s *sheet) SetLineDash(pattern []vg.Length, _ vg.Length) { s.brush().dashes = pattern }

// SetColor sets the ink; nil is black.
func (s *sheet) SetColor(c color.Color) {
	if c == nil {
		c = color.Black
	}
	s.brush().ink = color.NRGBAModel.Convert(c).(color.NRGBA)
}

// Rotate turns what follows anticlockwise by rad.
func (s *sheet) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	p := s.brush()
	p.a, p.b, p.c, p.d = p.a*cos+p.c*sin, p.b*cos+p.d*sin, p.c*cos-p.a*sin, p.d*cos-p.b*sin
}

// Translate shifts what follows.
func (s *sheet) Translate(by vg.Point) {
	at := s.brush().place(by)
	s.brush().e, s.brush().f = float64(at.X), float64(at.Y)
}

// Scale enlarges what follows, except widths of lines and sizes of type.
func (s *sheet) Scale(x, y float64) {
	p := s.brush()
	p.a, p.b, p.c, p.d = p.a*x, p.b*x, p.c*y, p.d*y
}

// Push keeps the state for Pop.
func (s *sheet) Push() { s.pens = append(s.pens, *s.brush()) }

// Pop takes up the state again that Push kept.
func (s *sheet) Pop() {
	if len(s.pens) > 1 {
		s.pens = s.pens[:len(s.pens)-1]
	}
}

// Stroke draws a path; a line without width or ink is none.
func (s *sheet) Stroke(path vg.Path) {
	if p := s.brush(); p.width > 0 && p.ink.A > 0 && len(path) > 0 {
		s.touches = append(s.touches, touch{kind: strokeTouch, ink: p.ink, path: p.lay(path), width: p.width, dashes: p.dashes})
	}
}

// Fill fills a path.
func (s *sheet) Fill(path vg.Path) {
	if p := s.brush(); len(path) > 0 {
		s.touches = append(s.touches, touch{kind: fillTouch, ink: p.ink, path: p.lay(path)})
	}
}

// FillString writes text.
func (s *sheet) FillString(f font.Face, at vg.Point, text string) {
	if p := s.brush(); text != "" && f.Font.Size > 0 {
		s.touches = append(s.touches, touch{kind: textTouch, ink: p.ink, font: f.Font, at: p.place(at), turned: p.turn(), text: text})
	}
}

// DrawImage draws nothing: figures hold no pictures.
func (s *sheet) DrawImage(vg.Rectangle, image.Image) {}

// note keeps a point that says something; one outside the sheet or without words is left out.
func (s *sheet) note(at vg.Point, text string) {
	at = s.brush().place(at)
	if at.X < 0 || at.X > s.width || at.Y < 0 || at.Y > s.height || text == "" {
		return
	}
	s.points = append(s.points, Point{X: toTenth(at.X), Y: toTenth(s.height - at.Y), Text: text})
}

func (p brush) place(at vg.Point) vg.Point {
	x, y := float64(at.X), float64(at.Y)
	return vg.Point{X: vg.Length(p.a*x + p.c*y + p.e), Y: vg.Length(p.b*x + p.d*y + p.f)}
}

func (p brush) turn() float64 { return math.Atan2(p.b, p.a) }

// lay puts a path on the sheet, as a copy: painters use their slices again.
func (p brush) lay(path vg.Path) vg.Path {
	out := make(vg.Path, len(path))
	size := vg.Length(math.Hypot(p.a, p.b))
	for i, step := range path {
		step.Pos = p.place(step.Pos)
		step.Radius *= size
		if step.Type == vg.ArcComp {
			step.Start += p.turn()
		}
		control := make([]vg.Point, len(step.Control))
		for k, at := range step.Control {
			control[k] = p.place(at)
		}
		step.Control = control
		out[i] = step
	}
	return out
}
