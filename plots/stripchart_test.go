package plots_test

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

// longStrip is twenty minutes at 100 Hz in six panels, with one sample out of place.
func longStrip() plots.StripChartData {
	d := plots.StripChartData{Title: "long.csv"}
	for k := range 6 {
		s := stripSeries("", 0, 1200, 0.01, func(t float64) float64 { return 20 + 5*math.Sin(t/(20+float64(k))) + 0.5*math.Sin(311*t) })
		if k == 0 {
			s.Value[60000] = 33
		}
		d.Panels = append(d.Panels, plots.StripPanel{Name: "airspeed", Unit: "m/s", Series: []plots.StripSeries{s}})
	}
	for i := range 60 {
		t := float64(20 * i)
		d.Points = append(d.Points, plots.StripPoint{From: t, To: t + 8, Kept: i%3 > 0})
		d.Manoeuvres = append(d.Manoeuvres, plots.StripManoeuvre{From: t, To: t + 9, Name: "glide"})
	}
	return d
}

// One sample of 120,000 shows, and the drawing stays small however many there are.
func TestStripChartHidesNoSample(t *testing.T) {
	with, err := plots.StripChart(longStrip())
	require.NoError(t, err)
	d := longStrip()
	d.Panels[0].Series[0].Value[60000] = 20
	without, err := plots.StripChart(d)
	require.NoError(t, err)
	require.NotEqual(t, with.SVG, without.SVG)
	require.NotEqual(t, with.Narrow, without.Narrow)
	require.Less(t, len(with.SVG), 500_000)
	for _, svg := range [][]byte{with.SVG, with.Narrow} {
		requireTidy(t, read(t, svg))
	}
}

// A spike does not crush the rest: it stands at the edge, and in words.
func TestStripChartTellsOfSpikes(t *testing.T) {
	f, err := plots.StripChart(longStrip())
	require.NoError(t, err)
	require.NotContains(t, read(t, f.SVG).text(), "single values")
	d := longStrip()
	d.Panels[0].Series[0].Value[60000] = -4000
	f, err = plots.StripChart(d)
	require.NoError(t, err)
	require.Contains(t, read(t, f.SVG).text(), "single values down to −4000.0")
	require.Contains(t, f.Alt, "airspeed: −4000.0 to")
}

func TestStripChartOfBrokenData(t *testing.T) {
	_, err := plots.StripChart(plots.StripChartData{})
	require.ErrorIs(t, err, plots.ErrNoData)
	_, err = plots.StripChartPNG(plots.StripChartData{Title: "x", Panels: []plots.StripPanel{{Name: "a", Series: []plots.StripSeries{{Time: []float64{1}, Value: []float64{2}}}}}})
	require.ErrorIs(t, err, plots.ErrNoData)
	for want, change := range map[string]func(*plots.StripChartData){
		`panel "airspeed": 2 times and 1 values`: func(d *plots.StripChartData) {
			d.Panels[0].Series[0] = plots.StripSeries{Time: []float64{1, 2}, Value: []float64{1}}
		},
		`panel "airspeed": time number 2 does not rise`:                func(d *plots.StripChartData) { d.Panels[0].Series[0].Time[1] = 0 },
		`panel "attitude" has 3 series, and a strip holds two at most`: func(d *plots.StripChartData) { d.Panels[2].Series = append(d.Panels[2].Series, d.Panels[2].Series[0]) },
		"a test point from NaN to 38 s":                                func(d *plots.StripChartData) { d.Points[1].From = math.NaN() },
	} {
		d := stripData()
		change(&d)
		_, err := plots.StripChart(d)
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "plots: monday.csv: ")
	}
	d := stripData() // holes, infinities and names of any kind are drawn around
	for i := range d.Panels[1].Series[0].Value {
		d.Panels[1].Series[0].Value[i] = math.NaN()
	}
	d.Panels[0].Series[0].Value[7] = math.Inf(1)
	d.Manoeuvres[0].Name, d.Panels[0].Name = `</text>"&`+strings.Repeat("endless", 40), strings.Repeat("endless", 40)
	d.Manoeuvres[1].From = math.NaN()
	f, err := plots.StripChart(d)
	require.NoError(t, err)
	requireTidy(t, read(t, f.SVG))
	requireTidy(t, read(t, f.Narrow))
	require.False(t, strings.Contains(string(f.SVG), "NaN"))
}

// The picture holds what the drawing holds: twice as wide in dots, not empty, and the same each time.
func TestStripChartPNG(t *testing.T) {
	raw, err := plots.StripChartPNG(stripData())
	require.NoError(t, err)
	again, err := plots.StripChartPNG(stripData())
	require.NoError(t, err)
	require.True(t, bytes.Equal(raw, again))
	picture, err := png.Decode(bytes.NewReader(raw))
	require.NoError(t, err)
	require.Equal(t, 1100, picture.Bounds().Dx(), "five dots for three of the 660 units")
	dark := 0
	for y := range picture.Bounds().Dy() {
		for x := range picture.Bounds().Dx() {
			if r, _, _, _ := picture.At(x, y).RGBA(); r < 0x4000 {
				dark++
			}
		}
	}
	require.Greater(t, dark, 5000)
	if dir := os.Getenv("STRIP_PICTURES"); dir != "" {
		require.NoError(t, os.WriteFile(dir+"/small.png", raw, 0o644))
		long, err := plots.StripChartPNG(longStrip())
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(dir+"/long.png", long, 0o644))
	}
}

// What a fit leaves has a low frame of its own, and one key above says for all panels which line is which.
func TestTimeHistoryOfAFit(t *testing.T) {
	with, err := plots.StripChart(historyData())
	require.NoError(t, err)
	for _, svg := range [][]byte{with.SVG, with.Narrow} {
		requireTidy(t, read(t, svg))
		text := read(t, svg).text()
		for _, once := range []string{"measured less fitted", "pitch rate, °/s"} {
			require.Equal(t, 1, strings.Count(text, once), once)
		}
	}
	require.Contains(t, with.Alt, "pitch rate measured less fitted: −0.8 to 0.8 °/s")
	require.NotContains(t, with.Alt, "test points")
	d := historyData()
	d.Panels[1].Left.Time = d.Panels[1].Left.Time[:7]
	_, err = plots.StripChart(d)
	require.ErrorContains(t, err, `panel "pitch rate": 7 times and 101 values`)
}

// The drawing for a page that is one of many holds the same words and hides no sample, in fewer bytes, and its label leaves the
// numbers to the words beside it.
func TestStripDrawing(t *testing.T) {
	whole, err := plots.StripChart(longStrip())
	require.NoError(t, err)
	light, alt, err := plots.StripDrawing(longStrip())
	require.NoError(t, err)
	requireTidy(t, read(t, light))
	require.Equal(t, read(t, whole.SVG).text(), read(t, light).text())
	require.Equal(t, whole.Alt, alt)
	require.Contains(t, string(light), `aria-label="long.csv"`)
	require.Less(t, len(light), 2*len(whole.SVG)/3)
	d := longStrip()
	d.Panels[0].Series[0].Value[60000] = 20
	without, _, err := plots.StripDrawing(d)
	require.NoError(t, err)
	require.NotEqual(t, light, without, "one sample of 120,000")
	again, _, err := plots.StripDrawing(longStrip())
	require.NoError(t, err)
	require.Equal(t, light, again)
	_, _, err = plots.StripDrawing(plots.StripChartData{})
	require.ErrorIs(t, err, plots.ErrNoData)
}

// Two alike samples between pauses fall into one column and one step: they are drawn as a dot all the same.
func TestStripDrawingShowsAFewSamplesBetweenPauses(t *testing.T) {
	drawn := func(extra ...float64) string {
		s := plots.StripSeries{}
		for i := range 400 {
			s.Time, s.Value = append(s.Time, 0.05*float64(i)), append(s.Value, float64(i%7))
		}
		for _, at := range extra {
			s.Time, s.Value = append(s.Time, at), append(s.Value, 3)
		}
		for i := range 400 {
			s.Time, s.Value = append(s.Time, 500+0.05*float64(i)), append(s.Value, float64(i%7))
		}
		svg, _, err := plots.StripDrawing(plots.StripChartData{Panels: []plots.StripPanel{{Name: "airspeed", Unit: "m/s", Series: []plots.StripSeries{s}}}})
		require.NoError(t, err)
		return string(svg)
	}
	strokes := func(svg string) int { return len(regexp.MustCompile(`[LlHhVv]`).FindAllString(svg, -1)) }
	require.Equal(t, strokes(drawn())+1, strokes(drawn(250)))
	require.Equal(t, strokes(drawn())+1, strokes(drawn(250, 250.05)))
}
