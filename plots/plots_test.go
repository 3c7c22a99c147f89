package plots_test

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

var update = flag.Bool("update", false, "write the golden figures anew")

func TestEveryFigureNamesItsAxesUnitsAndSeries(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			f, err := k.draw()
			require.NoError(t, err)
			for _, svg := range [][]byte{f.SVG, f.Narrow} {
				d := read(t, svg)
				require.Equal(t, f.Title, d.title)
				require.Equal(t, f.Title+". "+f.Alt, d.label)
				require.Greater(t, d.shapes, 10)
				for _, want := range k.says {
					require.Contains(t, d.text(), want)
				}
				requireTidy(t, d)
			}
			require.NotContains(t, string(f.SVG)+string(f.Narrow), "NaN")
			require.NotContains(t, string(f.SVG)+string(f.Narrow), "Inf")
		})
	}
}

func TestEqualDataGiveEqualBytes(t *testing.T) {
	for _, k := range kinds() {
		first, err := k.draw()
		require.NoError(t, err)
		again, err := k.draw()
		require.NoError(t, err)
		require.Equal(t, first, again, k.name)
	}
}

// The golden files hold pictures that somebody has looked at; a change leaves the new picture in a
// temporary folder and prints the first line that differs.
func TestFiguresMatchTheirGoldenFiles(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			f, err := k.draw()
			require.NoError(t, err)
			golden := filepath.Join("..", "testdata", "golden", k.name+".svg")
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(golden), 0o755))
				require.NoError(t, os.WriteFile(golden, f.SVG, 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			want = bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n"))
			if bytes.Equal(want, f.SVG) {
				return
			}
			got := filepath.Join(os.TempDir(), k.name+"-new.svg")
			require.NoError(t, os.WriteFile(got, f.SVG, 0o644))
			t.Fatalf("%s differs from the drawing left in %s; first difference: %s", golden, got, firstDifference(want, f.SVG))
		})
	}
}

func firstDifference(want, got []byte) string {
	w, g := strings.Split(string(want), "\n"), strings.Split(string(got), "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return "want " + w[i] + " got " + g[i]
		}
	}
	return "one is longer than the other"
}

func TestAltTextSaysTheFinding(t *testing.T) {
	f, err := plots.Margin(marginData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "foreplane small, winglet mid, aft loading: anchored 8.7 (6.1 to 11.3) %; aft margin: at least 5.0, the whole interval keeps the limit")
	require.Contains(t, f.Alt, "the interval crosses the limit")
	require.Contains(t, f.Alt, "foreplane large, winglet tall, forward loading: no data")
	f, err = plots.BendingRatio(bendingData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "winglet tall: greatest 1.09 (1.00 to 1.18) at 1.32 m, the whole interval breaks the limit")
	f, err = plots.TrimCrossing(trimData())
	require.NoError(t, err)
	// (4.210 − 3.92)/1.05 = 27.6 %
	require.Contains(t, f.Alt, "neutral point 4.210 (4.150 to 4.290) m aft of datum; that is 27.6 (21.9 to 35.2) % of the mean chord")
}

func TestOneVeryWideIntervalDoesNotCrushTheOthers(t *testing.T) {
	d := marginData()
	d.Rows[0].Measured = at(9, -4000, 4000)
	f, err := plots.Margin(d)
	require.NoError(t, err)
	text := read(t, f.SVG).text()
	require.Contains(t, text, "9.0 (−4000.0 to 4000.0)")
	require.NotContains(t, text, " 1000 ")
}

func TestManyConfigurationsGetPanelsOfTheirOwn(t *testing.T) {
	d := bendingData()
	for range 2 {
		d.Series = append(d.Series, d.Series[0])
	}
	f, err := plots.BendingRatio(d)
	require.NoError(t, err)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		require.Equal(t, 5, strings.Count(r.text(), "bending moment over allowable, pure number"))
		requireTidy(t, r)
	}
}

func TestNamesOfAnyLengthAndKindStayInsideTheFrame(t *testing.T) {
	hostile := `</text><script>alert(1)</script> & "quoted" ` + strings.Repeat("verylongword", 30) + " \x00\x07\ufffe \u202etxet"
	d := marginData()
	d.Title = hostile
	d.Rows[0].Group, d.Rows[1].Label, d.Limits[0].Name = hostile, hostile, hostile
	f, err := plots.Margin(d)
	require.NoError(t, err)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		require.NotContains(t, string(svg), "<script")
	}
	v := viewData()
	v.Surfaces[0].Name, v.Marks[0].Name, v.OtherName, v.Surfaces[1].Stations[0].Name = hostile, hostile, hostile, hostile
	f, err = plots.ThreeView(v)
	require.NoError(t, err)
	requireTidy(t, read(t, f.SVG))
	requireTidy(t, read(t, f.Narrow))
	l := liftData()
	l.Panels[0].Configuration = hostile
	f, err = plots.LiftCurves(l)
	require.NoError(t, err)
	requireTidy(t, read(t, f.SVG))
	requireTidy(t, read(t, f.Narrow))
}

func TestEmptyDataAreErrors(t *testing.T) {
	for name, draw := range map[string]func() (plots.Figure, error){
		"margin":     func() (plots.Figure, error) { return plots.Margin(plots.MarginData{}) },
		"lift":       func() (plots.Figure, error) { return plots.LiftCurves(plots.LiftCurvesData{}) },
		"polar":      func() (plots.Figure, error) { return plots.DragPolar(plots.DragPolarData{}) },
		"trim":       func() (plots.Figure, error) { return plots.TrimCrossing(plots.TrimCrossingData{}) },
		"levels":     func() (plots.Figure, error) { return plots.LevelComparison(plots.LevelComparisonData{}) },
		"bending":    func() (plots.Figure, error) { return plots.BendingRatio(plots.BendingRatioData{}) },
		"three view": func() (plots.Figure, error) { return plots.ThreeView(plots.ThreeViewData{}) },
		"a panel without rows": func() (plots.Figure, error) {
			return plots.LevelComparison(plots.LevelComparisonData{Panels: []plots.QuantityPanel{{Name: "x"}}})
		},
		"a series without stations": func() (plots.Figure, error) {
			return plots.BendingRatio(plots.BendingRatioData{Series: []plots.BendingSeries{{}}})
		},
	} {
		f, err := draw()
		require.ErrorIs(t, err, plots.ErrNoData, name)
		require.Empty(t, f.SVG, name)
	}
}

func TestBrokenDataAreErrorsThatSayWhere(t *testing.T) {
	nan := math.NaN()
	margin := func(change func(*plots.MarginData)) func() (plots.Figure, error) {
		return func() (plots.Figure, error) { d := marginData(); change(&d); return plots.Margin(d) }
	}
	for want, draw := range map[string]func() (plots.Figure, error){
		"row 1: foreplane small, winglet mid, aft loading: low 9 lies above high 7": margin(func(d *plots.MarginData) { d.Rows[0].Measured = at(8, 9, 7) }),
		"value 12 lies outside 7 to 9":                                              margin(func(d *plots.MarginData) { d.Rows[0].Measured = at(12, 7, 9) }),
		"a bound is NaN":                                                            margin(func(d *plots.MarginData) { d.Rows[1].Anchored = at(12, nan, 9) }),
		"value +Inf":                                                                margin(func(d *plots.MarginData) { d.Rows[1].Anchored = at(math.Inf(1), 0, math.Inf(1)) }),
		`limit "aft margin" is NaN`:                                                 margin(func(d *plots.MarginData) { d.Limits[0].Value = nan }),
		"test points: number 2 is NaN": func() (plots.Figure, error) {
			d := liftData()
			d.Panels[0].Alpha = []float64{0, nan}
			d.Panels[0].Lift = []float64{0, 1}
			return plots.LiftCurves(d)
		},
		"slices of length 3 and 2": func() (plots.Figure, error) {
			return plots.DragPolar(plots.DragPolarData{Panels: []plots.PolarPanel{{Lift: []float64{1, 2, 3}, Drag: []float64{1, 2}}}})
		},
		"band of length 1 and 2": func() (plots.Figure, error) {
			return plots.DragPolar(plots.DragPolarData{Panels: []plots.PolarPanel{{Fit: plots.Curve{X: []float64{1, 2}, Y: []float64{1, 2}, Low: []float64{1}, High: []float64{1, 2}}}}})
		},
		"2 CG positions and 1 slopes": func() (plots.Figure, error) {
			d := trimData()
			d.Panels[0].CG, d.Panels[0].Slope = []float64{1, 2}, d.Panels[0].Slope[:1]
			return plots.TrimCrossing(d)
		},
		`surface "foreplane" has 1 stations`: func() (plots.Figure, error) {
			d := viewData()
			d.Surfaces[0].Stations = d.Surfaces[0].Stations[:1]
			return plots.ThreeView(d)
		},
		`surface "wing", station 2: coordinate +Inf`: func() (plots.Figure, error) {
			d := viewData()
			d.Surfaces[2].Stations[1].LeadingEdge[0] = math.Inf(1)
			return plots.ThreeView(d)
		},
	} {
		f, err := draw()
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "plots: ")
		require.Empty(t, f.SVG)
	}
}

func TestThreeViewDrawsOnlyWhatDiffersTwice(t *testing.T) {
	d := viewData()
	d.Other = append(d.Other, d.Surfaces[0], d.Surfaces[2])
	f, err := plots.ThreeView(d)
	require.NoError(t, err)
	same, err := plots.ThreeView(viewData())
	require.NoError(t, err)
	require.Equal(t, same, f)
	d.Other = d.Surfaces
	f, err = plots.ThreeView(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "winglet tall: every surface is the same as in baseline")
}

// A wrong sign must be visible: the winglet that points down reaches below the wing in words as in lines.
func TestThreeViewSaysWhereAWingletPoints(t *testing.T) {
	d := viewData()
	d.Surfaces[3].Stations[1].LeadingEdge[2], d.Surfaces[3].Stations[1].TrailingEdge[2] = -0.9, -0.9
	f, err := plots.ThreeView(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "winglet: chord 0.60 to 0.40 m, x 4.80 to 5.70, y 4.20 to 4.35, z −0.90 to 0.08 m")
}
