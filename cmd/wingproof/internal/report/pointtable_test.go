package report

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

func samplePoints() []reduce.Reduction {
	return []reduce.Reduction{
		{Flight: "13", Points: []reduce.TestPoint{
			{Start: 41, End: 53, Kind: "glide", Power: reduce.Idle, Mass: 18.1, CG: 0.905, Airspeed: 21.36, Lift: 0.62, HasDrag: true, Drag: 0.0514, Alpha: 0.08, Elevator: 0.03, Kept: true, Reason: "steady for 12 s"},
			{Start: 80, End: 84, Kind: "level", Power: reduce.Level, Mass: 18.1, CG: 0.905, Airspeed: 19.9, Lift: 0.71, Alpha: 0.1, Elevator: 0.04, Reason: "load factor varied by more than 0.1 while the throttle was moved from level to full"}}},
		{Flight: "14", Findings: []flightlog.Finding{{Severity: flightlog.Loss, Start: 212.2, End: 301.9, What: "the airspeed froze", Consequence: "no test point is taken from this stretch"}}},
	}
}

func pointTable(t *testing.T, flights []reduce.Reduction, ratio float64, width int) string {
	return printed(t, func(w io.Writer) error { return PointTable(w, flights, ratio, width) })
}

// From 80 columns on every line fits, and the reasons stay readable.
func TestPointTableFitsAScreen(t *testing.T) {
	flights := samplePoints()
	flights[0].Points[0].HasSideslip, flights[0].Points[0].Start, flights[0].Points[0].End = true, 1141, 1153
	flights[1].Flight = strings.Repeat("long", 9)
	for _, width := range []int{80, 90, 100, 110} {
		text := pointTable(t, flights, 0.25, width)
		requireWidth(t, text, width)
		require.NotContains(t, text, "thrott\n", "words are not cut")
		require.Contains(t, text, "kept: steady")
		require.Contains(t, text, "dropped: load")
	}
}

// Every head of a number names its unit, coefficients apart.
func TestPointTableNamesUnits(t *testing.T) {
	for _, c := range pointColumns([]reduce.Reduction{{Points: []reduce.TestPoint{{HasSideslip: true}}}}, 110) {
		switch c.head {
		case "CL", "CD", "kind", "power", "kept or dropped, why":
		default:
			require.Regexp(t, `^\w+, (s|°|m/s)$`, c.head)
		}
	}
}

func TestPointTableShowsWhatThereIs(t *testing.T) {
	flights := samplePoints()
	wide, narrow := pointTable(t, flights, 0.25, 110), pointTable(t, flights, 0.25, 80)
	for _, want := range []string{"21.4", "0.051"} {
		require.Contains(t, wide, want)
		require.NotContains(t, narrow, want, "a narrow table has neither speed nor drag")
	}
	require.NotContains(t, wide, "0.000", "what has no drag shows none")
	require.NotContains(t, wide, "beta")
	flights[0].Points[1].HasSideslip, flights[0].Points[1].Sideslip = true, -0.05
	require.Contains(t, pointTable(t, flights, 0.25, 110), "−2.9")
}

// Below the table stands for each flight what counts, what it was flown with at both sizes, and what its log showed.
func TestPointTableSumsUpEachFlight(t *testing.T) {
	text := pointTable(t, samplePoints(), 0.25, 110)
	require.Contains(t, text, "13: 1 of 2 steady stretches kept; 18.10 kg, CG 3.620 m (model 905 mm)\n")
	require.Contains(t, text, "14: 0 of 0 steady stretches kept\n14: loss, 212–302 s: the airspeed froze; no test point is taken from this stretch\n")
	require.Contains(t, pointTable(t, samplePoints(), 0, 110), "CG model 905 mm\n")
}

// Manoeuvres stand below the points with what was seen; a flight without any adds nothing.
func TestPointTableListsManoeuvres(t *testing.T) {
	flights := samplePoints()
	require.NotContains(t, pointTable(t, flights, 0.25, 100), "manoeuvres found")
	flights[0].Manoeuvres = []manoeuvre.Manoeuvre{
		{Kind: manoeuvre.Doublet, Start: 121.3, End: 126.2, Airspeed: 22.04, Detail: "elevator 4.1° down, then up, 0.5 s each; hands off for 4 s, long enough for the short period to die out before the next input comes"},
		{Kind: manoeuvre.Circle, Start: 130, End: 158, Airspeed: 21}}
	for _, width := range []int{80, 110} {
		text := pointTable(t, flights, 0.25, width)
		requireWidth(t, text, width)
		require.Contains(t, text, "\nmanoeuvres found; speeds are calibrated airspeeds\nflight  time, s")
		require.Regexp(t, `13 +121–126 +doublet +22\.0 +elevator 4\.1° down`, text)
		require.Regexp(t, `\n +130–158 +circle +21\.0\n`, text)
	}
}

// The tube that reads high and the one that reads low are told apart, and a scale that is not known shows no number.
func TestPointTableTellsTheAir(t *testing.T) {
	flights := samplePoints()
	flights[0].Air = reduce.Air{Enough: true, ScaleKnown: true, AirspeedScale: 0.0124, AirspeedScaleSD: 0.004, WindSpeed: 3.14, WindFrom: 4, WindSD: 0.3, Gusts: 0.52}
	require.Contains(t, pointTable(t, flights, 0.25, 140), "13: wind 3.1 m/s from 229° (± 0.6 m/s at 95 %), gusts 0.5 m/s rms; the airspeed tube reads 1.2 % high (± 0.8 % at 95 %)\n")
	flights[0].Air.AirspeedScale = -0.02
	require.Contains(t, pointTable(t, flights, 0.25, 140), "reads 2.0 % low")
	flights[0].Air.ScaleKnown, flights[0].Air.ScaleWhy = false, "the headings cover 40°"
	text := pointTable(t, flights, 0.25, 140)
	require.Contains(t, text, "airspeed scale not known: the headings cover 40°\n")
	require.NotContains(t, text, "reads")
	require.NotContains(t, text, "14: wind")
}

// A finding that comes again and again takes one line, with its first time ranges.
func TestPointTableTellsAFindingOnce(t *testing.T) {
	flights := samplePoints()[1:]
	again := flights[0].Findings[0]
	for _, start := range []float64{400, 500, 600, 700, 800} {
		again.Start, again.End = start, start+0.2
		flights[0].Findings = append(flights[0].Findings, again, flightlog.Finding{Severity: flightlog.Note, What: "12 rows are torn"})
	}
	text := pointTable(t, flights, 0.25, 200)
	require.Contains(t, text, "14: loss, 212–302 s, 400 s, 500 s, 600 s and 2 more: the airspeed froze; no test point is taken from this stretch\n14: note: 12 rows are torn\n")
	require.Equal(t, 1, strings.Count(text, "torn"))
}

// A stretch that fails many limits tells the first two; one more is told rather than counted.
func TestPointTableTellsTheFirstReasons(t *testing.T) {
	require.Equal(t, "dropped: a; b; and 3 more", keptWords(reduce.TestPoint{Reason: "a; b; c; d; e"}))
	require.Equal(t, "dropped: a; b; c", keptWords(reduce.TestPoint{Reason: "a; b; c"}))
	require.Equal(t, "kept", keptWords(reduce.TestPoint{Kept: true}))
}
