package program

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoCards are a glide and a turn of a flight to come.
func twoCards() []Card {
	bank := -30 * math.Pi / 180
	levels := map[string]string{"winglet": "mid", "foreplane": "standard"}
	return []Card{
		{Name: "F91 glide", Flight: "F91", Manoeuvre: "glide", Speed: 20.5, SpeedTolerance: 0.06, Repeats: 1, Levels: levels, Notes: "CG 905 mm, \"forward\""},
		{Name: "F91 turn", Flight: "F91", Manoeuvre: "turn", Speed: 30, SpeedTolerance: 0.10, Bank: &bank, Repeats: 2, Levels: levels},
	}
}

func requireCards(t *testing.T, dir string, want []Card) {
	t.Helper()
	p, err := Load(dir)
	require.NoError(t, err)
	n := len(p.Cards) - len(want)
	require.GreaterOrEqual(t, n, 0)
	for i, c := range p.Cards[n:] {
		require.True(t, c.alike(want[i]), "%+v is not %+v", c, want[i])
	}
}

// A table that is not there is made; the same again writes nothing.
func TestAddCardsRoundTrip(t *testing.T) {
	dir := build(t, sandreed())
	n, err := AddCards(dir, twoCards())
	require.NoError(t, err)
	require.Equal(t, 2, n)
	requireCards(t, dir, twoCards())
	before, err := os.ReadFile(filepath.Join(dir, "cards.csv"))
	require.NoError(t, err)
	require.Equal(t, `card,flight,manoeuvre,control,speed_m_s,speed_tolerance_percent,bank_deg,repeats,winglet,foreplane,notes
F91 glide,F91,glide,,20.5,6,,1,mid,standard,"CG 905 mm, ""forward"""
F91 turn,F91,turn,,30,10,-30,2,mid,standard,
`, string(before))
	n, err = AddCards(dir, twoCards())
	require.NoError(t, err)
	require.Zero(t, n)
	after, err := os.ReadFile(filepath.Join(dir, "cards.csv"))
	require.NoError(t, err)
	require.Equal(t, before, after)
}

// New rows take the dialect, the order and the units of the table; what stands there keeps every byte.
func TestAddCardsKeepsTheDialect(t *testing.T) {
	heads := "flight;card;manoeuvre;speed_kt;speed_tolerance_percent;bank_rad;repeats;Foreplane;winglet"
	for _, c := range []struct{ name, before, want string }{
		{"decimal commas, knots, radians", heads + "\r\n;old;glide;36,5;;;;;\r\n", "F91;F91 glide;glide;39,8;6;;1;standard;mid\r\nF91;F91 turn;turn;58,3;10;-0,524;2;standard;mid\r\n"},
		{"decimal points", heads + "\n;old;glide;36.5;;;;;\n;;;;;;;;\n", "F91;F91 glide;glide;39.8;6;;1;standard;mid\n"},
		{"byte-order mark", "\xef\xbb\xbf" + heads + "\n;old;glide;36.5;;;;;\n", "F91;F91 glide;glide;39.8;6;;1;standard;mid\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := sandreed()
			files["cards.csv"] = c.before
			dir := build(t, files)
			cards := twoCards()
			n, err := AddCards(dir, cards)
			require.NoError(t, err)
			require.Equal(t, 2, n)
			raw, err := os.ReadFile(filepath.Join(dir, "cards.csv"))
			require.NoError(t, err)
			require.True(t, strings.HasPrefix(string(raw), strings.TrimRight(c.before, ";\r\n")), "%q", raw)
			require.Contains(t, string(raw), c.want)
			requireCards(t, dir, cards)
		})
	}
}

// All cards or none.
func TestAddCardsRefuses(t *testing.T) {
	for _, c := range []struct{ name, table, want string }{
		{"another card of that name", "card,flight,manoeuvre,speed_m_s\nf91 TURN,F91,turn,31\n", `cards.csv: row 2 holds another card "F91 turn"`},
		{"no column for the speed", "card,flight,manoeuvre,winglet,foreplane,bank_deg,repeats\n", "cards.csv:1:1: there is no column for what the cards hold: speed_m_s, speed_tolerance_percent; add columns headed so"},
		{"a mistake in the table", "card,manoeuvre\nx,glyde\n", `cards.csv:2:3: manoeuvre "glyde" is not known`},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := build(t, sandreed())
			file := filepath.Join(dir, "cards.csv")
			require.NoError(t, os.WriteFile(file, []byte(c.table), 0o644))
			_, err := AddCards(dir, twoCards())
			require.ErrorContains(t, err, c.want)
			raw, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, c.table, string(raw))
		})
	}
}

func TestAddCardsLeavesAnOpenTableAlone(t *testing.T) {
	files := sandreed()
	files["cards.csv"] = "card,manoeuvre\nslow,glide\n"
	dir := build(t, files)
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".~lock.cards.csv#"), nil, 0o644))
	_, err := AddCards(dir, twoCards())
	var open *InUse
	require.ErrorAs(t, err, &open)
	require.Equal(t, "cards.csv", open.File)
}
