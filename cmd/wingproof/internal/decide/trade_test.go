package decide

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// tradeProblem is a shop before the first flight: the wing panel is final and its spar laid up, winglet
// (small or mid; the spar carries both) and foreplane are open, model errors are the default ones. The
// neutral point of every combination is moved by shift metres aft.
func tradeProblem(shift float64) Problem {
	p := testProblem()
	p.Choices[0].Levels = []string{"small", "mid"}
	p.Predictions, p.Errors = testPredictions(p.Choices), DefaultErrors(testChord, p.Choices)
	p.Limits[2].AtLeast = at(0.030)
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.NeutralPoint] += shift
	}
	p.Parts = []Part{
		makePart("main spar", stageLaidUp, "", none, none),
		makePart("wing panel", stageMould, "", none, none),
		makePart("winglet mould", stageDrawn, "", "winglet", "directional;signoff:flutter_and_mass_balance"),
		makePart("winglet mould, other side", stageMould, "winglet=mid", "winglet", "directional;signoff:flutter_and_mass_balance"),
		makePart("foreplane mould", stageDrawn, "", "foreplane", "aft margin;signoff:flutter_and_mass_balance"),
		makePart("foreplane mould, second", stagePlug, "foreplane=long", "foreplane", "aft margin;signoff:flutter_and_mass_balance"),
		makePart("strake tank skin", stageDrawn, "", none, "aft margin;nose-up room;fuel travel"),
	}
	return p
}

// The wing panel is fixed and its spar laid up; winglet and foreplane are open. Their moulds wait, and stop
// once they are under way; the panel goes on.
func TestMouldsWaitForTheirChoices(t *testing.T) {
	v := mustJudge(t, tradeProblem(0))
	for _, choice := range v.Choices {
		require.Equal(t, Open, choice.State)
	}
	for _, want := range []struct{ part, status, action, reason string }{
		{"main spar", Frozen, CarryOn, "no undecided question touches this part"},
		{"wing panel", Frozen, CarryOn, "no undecided question touches this part"},
		{"winglet mould", Pending, Wait, "waits for the winglet: small and mid are both still possible"},
		{"winglet mould, other side", Pending, StopAndAsk, "waits for the winglet: small and mid are both still possible"},
		{"foreplane mould", Pending, Wait, "waits for the foreplane: short and long are both still possible"},
		{"foreplane mould, second", Pending, StopAndAsk, "waits for the foreplane: short and long are both still possible"},
	} {
		row := rowOf(t, v, want.part)
		require.Equal(t, [3]string{want.status, want.action, want.reason}, [3]string{row.Status, row.Action, row.Reasons[0]}, want.part)
	}
}

// The tank skin hangs on the choices only through the neutral point. Where its limits hold in every
// combination still possible it may start before the first flight; where the lattice puts the neutral point
// nearer to a bound, on either side, it waits and the limit is named.
//
// By hand, in percent of the chord: the default errors of the neutral point are √(2² + 0.8² + 0.3² + 0.2² +
// 0.5² + 1² + 0.5²) = 2.504. Forward: margin 100·(4.115 − 4.0324)/1.2 = 6.89 with the CG's 100·0.010·600/695/1.2
// = 0.72, so (6.89 − 5)/2.605 = 0.724 standard deviations, 76.5 %. Aft: 100·(4.47 − 4.0122)/1.2 = 38.15 with
// 0.61, so (40 − 38.15)/2.577 = 0.718, 76.4 %.
func TestStrakeTankSkinByTheGeometryAlone(t *testing.T) {
	const skin = "strake tank skin"
	cases := []struct {
		name           string
		shift          float64
		status, action string
		reason, flight string
	}{
		{"room on both sides", 0.05, Frozen, Start, "aft margin, nose-up room and fuel travel hold with every winglet and foreplane still possible (over 99.9 % sure)", ""},
		{"too far forward", -0.04, Pending, Wait, "waits for the aft-margin limit: only 76 % sure with foreplane long", "fly foreplane=long, winglet=small twice at two CGs"},
		{"too far aft", 0.22, Pending, Wait, "waits for the nose-up-room limit: only 76 % sure with foreplane short", "fly foreplane=short, winglet=mid twice at two CGs"},
	}
	for _, want := range cases {
		t.Run(want.name, func(t *testing.T) {
			row := rowOf(t, mustJudge(t, tradeProblem(want.shift)), skin)
			require.Equal(t, [3]string{want.status, want.action, want.reason}, [3]string{row.Status, row.Action, row.Reasons[0]}, strings.Join(row.Chain, "\n"))
			require.Equal(t, want.flight, row.Clears)
		})
	}
}

// What stands out most is named with its flights, and the alarm says what the disagreement means.
func TestDisagreementIsSaidInWords(t *testing.T) {
	p := tradeProblem(0)
	p.TrimSlopes = []TrimSlopes{
		slopesAt(levelsOf("winglet=mid foreplane=long"), 4.16, testRate, 0.004, []float64{3.95, 4.05}, "F1", "F2"),
		slopesAt(levelsOf("winglet=small foreplane=short"), 4.05, testRate, 0.004, []float64{3.95, 4.05}, "F3"),
	}
	v := mustJudge(t, p)
	require.Greater(t, v.Agreement.Inflation, 1.0)
	require.Len(t, v.Alarms, 1)
	require.Contains(t, v.Alarms[0], "differ from the lattice by more than its stated errors allow")
	require.Contains(t, v.Alarms[0], "so fewer parts come free")
	require.Contains(t, v.Agreement.Text, v.Alarms[0]+"; what stands out most: trim slope of foreplane=short, winglet=small with the centre of gravity at ")
	require.Contains(t, v.Agreement.Text, "(flights F3)")
	require.Contains(t, v.Agreement.Text, "standard deviations from what theory expects")
	require.Contains(t, rowOf(t, v, "strake tank skin").Chain, v.Agreement.Text)
}
