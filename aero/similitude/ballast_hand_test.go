package similitude

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// figure is a number of a hand-worked sheet, and half of its last printed digit.
type figure struct{ value, half float64 }

// handFigures reads lines "name = figure  # how" of a hand-worked sheet.
func handFigures(t *testing.T, file string) map[string]figure {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	out := map[string]figure{}
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		text, _, _ := strings.Cut(lines.Text(), "#")
		name, number, ok := strings.Cut(text, "=")
		if !ok {
			continue
		}
		number = strings.TrimSpace(number)
		value, err := strconv.ParseFloat(number, 64)
		require.NoError(t, err, lines.Text())
		_, decimals, _ := strings.Cut(number, ".")
		out[strings.TrimSpace(name)] = figure{value, 0.51 * math.Pow10(-len(decimals))}
	}
	require.NoError(t, lines.Err())
	return out
}

func TestBallastByHand(t *testing.T) {
	hand := handFigures(t, "../../testdata/hand/ballast.txt")
	v := func(name string) float64 {
		require.Contains(t, hand, name)
		return hand[name].value
	}
	same := func(name string, got float64) {
		t.Helper()
		require.Contains(t, hand, name)
		require.InDelta(t, hand[name].value, got, math.Min(hand[name].half, 1e-4), name)
	}
	sheet, err := NewSheet(v("length_ratio"), FullSize{Mass: v("full_mass"), Iy: v("full_iy"), CG: &Place{X: v("full_cg_x")}, Speeds: []Speed{{"cruise", v("full_cruise")}}}, 0, 0,
		&Weighed{Mass: v("now_mass"), Iy: v("now_iy"), CG: &Place{X: v("now_cg_x")}})
	require.NoError(t, err)
	same("target_mass", sheet.Rows[0].Target)
	same("target_iy", sheet.Rows[1].Target)
	same("target_cg_x", sheet.CG[0].Target)
	same("target_cruise", sheet.Speeds[0].ModelTrue)
	same("mass_departure_percent", *sheet.Rows[0].Departure)
	same("iy_departure_percent", *sheet.Rows[1].Departure)
	require.Contains(t, sheet.Rows[1].Spoils, strconv.FormatFloat(-v("short_period_percent"), 'f', 1, 64)+" % shorter")

	task := Ballasting{
		Now:    Body{Mass: v("now_mass"), CG: Place{v("now_cg_x"), v("now_cg_z")}, Iy: v("now_iy")},
		Target: Body{Mass: v("target_mass"), CG: Place{X: v("target_cg_x")}, Iy: v("target_iy")},
		Asked:  Asked{Iy: true},
		Bays:   []Bay{{"nose", v("nose_x"), v("nose_x"), 0, v("nose_z"), 1}, {"tail", v("tail_x"), v("tail_x"), 0, v("tail_z"), 1}},
	}
	p, err := Propose(task)
	require.NoError(t, err)
	require.True(t, p.Met)
	require.Empty(t, p.Full)
	require.Empty(t, p.Advice)
	same("wanted_mass", p.WantedMass)
	same("wanted_x", *p.WantedX)
	same("nose_mass", p.Lumps[0].Mass)
	same("tail_mass", p.Lumps[1].Mass)
	same("after_cg_z", p.Body.CG.Z)
	same("after_iy", p.Body.Iy)
	same("iy_left_percent", *p.Rows[2].Percent)
	require.InDelta(t, v("after_iy"), v("now_iy")+v("model_about_cg")+v("nose_about_cg")+v("tail_about_cg"), 1.1e-8)

	task.Bays[1].Most = v("short_tail_most")
	p, err = Propose(task)
	require.NoError(t, err)
	require.False(t, p.Met)
	require.Equal(t, []string{"tail"}, p.Full)
	same("short_nose_mass", p.Lumps[0].Unround)
	same("short_mass_left", p.Rows[0].Exact-v("target_mass"))
	require.InDelta(t, v("short_nose_mass"), p.Lumps[0].Mass, 0.005, "a kitchen scale does 5 g")
	require.Contains(t, strings.Join(p.Advice, "\n"), "with room for 0.75 kg in bay tail it comes out")

	wing := Body{Mass: 1}.with([]spot{{y: v("sides_y")}}, []float64{v("sides_mass")})
	same("sides_ix", wing.Ix)
	same("sides_ix", wing.Iz)
}
