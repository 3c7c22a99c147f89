package plots_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

// threePoints are two wide apart and one whose own error is next to nothing.
func threePoints() plots.LiftPanel {
	deg := math.Pi / 180
	return plots.LiftPanel{Configuration: "only", Alpha: []float64{2 * deg, 4 * deg, 9 * deg}, Lift: []float64{0.3, 0.5, 0.9},
		AlphaSD: []float64{0, 0.5 * deg, 0.001 * deg}, LiftSD: []float64{0.05, 0.02, 0.0001}}
}

func liftOf(t *testing.T, panels ...plots.LiftPanel) plots.Figure {
	f, err := plots.LiftCurves(plots.LiftCurvesData{Panels: panels})
	require.NoError(t, err)
	return f
}

var barsPath = regexp.MustCompile(`<path stroke="#767676" stroke-width="\.5" d="([^"]*)"/>`)

// barsIn are the bars of a drawing from end to end, key first; each is from x, y to x, y.
func barsIn(t *testing.T, svg []byte) [][4]float64 {
	var out [][4]float64
	for _, path := range barsPath.FindAllStringSubmatch(string(svg), -1) {
		x, y := 0.0, 0.0
		for _, step := range regexp.MustCompile(`([Mm])([-.\d]+?)[ ]?(-?[.\d]+)([hv])([-.\d]+)`).FindAllStringSubmatch(path[1], -1) {
			across, down, run := parse(t, step[2]), parse(t, step[3]), parse(t, step[5])
			if step[1] == "M" {
				x, y = 0, 0
			}
			x, y = x+across, y+down
			bar := [4]float64{x, y, x, y}
			if step[4] == "h" {
				x += run
			} else {
				y += run
			}
			bar[2], bar[3] = x, y
			out = append(out, bar)
		}
	}
	return out
}

// A bar reaches 1.96 standard deviations to either side of its point on the printed scale: level by the angle, upright by the lift.
func TestBarsReachTwoStandardDeviations(t *testing.T) {
	f := liftOf(t, threePoints())
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		d := read(t, svg)
		x := scaleOf(t, d, 2, 8, "2", "8", middleAcross)
		y := scaleOf(t, d, 0.4, 0.8, "0.4", "0.8", func(w word) float64 { return (w.top + w.bottom) / 2 })
		bars := barsIn(t, svg)
		require.Len(t, bars, 3+3, "three in the key; the third point hides its own")
		for i, want := range [][4]float64{ // angle, lift of both ends
			{2, 0.3 - 0.098, 2, 0.3 + 0.098},
			{4 - 0.98, 0.5, 4 + 0.98, 0.5},
			{4, 0.5 - 0.0392, 4, 0.5 + 0.0392},
		} {
			require.InDelta(t, x(want[0]), bars[3+i][0], 0.3, "bar %d", i)
			require.InDelta(t, y(want[1]), bars[3+i][1], 0.6, "numbers stand a little off their ticks; bar %d", i)
			require.InDelta(t, x(want[2]), bars[3+i][2], 0.3, "bar %d", i)
			require.InDelta(t, y(want[3]), bars[3+i][3], 0.6, "bar %d", i)
		}
		require.Less(t, strings.LastIndex(string(svg), "#767676"), strings.LastIndex(string(svg), `stroke-linecap="round"`), "bars lie behind their points")
	}
	require.Equal(t, "only; test point: 9.0 ± less than 0.1°, CL 0.900 ± less than 0.001", f.Points[2].Text)
	require.Equal(t, "only; test point: 2.0°, CL 0.300 ± 0.098", f.Points[0].Text)
}

// However many points a panel has, its bars are one element.
func TestBarsOfAPanelAreOneElement(t *testing.T) {
	x, y := scatter(0.01, 0.16, 113, func(a float64) float64 { return 0.12 + 4.6*a }, 0.03)
	p := plots.LiftPanel{Alpha: x, Lift: y, AlphaSD: deviations(len(x), 0.004), LiftSD: deviations(len(x), 0.01)}
	f := liftOf(t, p, p, p)
	require.LessOrEqual(t, len(barsPath.FindAll(f.SVG, -1)), 3+1)
	require.Len(t, barsIn(t, f.SVG), 3+3*2*113)
	require.Less(t, len(f.SVG)-len(liftOf(t, bare(p), bare(p), bare(p)).SVG), 3*2*113*16, "some fifteen bytes a bar; an element each would take fifty")
}

func bare(p plots.LiftPanel) plots.LiftPanel {
	p.AlphaSD, p.LiftSD = nil, nil
	return p
}

// A panel whose points state nothing draws no bars and says nothing of them; what the axis cannot hold is cut at the frame.
func TestPanelsWithoutDeviationsHaveNoBars(t *testing.T) {
	f := liftOf(t, bare(threePoints()))
	require.Empty(t, barsIn(t, f.SVG))
	require.NotContains(t, read(t, f.SVG).text(), "95 %")
	require.Equal(t, "only; test point: 4.0°, CL 0.500", f.Points[1].Text)

	both := liftOf(t, threePoints(), bare(threePoints()))
	require.Len(t, barsIn(t, both.SVG), 3+3, "those of the first panel alone")

	wide := threePoints()
	wide.AlphaSD = []float64{0.002, 0.002, 50}
	d := liftOf(t, wide)
	for _, bar := range barsIn(t, d.SVG) {
		require.True(t, bar[0] >= 0 && bar[2] <= read(t, d.SVG).width, "%v", bar)
	}
}

func TestNotesSayWhatBarsHoldAndWhatTheoryDoesNot(t *testing.T) {
	lift, err := plots.LiftCurves(liftData())
	require.NoError(t, err)
	text := read(t, lift.Narrow).text()
	require.Contains(t, text, "95 % of the point itself")
	require.Contains(t, text, "share is in the band")
	require.Contains(t, text, "The line of theory has no band")
	require.Contains(t, text, "theory 4.72 (4.32 to 5.12)")
	require.Contains(t, text, "theory 4.72 (no error stated)")

	d := polarData()
	polar, err := plots.DragPolar(d)
	require.NoError(t, err)
	require.Contains(t, read(t, polar.SVG).text(), "has no band: its error is not stated")
	pointNamed(t, polar.Points, "foreplane small, winglet mid; test point: CL 0.272 ± 0.035, CD 0.0337 ± 0.0035") // 1.96·1.5·0.012 and ·0.0012
	line := &d.Panels[0].Lattice
	for _, v := range line.Y {
		line.Low, line.High = append(line.Low, 0.98*v), append(line.High, 1.02*v)
	}
	polar, err = plots.DragPolar(d)
	require.NoError(t, err)
	text = read(t, polar.SVG).text()
	require.Contains(t, text, "theory with 95 % band")
	require.NotContains(t, text, "has no band")
	d.Panels[0].Fit = plots.Curve{}
	d.Panels[0].Lattice = plots.Curve{}
	polar, err = plots.DragPolar(d)
	require.NoError(t, err)
	require.Contains(t, read(t, polar.SVG).text(), "share is not in them")
	require.NotContains(t, read(t, polar.SVG).text(), "theory")
}

func TestBrokenDeviationsAreErrors(t *testing.T) {
	for want, sd := range map[string][]float64{
		"3 test points and 2 standard deviations": {0.1, 0.1},
		"standard deviation 2 is -0.1":            {0.1, -0.1, 0.1},
		"standard deviation 3 is NaN":             {0.1, 0.1, math.NaN()},
		"standard deviation 1 is +Inf":            {math.Inf(1), 0.1, 0.1},
	} {
		for _, set := range []func(p *plots.LiftPanel){func(p *plots.LiftPanel) { p.AlphaSD = sd }, func(p *plots.LiftPanel) { p.LiftSD = sd }} {
			p := threePoints()
			set(&p)
			_, err := plots.LiftCurves(plots.LiftCurvesData{Panels: []plots.LiftPanel{p}})
			require.ErrorContains(t, err, "only: ")
			require.ErrorContains(t, err, want)
		}
	}
	p := threePoints()
	p.LatticeSlope = at(4, 5, 6)
	_, err := plots.LiftCurves(plots.LiftCurvesData{Panels: []plots.LiftPanel{p}})
	require.ErrorContains(t, err, "slope of theory")
}
