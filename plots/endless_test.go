package plots_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

// endlessContrasts have a baseline without a number, and a level without one against a baseline that has room.
func endlessContrasts() plots.ContrastsData {
	d := contrastData()
	d.Limits = append(d.Limits,
		plots.ContrastLimit{Name: "spiral", Unit: "s", Bound: plots.Limit{Value: 8, AtLeast: true}, Words: "endless (above 40 s)", Holds: "over 99.9 % sure", Baseline: math.Inf(1), Levels: []plots.ContrastLevel{
			{Level: "small", Words: "endless", Difference: plots.NotDetermined(), Holds: "over 99.9 % sure"}, {Level: "tall", Words: "12 (9 to 15) s", Difference: *at(-988, -991, -985), Holds: "98.0 % sure"}}},
		plots.ContrastLimit{Name: "rotation", Unit: "kt", Bound: plots.Limit{Value: 60}, Baseline: 50, Levels: []plots.ContrastLevel{
			{Level: "small", Words: "not reached (above 70 kt)", Difference: *at(900, 800, 1000), Holds: "under 1 % sure"}, {Level: "tall", Difference: *at(2, 1, 3)}}})
	return d
}

// What has no number stands in words and takes no share of a room; the others keep the scale that they would have without it.
func TestContrastsWithoutANumberStandInWords(t *testing.T) {
	f, err := plots.Contrasts(endlessContrasts())
	require.NoError(t, err)
	require.Contains(t, f.Alt, "Spiral, mid: endless (above 40 s), so there is no room to take shares of; limit: at least 8 s; over 99.9 % sure. small: endless; limit kept over 99.9 % sure. tall: 12 (9 to 15) s; limit kept 98.0 % sure.")
	require.Contains(t, f.Alt, "small: not reached (above 70 kt); limit kept under 1 % sure. tall: +2.0 (+1.0 to +3.0) kt, costs room")
	require.Contains(t, f.Alt, "Tall costs most at load on the main spar: 200 %")
	require.NotRegexp(t, `988|\+900|NaN|Inf`, f.Alt)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		r := read(t, svg)
		requireTidy(t, r)
		for _, words := range []string{"12 (9 to 15) s", "not reached (above 70 kt)", "mid: endless (above 40 s)"} {
			require.Contains(t, strings.Join(strings.Fields(r.text()), " "), words)
		}
	}
	for _, points := range [][]plots.Point{f.Points, f.NarrowPoints} {
		var said []string
		for _, p := range points {
			said = append(said, p.Text)
			require.False(t, strings.HasPrefix(p.Text, "spiral: limit"), "without room there is no place for it")
		}
		require.Contains(t, said, "tall, spiral: 12 (9 to 15) s")
	}
}

// A number that is endless before and after any flight has a frame with its limit, arrows at the top and a word for it.
func TestTimelineOfAnEndlessNumber(t *testing.T) {
	end := math.Inf(1)
	d := plots.TimelineData{Flights: 2, Panels: []plots.TimelinePanel{
		{Name: "spiral time to double", Unit: "s", Limits: []plots.Limit{{Value: 8, AtLeast: true}}, Series: []plots.TimelineSeries{{Name: "winglet mid", Flights: []int{0, 2},
			Interval: []plots.Interval{{Value: math.NaN(), Low: end, High: end}, {Value: math.NaN(), Low: end, High: end}}}}},
		{Name: "rotation speed", Unit: "kt", None: "not reached", Limits: []plots.Limit{{Value: 60}}, Series: []plots.TimelineSeries{{Name: "winglet mid", Flights: []int{0, 2},
			Interval: []plots.Interval{{Value: math.NaN(), Low: end, High: end}, *at(50, 45, 55)}}}}}}
	f, err := plots.Timeline(d)
	require.NoError(t, err)
	require.Contains(t, f.Alt, "Spiral time to double, winglet mid: theory alone endless, with 2 flights endless; limit: at least 8, the whole interval keeps the limit.")
	require.Contains(t, f.Alt, "Rotation speed, winglet mid: theory alone not reached, with 2 flights 50 (45 to 55) kt; limit: at most 60")
	require.NotRegexp(t, `NaN|Inf`, f.Alt)
	for _, svg := range [][]byte{f.SVG, f.Narrow} {
		requireTidy(t, read(t, svg))
		require.NotContains(t, string(svg), "NaN")
	}
	var said []string
	for _, p := range f.Points {
		said = append(said, p.Text)
	}
	require.Contains(t, said, "winglet mid, theory alone: not reached")
}
