package plots_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

func TestStallTitleSaysTheOrderInWords(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		margin plots.Interval // degrees
		want   string
	}{
		{plots.Interval{Value: 2.1, Low: 0.9, High: 3.3}, "foreplane lets go first by 2.1°"},
		{plots.Interval{Value: 2.1, Low: -0.9, High: 5.1}, "foreplane lets go first by 2.1°, not certain"},
		{plots.Interval{Value: -0.8, Low: -1.2, High: -0.4}, "WING FIRST by 0.8°"},
		{plots.Interval{Value: -0.8, Low: -2.3, High: 0.7}, "WING FIRST by 0.8°, not certain"},
		{plots.Interval{Value: -0.01, Low: -0.02, High: 0}, "WING FIRST by less than 0.1°"},
		{plots.Interval{Value: nan, Low: 2.4, High: inf}, "foreplane lets go first by more than 2.4°"},
		{plots.Interval{Value: nan, Low: -inf, High: -0.6}, "WING FIRST by more than 0.6°"},
		{plots.NotDetermined(), "which surface lets go first is not determined"},
	} {
		d := stallData()
		d.Margin = plots.Interval{Value: c.margin.Value * rad, Low: c.margin.Low * rad, High: c.margin.High * rad}
		wing := d.Foreplane.Event.Value + d.Margin.Value
		d.Wing.Event = *at(wing, wing, wing)
		if math.IsNaN(wing) {
			d.Wing.Event = plots.NotDetermined()
		}
		f, err := plots.StallOrder(d)
		require.NoError(t, err, c.want)
		require.Equal(t, "Full size, aft CG, clean: "+c.want, f.Title)
		requireTidy(t, read(t, f.SVG))
		requireTidy(t, read(t, f.Narrow))
	}
}

func TestStallMarginMustBeTheDifferenceOfItsEvents(t *testing.T) {
	d := stallData()
	d.Foreplane.Event, d.Wing.Event = d.Wing.Event, d.Foreplane.Event
	_, err := plots.StallOrder(d)
	require.ErrorContains(t, err, "margin 2.10°, but the events lie −2.10° apart (wing 12.20°, foreplane 14.30°)")
	d.Wing.Event = plots.NotDetermined()
	_, err = plots.StallOrder(d)
	require.ErrorContains(t, err, "but the events lie NaN° apart")
}

func TestStallAltTextSaysEventsAndStations(t *testing.T) {
	f, err := plots.StallOrder(stallData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "margin 2.1 (0.9 to 3.3) degrees")
	require.Contains(t, f.Alt, "Foreplane: total lift stops rising at 12.2 (11.3 to 13.1) degrees, the station at 0.17 m reaches its maximum first, at 11.4 degrees")
	require.Contains(t, f.Alt, "Wing: first station at its maximum at 14.3 (13.2 to 15.4) degrees, the station at 4.27 m")
	f, err = plots.StallOverview(stallOverviewData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "full size, aft CG, contaminated: WING FIRST by 0.8°, not certain; predicted −0.8 (−2.3 to 0.7) degrees")
	require.Contains(t, f.Alt, "model, forward CG, clean: foreplane lets go first by more than 2.4°; predicted above 2.4 degrees")
	require.Contains(t, f.Alt, "model, aft CG, contaminated: no data")
}

func TestStallLimitIsGivenInRadiansAndDrawnInDegrees(t *testing.T) {
	d := stallOverviewData()
	d.Limits = []plots.Limit{{Name: "stall order", Value: 1 * rad, AtLeast: true}}
	f, err := plots.StallOverview(d)
	require.NoError(t, err)
	require.Contains(t, read(t, f.SVG).text(), "stall order: at least 1.0")
	require.Contains(t, f.Alt, "full size, forward CG, clean: foreplane lets go first by 3.4°; predicted 3.4 (2.0 to 4.8) degrees; stall order: at least 1.0, the whole interval keeps the limit")
}

// body is a drawing without the words that follow the order of the data.
func body(svg []byte) []byte {
	_, after, _ := bytes.Cut(svg, []byte("</title>"))
	return after
}

func TestBaselineLiesBeneathWhateverItsPlace(t *testing.T) {
	f, err := plots.SpanLoad(spanLoadData())
	require.NoError(t, err)
	d := spanLoadData()
	slices.Reverse(d.Series)
	turned, err := plots.SpanLoad(d)
	require.NoError(t, err)
	require.Equal(t, string(body(f.SVG)), string(body(turned.SVG)))
}

func TestSpanLoadScalesWithChordOverMeanChord(t *testing.T) {
	d := plots.SpanLoadData{MeanChord: 0.8, Series: []plots.SpanLoadSeries{{Configuration: "one", Surfaces: []plots.SurfaceLoad{
		{Surface: "wing", Station: []float64{0.5, 1.5, 2.5}, Chord: []float64{1.2, 0.8, 0.4}, SectionLift: []float64{0.5, 0.6, 0.3}}}}}}
	f, err := plots.SpanLoad(d)
	require.NoError(t, err)
	// 0.5·1.2/0.8 = 0.75 is greater than 0.6·0.8/0.8 = 0.6
	require.Contains(t, f.Alt, "wing greatest load 0.75 at 0.50 m, greatest section lift 0.60 at 1.50 m")
}

func TestManySpanLoadsGetRowsOfTheirOwn(t *testing.T) {
	d := spanLoadData()
	for _, name := range []string{"second", "third", "fourth"} {
		s := d.Series[0]
		s.Configuration = name
		d.Series = append(d.Series, s)
	}
	f, err := plots.SpanLoad(d)
	require.NoError(t, err)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		require.Equal(t, 4*2, strings.Count(r.text(), "load c·cl over mean chord, pure number"))
		require.Contains(t, r.text(), "fourth: winglet")
	}
}

func TestThreeTipsOrMoreAreListedAboveTheFrame(t *testing.T) {
	d := spanLoadData()
	third := d.Series[0]
	third.Configuration, third.ForeplaneTip = "third", 1.95
	d.Series = append(d.Series, third)
	f, err := plots.SpanLoad(d)
	require.NoError(t, err)
	require.Contains(t, read(t, f.SVG).text(), "dotted: foreplane tips at 1.90, 1.95, 2.15 m")
}

func TestNamesAtTheEndsOfCurvesKeepApart(t *testing.T) {
	d := sweepData()
	for range 17 {
		d.Lines = append(d.Lines, d.Lines[0])
	}
	f, err := plots.Sweep(d)
	require.NoError(t, err)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		require.Equal(t, 18, strings.Count(r.text(), "foreplane small"))
	}
}

func TestSweepSaysItsEnds(t *testing.T) {
	f, err := plots.Sweep(sweepData())
	require.NoError(t, err)
	// 0.775 + 0.14·√1.4 = 0.9407, error 0.004 + 0.004·1.4 = 0.0096
	require.Contains(t, f.Alt, "0.941 (0.931 to 0.950) at 1.40 m")
	require.Contains(t, f.Alt, "Baseline: 0.893 at 0.80 m")
}

func TestDifferencesSaySideAndSign(t *testing.T) {
	f, err := plots.LevelDifferences(differenceData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "induced drag, tall: predicted −3.2 (−3.9 to −2.5) %, less than mid")
	require.Contains(t, f.Alt, "directional stiffness, tall: predicted +14.0 (+12.0 to +16.0) %, more than mid")
	require.Contains(t, f.Alt, "total drag, small: measured +0.6 (−2.4 to +3.6) %, no difference shown")
	require.Contains(t, f.Alt, "static margin, aft loading, tall: predicted not determined")
}

func TestOneLevelStandsInTheTitleAndQuantitiesBesideTheirRows(t *testing.T) {
	d := differenceData()
	for i := range d.Quantities {
		d.Quantities[i].Rows = d.Quantities[i].Rows[1:]
	}
	f, err := plots.LevelDifferences(d)
	require.NoError(t, err)
	require.Equal(t, "Winglet tall: what changes against mid", f.Title)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		require.Contains(t, r.text(), "bending moment at the wing root")
		require.NotContains(t, r.text(), "Induced drag")
	}
}

// A single bounded interval has caps inside the frame: the axis reaches both of its ends.
func TestAnAxisHoldsTheOnlyInterval(t *testing.T) {
	f, err := plots.Margin(plots.MarginData{Rows: []plots.Row{{Label: "aft", Measured: at(9, 2, 16)}}})
	require.NoError(t, err)
	words := strings.Fields(read(t, f.SVG).text())
	require.Contains(t, words, "2")
	require.Contains(t, words, "16")
}

// Panels are drawn as long lines whose straight parts have no corners between, so that a fine lattice stays small.
func TestAFineLatticeAddsFewBytes(t *testing.T) {
	d := viewData()
	d.Other = nil
	d.Surfaces[1].Panels = nil
	without, err := plots.ThreeView(d)
	require.NoError(t, err)
	for i := range d.Surfaces {
		d.Surfaces[i].Panels = quads(d.Surfaces[i], 40, 12)
	}
	with, err := plots.ThreeView(d)
	require.NoError(t, err)
	lines := 3 * 2 * len(d.Surfaces) * (41 + 13) // views, halves, surfaces
	require.LessOrEqual(t, read(t, with.SVG).shapes-read(t, without.SVG).shapes, lines+1, "and the key")
	// a line is a start and up to three straight pieces, each some ten bytes, where 480 closed polygons a half would need fifteen
	// times that
	require.Less(t, len(with.SVG)-len(without.SVG), lines*40)
}

func TestThreeViewPointsOutWhatIsHardlyMeant(t *testing.T) {
	for want, change := range map[string]func(*plots.ThreeViewData){
		"wing: station 3 lies inboard of station 2": func(d *plots.ThreeViewData) {
			s := d.Surfaces[2].Stations
			s[1], s[2] = s[2], s[1]
		},
		"foreplane: the leading edge of station 2 lies behind its trailing edge": func(d *plots.ThreeViewData) {
			c := &d.Surfaces[0].Stations[1]
			c.LeadingEdge, c.TrailingEdge = c.TrailingEdge, c.LeadingEdge
		},
		"wing: the stations run inboard": func(d *plots.ThreeViewData) { slices.Reverse(d.Surfaces[2].Stations) },
		"wing: station 2 lies left of the plane of symmetry": func(d *plots.ThreeViewData) {
			c := &d.Surfaces[2].Stations[1]
			c.LeadingEdge[1], c.TrailingEdge[1] = -c.LeadingEdge[1], -c.TrailingEdge[1]
		},
	} {
		d := viewData()
		f, err := plots.ThreeView(d)
		require.NoError(t, err)
		require.NotContains(t, f.Alt, "look here")
		change(&d)
		f, err = plots.ThreeView(d)
		require.NoError(t, err)
		require.Contains(t, f.Alt, "look here: "+want)
		requireTidy(t, read(t, f.SVG))
		requireTidy(t, read(t, f.Narrow))
	}
}

func TestThreeViewSaysSignsOfSweepDihedralAndToe(t *testing.T) {
	d := viewData()
	d.Other = nil
	wing := d.Surfaces[2].Stations
	for _, p := range []*plots.Position{&wing[2].LeadingEdge, &wing[2].TrailingEdge} {
		p[2] = 0.02 - 0.3
	}
	winglet := d.Surfaces[3].Stations
	winglet[1].LeadingEdge[1] -= 0.0140 // 0.4 m chord: 2.0° leading edge inboard
	f, err := plots.ThreeView(d)
	require.NoError(t, err)
	// atan(−0.3/3.0) = −5.7°, atan(1.5/√(3² + 0.3²)) = 26.5°
	require.Contains(t, f.Alt, "sweep 26.5°, dihedral −5.7°, incidence 0.0 to 0.0°")
	require.Contains(t, f.Alt, "toe 0.0 to 2.0°")
}

func TestAnotherHingeIsAChange(t *testing.T) {
	d := latticeViewData()
	d.Other = []plots.Outline{d.Surfaces[0]}
	f, err := plots.ThreeView(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "every surface is the same as in baseline")
	d.Other[0].Hinges = []plots.Hinge{{Control: "elevator", Line: []plots.Position{{0.85, 0.15, 0.3}, {0.86, 1.75, 0.3}}}}
	f, err = plots.ThreeView(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "winglet tall, foreplane: chord 0.40")
}
