package plots_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

func TestEveryFigureHasPointsInsideItsDrawing(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			f, err := k.draw()
			require.NoError(t, err)
			for _, layout := range []struct {
				svg    []byte
				points []plots.Point
			}{{f.SVG, f.Points}, {f.Narrow, f.NarrowPoints}} {
				d := read(t, layout.svg)
				require.Greater(t, len(layout.points), 3)
				require.LessOrEqual(t, len(layout.points), 300)
				seen := map[plots.Point]bool{}
				for _, p := range layout.points {
					require.True(t, p.X >= 0 && p.X <= d.width && p.Y >= 0 && p.Y <= d.height, "%+v", p)
					require.True(t, strings.ContainsFunc(p.Text, unicode.IsDigit) || strings.Contains(p.Text, "not determined"), p.Text)
					require.False(t, seen[p], "%+v twice", p)
					seen[p] = true
				}
			}
			require.Len(t, f.NarrowPoints, len(f.Points), "both layouts say the same numbers")
		})
	}
}

// scaleOf reads the scale of an axis off two of its numbers: the place at which a value lies.
func scaleOf(t *testing.T, d drawing, low, high float64, lowText, highText string, along func(word) float64) func(float64) float64 {
	place := func(text string) float64 {
		i := slices.IndexFunc(d.words, func(w word) bool { return w.text == text })
		require.GreaterOrEqual(t, i, 0, text)
		return along(d.words[i])
	}
	from, to := place(lowText), place(highText)
	return func(v float64) float64 { return from + (v-low)/(high-low)*(to-from) }
}

func middleAcross(w word) float64 { return (w.left + w.right) / 2 }

func pointNamed(t *testing.T, points []plots.Point, text string) plots.Point {
	i := slices.IndexFunc(points, func(p plots.Point) bool { return p.Text == text })
	require.GreaterOrEqual(t, i, 0, "no point says %q", text)
	return points[i]
}

// The point of an interval stands at its value on the printed scale, and on the line of its printed numbers.
func TestPointsOfRowsStandAtTheirValues(t *testing.T) {
	f, err := plots.Margin(marginData())
	require.NoError(t, err)
	d := read(t, f.SVG)
	x := scaleOf(t, d, 0, 20, "0", "20", middleAcross)
	for text, value := range map[string]float64{
		"foreplane small, winglet mid; aft loading: anchored 8.7 (6.1 to 11.3) %":        8.7,
		"foreplane large, winglet tall; aft loading: predicted 0.8 (−3.4 to 5.0) %":      0.8,
		"foreplane large, winglet mid; aft loading: measured 2.2 (below 6.8) %":          2.2,
		"foreplane small, winglet mid; forward loading: predicted 16.5 (12.3 to 20.7) %": 16.5,
		"aft margin: at least 5.0 %": 5,
	} {
		p := pointNamed(t, f.Points, text)
		require.InDelta(t, x(value), p.X, 0.15, text)
		if _, number, isRow := strings.Cut(text, "; "); isRow {
			_, number, _ = strings.Cut(number, ": ")
			_, number, _ = strings.Cut(strings.TrimSuffix(number, " %"), " ")
			i := slices.IndexFunc(d.words, func(w word) bool { return w.text == number })
			require.True(t, p.Y > d.words[i].top && p.Y < d.words[i].bottom, text)
		}
	}
	unknown := pointNamed(t, f.Points, "foreplane large, winglet tall; aft loading: measured not determined")
	require.InDelta(t, x(10), unknown.X, 0.15, "an interval without value speaks in the middle of what is drawn, −5 to 25")
}

func TestPointsOfCurvesStandAtTheirValues(t *testing.T) {
	d := trimData()
	d.Panels = d.Panels[:1]
	f, err := plots.TrimCrossing(d)
	require.NoError(t, err)
	r := read(t, f.SVG)
	x := scaleOf(t, r, 3.8, 4.4, "3.8", "4.4", middleAcross)
	y := scaleOf(t, r, 0, 20, "0", "20", func(w word) float64 { return (w.top + w.bottom) / 2 })
	p := pointNamed(t, f.Points, "foreplane small, winglet mid; CG 3.900 m: measured 15.8 (13.8 to 17.8)° per unit lift coefficient")
	require.InDelta(t, x(3.9), p.X, 0.15)
	require.InDelta(t, y(0.275*180/math.Pi), p.Y, 0.4, "numbers stand a little off their ticks")
	p = pointNamed(t, f.Points, "foreplane small, winglet mid: neutral point by flights 4.210 (4.150 to 4.290) m aft of datum")
	require.InDelta(t, x(4.21), p.X, 0.15)
	require.InDelta(t, y(0), p.Y, 0.4)
	p = pointNamed(t, f.Points, "foreplane small, winglet mid: neutral point by theory 4.170 m aft of datum")
	require.InDelta(t, x(4.17), p.X, 0.15)
}

func TestTestPointsNameTheirFlights(t *testing.T) {
	d := liftData()
	d.Panels = d.Panels[:1]
	for i := range d.Panels[0].Alpha {
		d.Panels[0].Flights = append(d.Panels[0].Flights, []string{"F01", "F02", "F07"}[i%3])
	}
	f, err := plots.LiftCurves(d)
	require.NoError(t, err)
	require.Contains(t, read(t, f.SVG).text(), "n = 22 points of 3 flights")
	require.Contains(t, f.Alt, "n = 22 points of 3 flights")
	// 0.8° is 0.01 + 0.15·0.5/22 rad; own standard deviations 1.5·0.0035 rad = 0.30° and 1.5·0.008 = 0.012, times 1.96
	pointNamed(t, f.Points, "foreplane small, winglet mid; test point of F01: 0.8 ± 0.6°, CL 0.193 ± 0.024")
	d.Panels[0].Flights = d.Panels[0].Flights[:3]
	_, err = plots.LiftCurves(d)
	require.ErrorContains(t, err, "22 test points and 3 flights")
}

// Of more points than a layout keeps an even part stays, from the first to the last.
func TestManyPointsAreThinnedEvenly(t *testing.T) {
	var p plots.LiftPanel
	for i := range 2000 {
		p.Alpha, p.Lift = append(p.Alpha, float64(i)*1e-4), append(p.Lift, float64(i)*5e-4)
	}
	f, err := plots.LiftCurves(plots.LiftCurvesData{Panels: []plots.LiftPanel{p}})
	require.NoError(t, err)
	require.Len(t, f.Points, 300)
	require.Equal(t, "test point: 0.0°, CL 0.000", f.Points[0].Text)
	require.Equal(t, "test point: 11.5°, CL 1.000", f.Points[299].Text)
	for i := 1; i < 300; i++ {
		require.InDelta(t, f.Points[1].X-f.Points[0].X, f.Points[i].X-f.Points[i-1].X, 0.45)
	}
}

// Texts are plain: what could steer a page or a reader's screen is gone, the rest is kept for whoever escapes it.
func TestPointsOfHostileNames(t *testing.T) {
	hostile := "</text><script>alert(1)</script> & \"quoted\"\x00\x07\u202etxet\xff"
	d := marginData()
	d.Rows[0].Group, d.Rows[0].Label, d.Limits[0].Name = hostile, hostile, hostile
	m, err := plots.Margin(d)
	require.NoError(t, err)
	v := viewData()
	v.Surfaces[0].Name, v.Marks[0].Name, v.OtherName, v.Surfaces[1].Stations[0].Name = hostile, hostile, hostile, hostile
	view, err := plots.ThreeView(v)
	require.NoError(t, err)
	s := stripData()
	s.Manoeuvres[0].Name, s.Panels[0].Name, s.Panels[0].Unit = hostile, hostile, hostile
	strip, err := plots.StripChart(s)
	require.NoError(t, err)
	for _, f := range []plots.Figure{m, view, strip} {
		said := 0
		for _, p := range append(f.Points, f.NarrowPoints...) {
			require.False(t, strings.ContainsFunc(p.Text, func(r rune) bool { return r < 0x20 || r == 0x202e || r == unicode.ReplacementChar }), p.Text)
			if strings.Contains(p.Text, `<script>alert(1)</script> & "quoted" txet`) {
				said++
			}
		}
		require.Positive(t, said)
	}
}
