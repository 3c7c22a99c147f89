package plots

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func polygon(corners ...vg.Point) vg.Path {
	var p vg.Path
	p.Move(corners[0])
	for _, c := range corners[1:] {
		p.Line(c)
	}
	return p
}

func box(x, y, size vg.Length) []vg.Point {
	return []vg.Point{{X: x, Y: y}, {X: x + size, Y: y}, {X: x + size, Y: y + size}, {X: x, Y: y + size}}
}

// Hand-worked: y runs down from a sheet 100 high, steps are from the last point, in tenths.
func TestPathData(t *testing.T) {
	square := polygon(box(10, 10, 20)...)
	square.Close()
	var quarter vg.Path
	quarter.Move(vg.Point{X: 30, Y: 50})
	quarter.Arc(vg.Point{X: 10, Y: 50}, 20, 0, math.Pi/2)
	for want, path := range map[string]vg.Path{
		"M10 90h20v-20h-20z":       square,
		"M.2 99.8l-.4-30 30.1 10":  polygon(vg.Point{X: 0.24, Y: 0.16}, vg.Point{X: -0.2, Y: 30.2}, vg.Point{X: 29.9, Y: 20.2}),
		"M30 50a20 20 0 0 0-20-20": quarter,
	} {
		var out bytes.Buffer
		w := pathWriter{out: &out, height: 100}
		w.write(path)
		require.Equal(t, want, out.String())
	}
}

func TestALineAfterAnotherStartsWhereThatIsShorter(t *testing.T) {
	var out bytes.Buffer
	w := pathWriter{out: &out, height: 500}
	w.write(polygon(vg.Point{X: 100, Y: 380.5}, vg.Point{X: 104, Y: 380.5}))
	w.write(polygon(vg.Point{X: 100, Y: 374.5}, vg.Point{X: 104, Y: 374.5}))
	w.write(polygon(vg.Point{X: 1, Y: 499}, vg.Point{X: 2, Y: 499}))
	require.Equal(t, "M100 119.5h4m-4 6h4M1 1h1", out.String())
}

func TestShortNumbers(t *testing.T) {
	for want, v := range map[string]vg.Length{"0": 0.04, ".1": 0.05, "-.1": -0.08, "12": 12.04, "-3.5": -3.5, "100": 99.96} {
		require.Equal(t, want, tenths(v))
	}
	require.Equal(t, ".35", hundredths(0.35))
	require.Equal(t, "10", hundredths(10))
}

func TestCornersOnAStraightLineAreLeftOut(t *testing.T) {
	straight := polygon(vg.Point{}, vg.Point{X: 10, Y: 10.02}, vg.Point{X: 20, Y: 20}, vg.Point{X: 30, Y: 29.98}, vg.Point{X: 40, Y: 40})
	require.Equal(t, polygon(vg.Point{}, vg.Point{X: 40, Y: 40}), straightened(straight))
	bent := polygon(vg.Point{}, vg.Point{X: 10, Y: 10.2}, vg.Point{X: 20, Y: 20})
	require.Equal(t, bent, straightened(bent))
	back := polygon(vg.Point{}, vg.Point{X: 40}, vg.Point{X: 20})
	require.Equal(t, back, straightened(back), "a line that turns back reaches as far as it did")
}

// strokes counts the elements that a painting comes to.
func elements(paint func(c draw.Canvas)) (svg string, paths int) {
	s := newSheet(100, 100)
	paint(draw.New(s))
	svg = string(s.svg("t", "a"))
	return svg, strings.Count(svg, "<path")
}

func TestEqualTouchesShareAnElementUnlessSomethingLiesBetween(t *testing.T) {
	line := draw.LineStyle{Color: ink, Width: 1}
	_, n := elements(func(c draw.Canvas) {
		c.StrokeLine2(line, 10, 10, 20, 10)
		c.FillPolygon(limitInk, box(60, 60, 10))
		c.StrokeLine2(line, 10, 30, 20, 30)
		c.FillPolygon(limitInk, box(80, 60, 10))
	})
	require.Equal(t, 2, n)
	svg, n := elements(func(c draw.Canvas) {
		c.StrokeLine2(line, 10, 10, 50, 10)
		c.FillPolygon(paper, box(12, 8, 4))
		c.StrokeLine2(line, 13, 5, 13, 15)
	})
	require.Equal(t, 3, n, "what lies on the patch stays on it")
	require.Less(t, strings.Index(svg, "#fff"), strings.LastIndex(svg, "stroke="))
}

func TestHalfInkNeverSharesAnElementWhereItOverlaps(t *testing.T) {
	_, n := elements(func(c draw.Canvas) {
		c.FillPolygon(measuredBand, box(10, 10, 20))
		c.FillPolygon(measuredBand, box(20, 20, 20))
		c.FillPolygon(measuredBand, box(70, 70, 20))
	})
	require.Equal(t, 2, n)
}

// Two polygons of one element that turn against each other would leave a hole where they overlap.
func TestFillsTurnOneWay(t *testing.T) {
	clockwise := []vg.Point{{X: 10, Y: 10}, {X: 10, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 10}}
	require.Negative(t, turnOf(polygon(clockwise...)))
	turned := anticlockwise(polygon(clockwise...))
	require.InDelta(t, 800, turnOf(turned), 1e-9, "twice 20 by 20")
	ring := vg.Path{}
	ring.Move(vg.Point{X: 2})
	ring.Arc(vg.Point{}, 2, 0, 2*math.Pi)
	ring.Close()
	require.InDelta(t, 8*math.Pi, turnOf(ring), 1e-9, "twice π·2²")
}

func TestDiscsAreDotsOfTheirSizeAndInk(t *testing.T) {
	svg, n := elements(func(c draw.Canvas) {
		for _, x := range []vg.Length{10, 20, 30} {
			disc{}.DrawGlyph(&c, draw.GlyphStyle{Color: predictedInk, Radius: 2.2}, vg.Point{X: x, Y: 40})
		}
	})
	require.Equal(t, 1, n)
	require.Contains(t, svg, `<path stroke="#a84300" stroke-width="4.4" stroke-linecap="round" d="M10 60h.01M20 60h.01M30 60h.01"/>`)
}

// A sheet turned by a quarter about a point: what was to the right of it lies above it.
func TestTheSheetTurnsAndShifts(t *testing.T) {
	s := newSheet(100, 100)
	s.Push()
	s.Translate(vg.Point{X: 50, Y: 20})
	s.Rotate(math.Pi / 2)
	s.SetLineWidth(1)
	s.SetColor(color.Black)
	s.Stroke(polygon(vg.Point{X: 10}, vg.Point{X: 30}))
	s.note(vg.Point{X: 10}, "here")
	s.Pop()
	s.note(vg.Point{X: 10, Y: 10}, "there")
	at := s.touches[0].path[1].Pos
	require.InDelta(t, 50, float64(at.X), 1e-9)
	require.InDelta(t, 50, float64(at.Y), 1e-9)
	require.Equal(t, []Point{{X: 50, Y: 70, Text: "here"}, {X: 10, Y: 90, Text: "there"}}, s.points)
}

func TestPictureKeepsItsInks(t *testing.T) {
	s := newSheet(40, 40)
	c := draw.New(s)
	c.FillPolygon(anchoredInk, box(5, 5, 30))
	raw, err := Figure{wide: s}.Picture()
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(raw))
	require.NoError(t, err)
	require.Equal(t, color.RGBA{G: 86, B: 143, A: 255}, color.RGBAModel.Convert(picture.At(40, 40)))
	require.Equal(t, color.RGBA{R: 255, G: 255, B: 255, A: 255}, color.RGBAModel.Convert(picture.At(1, 1)))
}

// More inks than a palette holds: those used first stay as they are, a later one becomes its neighbour.
func TestPictureOfManyInks(t *testing.T) {
	s := newSheet(1200, 10) // three units, so five dots, for each ink
	c := draw.New(s)
	inkOf := func(i int) color.NRGBA { return color.NRGBA{R: uint8(i % 256), G: uint8(100 + i/4), B: 50, A: 255} }
	for i := range 400 {
		c.FillPolygon(inkOf(i), []vg.Point{{X: vg.Length(3 * i), Y: 0}, {X: vg.Length(3*i + 3), Y: 0}, {X: vg.Length(3*i + 3), Y: 10}, {X: vg.Length(3 * i), Y: 10}})
	}
	raw, err := Figure{wide: s}.Picture()
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(raw))
	require.NoError(t, err)
	require.Len(t, picture.(*image.Paletted).Palette, 256)
	for i := range 400 {
		want, got := inkOf(i), color.NRGBAModel.Convert(picture.At(5*i+2, 8)).(color.NRGBA)
		if i < 255 {
			require.Equal(t, want, got)
		}
		require.InDelta(t, want.R, got.R, 64)
		require.InDelta(t, want.G, got.G, 64)
	}
}
