package plots_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

func TestEmptyLatticeDataAreErrors(t *testing.T) {
	for name, draw := range map[string]func() (plots.Figure, error){
		"span load":           func() (plots.Figure, error) { return plots.SpanLoad(plots.SpanLoadData{}) },
		"stall order":         func() (plots.Figure, error) { return plots.StallOrder(plots.StallOrderData{}) },
		"stall overview":      func() (plots.Figure, error) { return plots.StallOverview(plots.StallOverviewData{}) },
		"sweep":               func() (plots.Figure, error) { return plots.Sweep(plots.SweepData{}) },
		"differences":         func() (plots.Figure, error) { return plots.LevelDifferences(plots.LevelDifferencesData{}) },
		"sweep without point": func() (plots.Figure, error) { return plots.Sweep(plots.SweepData{Lines: make([]plots.SweepLine, 1)}) },
		"quantity without rows": func() (plots.Figure, error) {
			return plots.LevelDifferences(plots.LevelDifferencesData{Quantities: make([]plots.QuantityDifference, 1)})
		},
		"series without surfaces": func() (plots.Figure, error) {
			return plots.SpanLoad(plots.SpanLoadData{MeanChord: 1, Series: make([]plots.SpanLoadSeries, 1)})
		},
		"surface without stations": func() (plots.Figure, error) {
			return plots.SpanLoad(plots.SpanLoadData{MeanChord: 1, Series: []plots.SpanLoadSeries{{Surfaces: make([]plots.SurfaceLoad, 1)}}})
		},
	} {
		f, err := draw()
		require.ErrorIs(t, err, plots.ErrNoData, name)
		require.ErrorContains(t, err, "plots: ")
		require.Empty(t, f.SVG, name)
	}
}

func TestBrokenLatticeDataAreErrorsThatSayWhere(t *testing.T) {
	nan := math.NaN()
	span := func(change func(*plots.SpanLoadData)) func() (plots.Figure, error) {
		return func() (plots.Figure, error) { d := spanLoadData(); change(&d); return plots.SpanLoad(d) }
	}
	stall := func(change func(*plots.StallOrderData)) func() (plots.Figure, error) {
		return func() (plots.Figure, error) { d := stallData(); change(&d); return plots.StallOrder(d) }
	}
	sweep := func(change func(*plots.SweepData)) func() (plots.Figure, error) {
		return func() (plots.Figure, error) { d := sweepData(); change(&d); return plots.Sweep(d) }
	}
	view := func(change func(*plots.ThreeViewData)) func() (plots.Figure, error) {
		return func() (plots.Figure, error) { d := latticeViewData(); change(&d); return plots.ThreeView(d) }
	}
	for want, draw := range map[string]func() (plots.Figure, error){
		"mean chord NaN m":      span(func(d *plots.SpanLoadData) { d.MeanChord = nan }),
		"mean chord 0 m":        span(func(d *plots.SpanLoadData) { d.MeanChord = 0 }),
		"foreplane tip at -1 m": span(func(d *plots.SpanLoadData) { d.Series[0].ForeplaneTip = -1 }),
		"foreplane large, winglet tall, wing: stations, chords and section lift: number 3 is NaN": span(func(d *plots.SpanLoadData) { d.Series[0].Surfaces[1].SectionLift[2] = nan }),
		"slices of length 28 and 27":            span(func(d *plots.SpanLoadData) { d.Series[0].Surfaces[1].Chord = d.Series[0].Surfaces[1].Chord[:27] }),
		"want each greater than the one before": span(func(d *plots.SpanLoadData) { d.Series[0].Surfaces[1].Station[4] = 0 }),
		"chord 1 is -2 m":                       span(func(d *plots.SpanLoadData) { d.Series[0].Surfaces[1].Chord[0] = -2 }),
		"error 2 is -1":                         span(func(d *plots.SpanLoadData) { d.Series[0].Surfaces[1].Error[1] = -1 }),
		"angle of attack NaN":                   stall(func(d *plots.StallOrderData) { d.Alpha = nan }),
		"wing: critical station 9 m":            stall(func(d *plots.StallOrderData) { d.Wing.Critical.Station = 9 }),
		"wing: critical station NaN m":          stall(func(d *plots.StallOrderData) { d.Wing.Critical.Station = nan }),
		"foreplane: stations, section lift and maximum: number 1 is +Inf": stall(func(d *plots.StallOrderData) { d.Foreplane.Maximum[0] = math.Inf(1) }),
		"margin: a bound is NaN":                              stall(func(d *plots.StallOrderData) { d.Margin.Low = nan }),
		"foreplane: event: low":                               stall(func(d *plots.StallOrderData) { d.Foreplane.Event.Low = 1 }),
		"wing: the event lies outside the lift curve":         stall(func(d *plots.StallOrderData) { d.Wing.Lift.X = d.Wing.Lift.X[:20]; d.Wing.Lift.Y = d.Wing.Lift.Y[:20] }),
		"foreplane small: size 2 is 0.1 after 0.4":            sweep(func(d *plots.SweepData) { d.Lines[0].Curve.X[1] = 0.1 }),
		"foreplane mid: number 1 is NaN":                      sweep(func(d *plots.SweepData) { d.Lines[1].Curve.Y[0] = nan }),
		"baseline: number 2 is NaN":                           sweep(func(d *plots.SweepData) { d.Baseline.Value = nan }),
		`limit "span efficiency" is NaN`:                      sweep(func(d *plots.SweepData) { d.Limit.Value = nan }),
		`surface "wing", hinge of "aileron" has 1 points`:     view(func(d *plots.ThreeViewData) { d.Surfaces[2].Hinges[0].Line = d.Surfaces[2].Hinges[0].Line[:1] }),
		`surface "wing", hinge of "aileron": number 1 is NaN`: view(func(d *plots.ThreeViewData) { d.Surfaces[2].Hinges[0].Line[0][0] = nan }),
		`surface "wing", panel 2: number 3 is NaN`:            view(func(d *plots.ThreeViewData) { d.Surfaces[2].Panels[1][0][2] = nan }),
		"fuselage has 1 section":                              view(func(d *plots.ThreeViewData) { d.Body = d.Body[:1] }),
		"fuselage section 2 is -1 m wide":                     view(func(d *plots.ThreeViewData) { d.Body[1].Width = -1 }),
		"fuselage section: x 3 is 0 after 0.8":                view(func(d *plots.ThreeViewData) { d.Body[2].X = 0 }),
		"induced drag: row 1: , small: value 5 lies outside 3.1 to 4.7": func() (plots.Figure, error) {
			d := differenceData()
			d.Quantities[0].Rows[0].Predicted.Value = 5
			return plots.LevelDifferences(d)
		},
	} {
		f, err := draw()
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "plots: ")
		require.Empty(t, f.SVG)
	}
}

func TestSinglePointsAreDrawn(t *testing.T) {
	one := func(own bool) plots.SurfaceLoad {
		return plots.SurfaceLoad{Surface: "wing", OwnLength: own, Station: []float64{1}, Chord: []float64{0.8}, SectionLift: []float64{0.5}, Error: []float64{0.1}}
	}
	stallSide := plots.StallSurface{Station: []float64{1}, SectionLift: []float64{1.2}, Maximum: []float64{1.4}, Event: plots.NotDetermined(),
		Lift: plots.Curve{X: []float64{0.1}, Y: []float64{0.5}}}
	for name, draw := range map[string]func() (plots.Figure, error){
		"span load": func() (plots.Figure, error) {
			return plots.SpanLoad(plots.SpanLoadData{MeanChord: 1, Series: []plots.SpanLoadSeries{{Surfaces: []plots.SurfaceLoad{one(false)}}}})
		},
		"own length only": func() (plots.Figure, error) {
			return plots.SpanLoad(plots.SpanLoadData{MeanChord: 1, Series: []plots.SpanLoadSeries{{Baseline: true, ForeplaneTip: 3, Surfaces: []plots.SurfaceLoad{one(true)}}}})
		},
		"stall order": func() (plots.Figure, error) {
			return plots.StallOrder(plots.StallOrderData{Margin: plots.NotDetermined(), Foreplane: stallSide, Wing: stallSide})
		},
		"stall overview": func() (plots.Figure, error) {
			return plots.StallOverview(plots.StallOverviewData{Rows: []plots.Row{{Predicted: at(0, 0, 0)}}})
		},
		"sweep": func() (plots.Figure, error) {
			return plots.Sweep(plots.SweepData{Lines: []plots.SweepLine{{Curve: plots.Curve{X: []float64{0}, Y: []float64{0}}}}})
		},
		"differences": func() (plots.Figure, error) {
			return plots.LevelDifferences(plots.LevelDifferencesData{Quantities: []plots.QuantityDifference{{Rows: []plots.Row{{}}}}})
		},
	} {
		f, err := draw()
		require.NoError(t, err, name)
		for _, svg := range [][]byte{f.SVG, f.Narrow} {
			d := read(t, svg)
			require.Greater(t, d.shapes, 5, name)
			requireTidy(t, d)
			require.NotContains(t, string(svg), "NaN", name)
			require.NotContains(t, string(svg), "Inf", name)
		}
	}
}

// An event beyond the angles that were computed is said in words, and the frame stays whole.
func TestEventsBeyondTheCurvesAreWords(t *testing.T) {
	d := stallData()
	d.Foreplane.Event = plots.Interval{Value: math.NaN(), Low: 18 * rad, High: math.Inf(1)}
	d.Margin = plots.Interval{Value: math.NaN(), Low: math.Inf(-1), High: -3.7 * rad}
	f, err := plots.StallOrder(d)
	require.NoError(t, err)
	require.Contains(t, f.Title, "WING FIRST by more than 3.7°")
	require.Contains(t, f.Alt, "total lift stops rising at above 18.0 degrees")
	requireTidy(t, read(t, f.SVG))
}

func TestLongNamesInLatticeFiguresStayInsideTheFrame(t *testing.T) {
	hostile := `</text><script>alert(1)</script> & "quoted" ` + strings.Repeat("verylongword", 30) + " \x00\x07\ufffe \u202etxet"
	for name, draw := range map[string]func() (plots.Figure, error){
		"span load": func() (plots.Figure, error) {
			d := spanLoadData()
			d.Title, d.Condition, d.Series[0].Configuration, d.Series[1].Configuration = hostile, hostile, hostile, hostile
			for i := range d.Series[0].Surfaces {
				d.Series[0].Surfaces[i].Surface = hostile
			}
			return plots.SpanLoad(d)
		},
		"stall order": func() (plots.Figure, error) {
			d := stallData()
			d.Case, d.Foreplane.Name, d.Wing.Name = hostile, hostile, hostile
			return plots.StallOrder(d)
		},
		"stall overview": func() (plots.Figure, error) {
			d := stallOverviewData()
			d.Title, d.Rows[0].Group, d.Rows[1].Label = hostile, hostile, hostile
			d.Limits = []plots.Limit{{Name: hostile}}
			return plots.StallOverview(d)
		},
		"sweep": func() (plots.Figure, error) {
			d := sweepData()
			d.Quantity, d.Unit, d.Size, d.SizeUnit, d.Lines[0].Level, d.Lines[1].Level, d.Limit.Name, d.Baseline.Name = hostile, hostile, hostile, hostile, hostile, hostile, hostile, hostile
			return plots.Sweep(d)
		},
		"differences": func() (plots.Figure, error) {
			d := differenceData()
			d.Choice, d.Baseline, d.Condition, d.Quantities[0].Quantity, d.Quantities[1].Unit, d.Quantities[2].Rows[0].Label = hostile, hostile, hostile, hostile, hostile, hostile
			return plots.LevelDifferences(d)
		},
		"three view": func() (plots.Figure, error) {
			d := latticeViewData()
			d.Name, d.OtherName, d.Surfaces[0].Hinges[0].Control, d.Other[0].Name = hostile, hostile, hostile, hostile
			return plots.ThreeView(d)
		},
	} {
		f, err := draw()
		require.NoError(t, err, name)
		for _, svg := range [][]byte{f.SVG, f.Narrow} {
			requireTidy(t, read(t, svg))
			require.NotContains(t, string(svg), "<script", name)
		}
	}
}
