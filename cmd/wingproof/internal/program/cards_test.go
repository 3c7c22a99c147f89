package program

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const plan = `card,flight,manoeuvre,control,speed_kt,speed_tolerance_percent,bank_deg,repeats,winglet,foreplane,notes
slow glide,,glide,,36,8,,3,,,hold ten seconds
nose doublet,F01,Doublet,Elevator,,,,,mid,,
right turn,,turn,,,,30,,small,,
`

// A cell that is empty takes its default, a level that is empty may be any, and names are written as their own tables write them.
func TestReadCards(t *testing.T) {
	files := sandreed()
	files["cards.csv"] = plan
	p, err := Load(build(t, files))
	require.NoError(t, err)
	bank := *p.Cards[2].Bank
	require.InDelta(t, math.Pi/6, bank, 1e-15)
	require.InDelta(t, 36*1852.0/3600, p.Cards[0].Speed, 1e-12)
	require.Equal(t, []Card{
		{Name: "slow glide", Manoeuvre: "glide", Speed: p.Cards[0].Speed, SpeedTolerance: 0.08, Repeats: 3, Levels: map[string]string{}, Notes: "hold ten seconds", Row: 2},
		{Name: "nose doublet", Flight: "f01", Manoeuvre: "doublet", Control: "elevator", SpeedTolerance: 0.10, Repeats: 1, Levels: map[string]string{"winglet": "mid"}, Row: 3},
		{Name: "right turn", Manoeuvre: "turn", SpeedTolerance: 0.10, Bank: &bank, Repeats: 1, Levels: map[string]string{"winglet": "small"}, Row: 4},
	}, p.Cards)
	require.Contains(t, p.Inputs, "cards.csv")
	for _, line := range p.Missing {
		require.NotContains(t, line, "cards.csv")
	}
}

// Cards are written before the flight: an unknown flight is a doubt.
func TestACardMayBeForAFlightToCome(t *testing.T) {
	files := sandreed()
	files["cards.csv"] = "card,flight,manoeuvre\nslow glide,f91,glide\n"
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Equal(t, "f91", p.Cards[0].Flight)
	require.Contains(t, p.Warnings, `cards.csv: card "slow glide" is for flight "f91", which flights.csv does not name (yet)`)
}

// A plan of many cards is one line of warning.
func TestCardsForFlightsToComeAreOneWarning(t *testing.T) {
	files := sandreed()
	files["cards.csv"] = "card,flight,manoeuvre\nslow glide,f91,glide\nfast glide,f91,glide\nlevel,f92,level\nturn,f01,turn\n"
	p, err := Load(build(t, files))
	require.NoError(t, err)
	var told []string
	for _, w := range p.Warnings {
		if strings.HasPrefix(w, "cards.csv") {
			told = append(told, w)
		}
	}
	require.Equal(t, []string{"cards.csv: 3 cards are for flights f91, f92, which flights.csv does not name (yet)"}, told)
}

func TestMistakesInCards(t *testing.T) {
	for _, s := range []slip{
		{"card without a name", "", "slow glide,", "‸,", `card is empty; write a name for this card, such as slow glide (row 2, column A "card")`},
		{"card twice", "", "right turn,", "‸Slow Glide,", `the card "Slow Glide" already stands in row 2; give each card a name of its own (row 4, column A "card")`},
		{"unknown manoeuvre", "", ",glide,", ",‸glyde,", `manoeuvre "glyde" is not known; did you mean "glide"? (row 2, column C "manoeuvre")`},
		{"no manoeuvre", "", ",glide,", ",‸,", `manoeuvre is empty; write "level", "climb", "glide", "turn", "circle", "deceleration", "doublet", "multistep", "pull_up", "sideslip" or "steady" (row 2, column C "manoeuvre")`},
		{"doublet of nothing", "", "Doublet,Elevator", "Doublet,‸", `a doublet does not say which control it moves; write "elevator", "aileron" or "rudder" (row 3, column D "control")`},
		{"doublet of the throttle", "", "Doublet,Elevator", "Doublet,‸throttle", `control "throttle" is not known; write "elevator", "aileron" or "rudder" (row 3, column D "control")`},
		{"glide with a control", "", "glide,,36", "glide,‸rudder,36", `"rudder" has no place here: only a doublet or a multistep is flown with one control; empty the cell (row 2, column D "control")`},
		{"speed without its unit", "", "control,speed_kt", "control,‸speed", `"speed" does not say its unit; write speed_kt; units of speed are ft_s, km_h, kt, m_s, mph (column E)`},
		{"speed of nothing", "", "glide,,36", "glide,,‸0", `speed_kt = 0 is out of range; write more than 0 and at most 291.577 kt (row 2, column E "speed_kt")`},
		{"tolerance", "", ",36,8,", ",36,‸80,", `speed_tolerance_percent = 80 is out of range; write more than 0 and at most 50 percent (row 2, column F "speed_tolerance_percent")`},
		{"bank", "", ",,,30,", ",,,‸100,", `bank_deg = 100 is out of range; write at least -85 and at most 85 deg (row 4, column G "bank_deg")`},
		{"half a repeat", "", ",8,,3,", ",8,,‸2.5,", `repeats = 2.5 is not a whole number; write how many such manoeuvres the flight must hold, such as 2 (row 2, column H "repeats")`},
		{"no repeat", "", ",8,,3,", ",8,,‸0,", `repeats = 0 is out of range; write at least 1 and at most 100 (row 2, column H "repeats")`},
		{"unknown level", "", ",small,", ",‸smal,", `level "smal" is not known; did you mean "small"? (row 4, column I "winglet")`},
		{"level that the flight did not fly", "", "F01,Doublet,Elevator,,,,,mid", "F01,Doublet,Elevator,,,,,‸tall", `flight "f01" flew winglet mid, not tall; correct the level or the flight, or empty one of the two cells (row 3, column I "winglet")`},
		{"unknown head", "", ",notes", ",‸remark", `no column of this table is called "remark"; heads here are card, flight, manoeuvre, control, speed_kt, speed_tolerance_percent, bank_deg, repeats, notes, winglet, foreplane (column K)`},
	} {
		t.Run(s.name, func(t *testing.T) {
			files := sandreed()
			files["cards.csv"] = plan
			s.file = "cards.csv"
			requireSlipIn(t, files, s)
		})
	}
}
