package plots_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

func TestJudgedFiguresSayTheirFinding(t *testing.T) {
	f, err := plots.Timeline(timelineData())
	require.NoError(t, err)
	// widths 12 and 12/(1 + 6/2) = 3: a quarter
	require.Contains(t, f.Alt, "Aft margin, foreplane small, winglet mid: theory alone 12.0 (6.0 to 18.0) % of the mean chord, with 6 flights 12.0 (10.5 to 13.5) % of the mean chord, 25 % of the width; limit: at least 5, the whole interval keeps the limit")
	require.Contains(t, f.Alt, "Spiral time to double, foreplane small, winglet mid: theory alone above 20.0 s")
	f, err = plots.Envelope(envelopeData())
	require.NoError(t, err)
	// 3.97 − 3.90 = 0.07 m; at 667 kg the trim room stands at 3.50 + 0.67·0.07 = 3.5469, 0.353 m ahead; (3.90 − 3.6)/1.2 = 25 %
	require.Contains(t, f.Alt, "light pilot: 667 (650 to 684) kg at 3.900 (3.880 to 3.920) m aft of datum, 25.0 % of the mean chord; 0.070 m ahead of aft margin; 0.353 m behind trim room")
	f, err = plots.ModesPlane(modesPlaneData())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "foreplane small, winglet mid: damping ratio, pure number 0.050 (0.030 to 0.070), undamped frequency, rad/s 2.50 (2.30 to 2.70): Level 2")
	f, err = plots.Contrasts(contrastData())
	require.NoError(t, err)
	// 62 of the 100 − 69 = 31 that mid has
	require.Contains(t, f.Alt, "Tall costs most at load on the main spar: 200 % of the room that mid has")
	require.Contains(t, f.Alt, "tall: +62.0 (+52.0 to +72.0) %, costs room; limit kept under 1 % sure")
	require.Contains(t, f.Alt, "small: −1.0 (−5.0 to +3.0) %, no difference shown")
}

// A CG beyond a limit is told as such, and so is a loading that breaks it in the picture's words.
func TestALoadingOutsideALimitIsSaid(t *testing.T) {
	d := envelopeData()
	d.Loadings[0].CG = *at(4.02, 4.0, 4.04)
	f, err := plots.Envelope(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "0.050 m behind aft margin, outside it")
	d.Limits[1].CG = []float64{3.8, 3.8, 3.8, 3.8, 3.8}
	f, err = plots.Envelope(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "two aboard: 900 (882 to 918) kg at 3.720 (3.710 to 3.730) m aft of datum, 10.0 % of the mean chord; 0.250 m ahead of aft margin; 0.080 m ahead of trim room, outside it")
}

// Every number that is drawn can be pointed at in both layouts.
func TestJudgedFiguresCanBePointedAt(t *testing.T) {
	for name, want := range map[string]string{
		"timeline":    "foreplane large, winglet mid, 4 flights: 7.5 (5.5 to 9.5) % of the mean chord",
		"envelope":    "foreplane small, winglet mid: neutral point 4.100 (4.050 to 4.150) m, 41.7 % of the mean chord",
		"modes-plane": "foreplane large, winglet mid: load factor per angle of attack, g per radian 11.0 (9.0 to 13.0), undamped frequency, rad/s 5.2 (4.6 to 5.8): Level 1",
		"contrasts":   "tall, load on the main spar: +62.0 (+52.0 to +72.0) %, costs room",
	} {
		for _, k := range judgedKinds() {
			if k.name != name {
				continue
			}
			f, err := k.draw()
			require.NoError(t, err)
			for _, points := range [][]plots.Point{f.Points, f.NarrowPoints} {
				var said []string
				for _, p := range points {
					said = append(said, p.Text)
				}
				require.Contains(t, said, want)
			}
		}
	}
}

func TestHostileNamesInJudgedFiguresStayInsideTheFrame(t *testing.T) {
	hostile := `</text><script>alert(1)</script> & "quoted" ` + strings.Repeat("verylongword", 30) + " \x00\x07\ufffe \u202etxet"
	timeline, envelope, modes, contrasts := timelineData(), envelopeData(), modesPlaneData(), contrastData()
	timeline.Note, timeline.Panels[0].Name, timeline.Panels[1].Where, timeline.Panels[0].Series[1].Name, timeline.Panels[2].Unit = hostile, hostile, hostile, hostile, hostile
	envelope.Loadings[0].Name, envelope.Limits[0].Name, envelope.Rows[0].Configuration, envelope.Note = hostile, hostile, hostile, hostile
	modes.Panels[0].Places[0].Name, modes.Panels[1].Places[1].Name, modes.Panels[0].Lacking, modes.Panels[0].Boundaries[0].Level, modes.Panels[1].Y = hostile, hostile, hostile, hostile, hostile
	contrasts.Choice, contrasts.Baseline, contrasts.Limits[0].Name, contrasts.Limits[0].Levels[0].Level, contrasts.Limits[1].Levels[1].Holds = hostile, hostile, hostile, hostile, hostile
	for name, draw := range map[string]func() (plots.Figure, error){
		"timeline": func() (plots.Figure, error) { return plots.Timeline(timeline) }, "envelope": func() (plots.Figure, error) { return plots.Envelope(envelope) },
		"modes": func() (plots.Figure, error) { return plots.ModesPlane(modes) }, "contrasts": func() (plots.Figure, error) { return plots.Contrasts(contrasts) },
	} {
		t.Run(name, func(t *testing.T) {
			f, err := draw()
			require.NoError(t, err)
			for _, svg := range [][]byte{f.SVG, f.Narrow} {
				requireTidy(t, read(t, svg))
				require.NotContains(t, string(svg), "<script")
			}
		})
	}
}

// Many configurations whose places lie on top of one another still have names of their own.
func TestCrowdedPlacesKeepTheirNames(t *testing.T) {
	d := modesPlaneData()
	for i := range 9 {
		place := d.Panels[1].Places[0]
		place.Name, place.X = "size "+strings.Repeat("i", i+1), *at(0.05+0.001*float64(i), 0.03, 0.07)
		d.Panels[1].Places = append(d.Panels[1].Places, place)
	}
	f, err := plots.ModesPlane(d)
	require.NoError(t, err)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		for i := range 9 {
			require.Contains(t, r.text(), "size "+strings.Repeat("i", i+1)+" ")
		}
	}
}

func TestEmptyAndBrokenJudgedDataAreErrors(t *testing.T) {
	for name, draw := range map[string]func() (plots.Figure, error){
		"timeline": func() (plots.Figure, error) { return plots.Timeline(plots.TimelineData{}) },
		"a panel without a series": func() (plots.Figure, error) {
			return plots.Timeline(plots.TimelineData{Panels: []plots.TimelinePanel{{}}})
		},
		"envelope":    func() (plots.Figure, error) { return plots.Envelope(plots.EnvelopeData{}) },
		"modes plane": func() (plots.Figure, error) { return plots.ModesPlane(plots.ModesPlaneData{}) },
		"contrasts":   func() (plots.Figure, error) { return plots.Contrasts(plots.ContrastsData{}) },
		"a limit without any level": func() (plots.Figure, error) {
			return plots.Contrasts(plots.ContrastsData{Limits: []plots.ContrastLimit{{}}})
		},
	} {
		_, err := draw()
		require.ErrorIs(t, err, plots.ErrNoData, name)
	}
	timeline := timelineData()
	timeline.Panels[0].Series[0].Flights[1] = 0
	_, err := plots.Timeline(timeline)
	require.ErrorContains(t, err, "plots: What the flights told, flight by flight: aft margin: foreplane small, winglet mid: 0 flights at number 2; want rising numbers from 0 to 6")
	envelope := envelopeData()
	envelope.Loadings[1].Mass.Value = math.NaN()
	_, err = plots.Envelope(envelope)
	require.ErrorContains(t, err, `loading "two aboard": a mass and a CG are needed`)
	modes := modesPlaneData()
	modes.Panels[0].Places[0].X = *at(0, -1, 1)
	_, err = plots.ModesPlane(modes)
	require.ErrorContains(t, err, "Short period: foreplane small, winglet mid: value 0; want a number that the frame can hold")
	contrasts := contrastData()
	contrasts.Limits[0].Baseline = math.Inf(1)
	_, err = plots.Contrasts(contrasts)
	require.ErrorContains(t, err, "directional: baseline +Inf, limit 0.024; want finite numbers")
}
