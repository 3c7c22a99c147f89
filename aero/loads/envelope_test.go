package loads

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEnvelopePicksByHand(t *testing.T) {
	lines := []Line{
		{"up", []Section{{Y: 0, Shear: 10, Bending: 40, Torsion: -3}, {Y: 2, Shear: 4, Bending: 7, Torsion: -1}}},
		{"down", []Section{{Y: 0, Shear: -5, Bending: -18, Torsion: 2}, {Y: 2, Shear: -2, Bending: -4, Torsion: -1}}},
		{"roll", []Section{{Y: 0, Shear: 10, Bending: 30, Torsion: -6}, {Y: 2, Shear: 5, Bending: 9, Torsion: -4}}},
	}
	require.Equal(t, []Extreme{
		{0, Range{Peak{10, "up"}, Peak{-5, "down"}}, Range{Peak{40, "up"}, Peak{-18, "down"}}, Range{Peak{2, "down"}, Peak{-6, "roll"}}},
		{2, Range{Peak{5, "roll"}, Peak{-2, "down"}}, Range{Peak{9, "roll"}, Peak{-4, "down"}}, Range{Peak{-1, "up"}, Peak{-4, "roll"}}},
	}, Envelope(lines), "of equal shears at the root the first condition is named")
	require.Equal(t, Peak{-6, "roll"}, Envelope(lines)[0].Torsion.Greatest())
	require.Equal(t, Peak{40, "up"}, Envelope(lines)[0].Bending.Greatest())
	require.Empty(t, Envelope(nil))
}

func TestRoundOffDoesNotPickTheCondition(t *testing.T) {
	lines := []Line{{"first", []Section{{Shear: 5000}}}, {"second", []Section{{Shear: 5000 + 1e-9}}}, {"third", []Section{{Shear: 5000 - 1e-9}}}}
	require.Equal(t, Range{Peak{5000, "first"}, Peak{5000, "first"}}, Envelope(lines)[0].Shear)
	lines = append(lines, Line{"endless", []Section{{Shear: math.Inf(1)}}}, Line{"endless too", []Section{{Shear: math.Inf(1)}}})
	require.Equal(t, Range{Peak{math.Inf(1), "endless"}, Peak{5000, "first"}}, Envelope(lines)[0].Shear)
	// Nothing lies outboard of the end, though ten tenths do not add up to one.
	for _, s := range AlongUpright(inboardWinglet(), "winglet", []float64{1 - 1e-12, 1, 1 + 1e-12}) {
		require.Zero(t, s.Shear)
	}
}

func TestEnvelopeOfUnlikeStations(t *testing.T) {
	e := Envelope([]Line{{"a", []Section{{Y: 1, Shear: -1}}}, {"b", []Section{{Y: 0, Shear: -7}}}})
	require.Equal(t, []float64{0, 1}, []float64{e[0].Y, e[1].Y})
	require.Equal(t, Range{Peak{-7, "b"}, Peak{-7, "b"}}, e[0].Shear)
	require.Equal(t, Range{Peak{-1, "a"}, Peak{-1, "a"}}, e[1].Shear)
}

func TestEnvelopeShowsWhatIsNoNumber(t *testing.T) {
	section := func(shear float64) []Section { return []Section{{Shear: shear}} }
	for _, lines := range [][]Line{
		{{"good", section(5)}, {"broken", section(math.NaN())}, {"heavy", section(9)}},
		{{"broken", section(math.NaN())}, {"heavy", section(9)}},
	} {
		shear := Envelope(lines)[0].Shear
		require.True(t, math.IsNaN(shear.Highest.Value) && math.IsNaN(shear.Lowest.Value))
		require.Equal(t, "broken", shear.Highest.Condition)
		require.True(t, math.IsNaN(shear.Greatest().Value))
	}
}

func TestEnvelopeBoundsEveryLineAndIsReached(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := rapid.Float64Range(-1e4, 1e4)
		lines := make([]Line, rapid.IntRange(1, 6).Draw(t, "lines"))
		for i := range lines {
			lines[i].Condition = fmt.Sprint("condition ", i)
			for y := range 3 {
				lines[i].Sections = append(lines[i].Sections, Section{Y: float64(y), Shear: load.Draw(t, "shear"), Bending: load.Draw(t, "bending"), Torsion: load.Draw(t, "torsion")})
			}
		}
		for i, e := range Envelope(lines) {
			reached := map[string]int{}
			for _, line := range lines {
				s := line.Sections[i]
				for name, pair := range map[string]struct {
					r Range
					v float64
				}{"shear": {e.Shear, s.Shear}, "bending": {e.Bending, s.Bending}, "torsion": {e.Torsion, s.Torsion}} {
					require.GreaterOrEqual(t, pair.r.Highest.Value, pair.v-1e-5) // 1e-9 of the greatest load drawn
					require.LessOrEqual(t, pair.r.Lowest.Value, pair.v+1e-5)
					if pair.r.Highest == (Peak{pair.v, line.Condition}) {
						reached[name]++
					}
					if pair.r.Lowest == (Peak{pair.v, line.Condition}) {
						reached[name]++
					}
				}
			}
			require.Equal(t, map[string]int{"shear": 2, "bending": 2, "torsion": 2}, reached)
		}
	})
}

func TestRatios(t *testing.T) {
	envelope := Envelope([]Line{
		{"up", []Section{{Y: 0, Shear: 100, Bending: 800}, {Y: 1, Shear: 60, Bending: 300}, {Y: 2, Shear: 20, Bending: 90}, {Y: 3}}},
		{"down", []Section{{Y: 0, Shear: -40, Bending: -300}, {Y: 1, Shear: -30, Bending: -330}, {Y: 2, Bending: -20}, {Y: 3}}},
	})
	ratios, err := Ratios(envelope, []Allowable{{Y: 0, Shear: 200, Bending: 1000}, {Y: 1.5, Bending: 400}, {Y: 2, Bending: 100}})
	require.NoError(t, err)
	require.Len(t, ratios, 3, "outside the table nothing is said")
	require.Equal(t, Peak{0.5, "up"}, ratios[0].Shear)
	require.Equal(t, Peak{0.8, "up"}, ratios[0].Bending)
	require.Equal(t, Peak{330.0 / 600, "down"}, ratios[1].Bending, "two thirds of the way from 1000 to 400")
	require.Equal(t, Peak{0.9, "up"}, ratios[2].Bending)
	for _, p := range []Peak{ratios[0].Torsion, ratios[1].Shear, ratios[2].Shear} {
		require.True(t, math.IsNaN(p.Value) && p.Condition == "", "not stated")
	}
}

func TestRatiosRefuseABrokenTable(t *testing.T) {
	for want, table := range map[string][]Allowable{
		"is empty": nil,
		"station 2 of the part's table, y = 1 m, does not lie outboard":  {{Y: 1}, {Y: 1}},
		"an allowable at y = 2 m is negative or no number; give sizes, ": {{Y: 2, Bending: -1}},
	} {
		_, err := Ratios(nil, table)
		require.ErrorContains(t, err, want)
	}
}

func ExampleEnvelope() {
	spar := Beam{Surfaces: []string{"wing"}, Stations: []float64{0, 2}}
	var lines []Line
	for _, n := range []float64{3.8, -1.52} {
		c := Condition{Name: fmt.Sprintf("load factor %.2f", n), LoadFactor: n, Speed: 60}
		flown, err := spar.Lines(Flown{Condition: c, Right: evenWing(8, 4, func(float64) float64 { return 0.1 * n })})
		if err != nil {
			fmt.Println(err)
			return
		}
		lines = append(lines, flown...)
	}
	for _, e := range Envelope(lines) {
		fmt.Printf("y = %.0f m: %.0f N·m (%s) to %.0f N·m (%s)\n", e.Y, e.Bending.Lowest.Value, e.Bending.Lowest.Condition, e.Bending.Highest.Value, e.Bending.Highest.Condition)
	}
	// Output:
	// y = 0 m: -2681 N·m (load factor -1.52) to 6703 N·m (load factor 3.80)
	// y = 2 m: -670 N·m (load factor -1.52) to 1676 N·m (load factor 3.80)
}
