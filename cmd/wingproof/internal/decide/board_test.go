package decide

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

const none = wordNone

// makePart reads a part of the tests: words "none" and "" mean what they mean in the list of parts.
func makePart(name, stage, builtTo, shapedBy, mustPass string) Part {
	part := Part{Name: name, Stage: stage, BuiltTo: levelsOf(builtTo), ShapedByStated: shapedBy != "", MustPassStated: mustPass != ""}
	if shapedBy != none {
		part.ShapedBy = strings.Fields(shapedBy)
	}
	if mustPass != none && mustPass != "" {
		part.MustPass = strings.Split(mustPass, ";")
	}
	return part
}

func settle(number int, choice, level string) Decision {
	return Decision{Number: number, Event: eventSettle, Date: "2026-03-01", Choice: choice, Level: level, Who: "J. Hale"}
}

// judgeParts judges parts beside a laid-up main spar, in a program in which the small winglet is out by the
// directional limit, the tall one by that spar, and both foreplanes are possible.
func judgeParts(t *testing.T, change func(*Problem), parts ...Part) Verdict {
	t.Helper()
	p := testProblem()
	p.Parts = append(p.Parts[:1:1], parts...)
	if change != nil {
		change(&p)
	}
	return mustJudge(t, p)
}

// Every word of the wall, by every rule that leads to it.
func TestWordsOfTheBoard(t *testing.T) {
	settled := func(p *Problem) {
		p.Decisions = []Decision{settle(1, "winglet", "mid"), settle(2, "foreplane", "long")}
	}
	signed := func(p *Problem) {
		settled(p)
		p.Decisions = append(p.Decisions, Decision{Number: 3, Event: eventSignoff, Choice: flutter, Who: "K. Ahlgren", Date: "2026-03-02"})
	}
	cases := []struct {
		name           string
		change         func(*Problem)
		part           Part
		status, action string
		next           string
		reason         string
		clears         string
	}{
		{"nothing shapes it", nil, makePart("duct", stageDrawn, "", none, none), Frozen, Start, "mill the plug", "no undecided question", ""},
		{"plug", nil, makePart("duct", stagePlug, "", none, none), Frozen, CarryOn, "make the mould", "no undecided question", ""},
		{"mould", nil, makePart("duct", stageMould, "", none, none), Frozen, CarryOn, "lay up the part", "no undecided question", ""},
		{"laid up", nil, makePart("duct", stageLaidUp, "", none, none), Frozen, CarryOn, "trim and fit", "no undecided question", ""},
		{"fitted", nil, makePart("duct", stageFitted, "", none, none), Frozen, Done, "", "no undecided question", ""},
		{"shaped by not stated", nil, makePart("duct", stageDrawn, "", "", none), Pending, Wait, "", "nobody has said what shapes this part", "shaped_by"},
		{"must pass not stated", nil, makePart("duct", stagePlug, "", none, ""), Pending, StopAndAsk, "", "nobody has said what this part must pass", "must_pass"},
		{"open choice, drawn", nil, makePart("canopy frame", stageDrawn, "", "foreplane", none), Pending, Wait, "", "waits for the foreplane: short and long are both still possible", "settle the foreplane"},
		{"open choice, under way", nil, makePart("canopy frame", stageMould, "foreplane=long", "foreplane", none), Pending, StopAndAsk, "", "waits for the foreplane", "settle the foreplane"},
		{"open choice, fitted", nil, makePart("canopy frame", stageFitted, "foreplane=long", "foreplane", none), Pending, StopAndAsk, "", "waits for the foreplane", ""},
		{"built_to missing", settled, makePart("skin", stagePlug, "", "foreplane", none), Pending, StopAndAsk, "", "nobody has said which foreplane this part was built to", "built_to"},
		{"sole level", nil, makePart("tip rib", stageDrawn, "", "winglet", none), Pending, Wait, "", "only winglet=mid is left (small out by directional; tall out by strength of the main spar); nobody has confirmed it yet", "confirm the winglet at mid"},
		{"sole level, under way", nil, makePart("tip rib", stagePlug, "winglet=mid", "winglet", none), Pending, StopAndAsk, "", "only winglet=mid is left", "confirm the winglet at mid"},
		{"built to a level that is out", nil, makePart("tip rib", stagePlug, "winglet=tall", "winglet", none), Pending, StopAndAsk, "", "built to winglet=tall, which is out: the laid-up main spar would carry 113 % of what it may", "rebuilt"},
		{"drawn to a level that is out", nil, makePart("tip rib", stageDrawn, "winglet=tall", "winglet", none), Pending, StopAndAsk, "", "built to winglet=tall, which is out", "rebuilt"},
		{"fitted, built to a level that is out", settled, makePart("tip rib", stageFitted, "winglet=tall", "winglet", none), Pending, StopAndAsk, "", "built to winglet=tall, but winglet is settled at mid (decision 1, J. Hale, 2026-03-01)", ""},
		{"not the settled level", settled, makePart("skin", stageMould, "foreplane=short", "foreplane", none), Pending, StopAndAsk, "", "built to foreplane=short, but foreplane is settled at long", "decide: rebuild it to foreplane=long, or reopen the foreplane"},
		{"level gone from the list", settled, makePart("skin", stageMould, "foreplane=huge", "foreplane", none), Pending, StopAndAsk, "", "not on the list of sizes any more", "correct built_to"},
		{"settled, start", settled, makePart("skin", stageDrawn, "", "foreplane", none), Frozen, Start, "mill the plug", "foreplane is settled at long (decision 2, J. Hale, 2026-03-01)", ""},
		{"settled, fitted", settled, makePart("skin", stageFitted, "foreplane=long", "foreplane", none), Frozen, Done, "", "foreplane is settled", ""},
		{"settled without proof is repeated", settled, makePart("skin", stageDrawn, "", "foreplane", none), Frozen, Start, "mill the plug", "settled although the evidence does not prove long yet", ""},
		{"sign-off asked for", nil, makePart("seat", stageDrawn, "", none, "signoff:crash_load"), Pending, Wait, "", "waits for a sign-off: crash load", "sign off crash load"},
		{"sign-off added by name", nil, makePart("left aileron", stageFitted, "", none, "drag"), Pending, StopAndAsk, "", "waits for a sign-off: flutter and mass balance (not judged here)", "sign off flutter and mass balance"},
		{"sign-off added by choice", settled, makePart("skin", stageDrawn, "", "foreplane", "drag"), Pending, Wait, "", "waits for a sign-off: flutter and mass balance (not judged here)", "sign off"},
		{"none tells otherwise", settled, makePart("elevator", stageDrawn, "", "foreplane", none), Frozen, Start, "mill the plug", "settled", ""},
		{"another sign-off tells otherwise", settled, makePart("elevator", stageDrawn, "", "foreplane", "drag;signoff:hinge_check"), Pending, Wait, "", "waits for a sign-off: hinge check", ""},
		{"signed off", signed, makePart("elevator", stageDrawn, "", "foreplane", "drag"), Frozen, Start, "mill the plug", "flutter and mass balance signed off (decision 3, K. Ahlgren, 2026-03-02)", ""},
		{"limit holds for every foreplane", nil, makePart("strake", stageDrawn, "", none, "aft margin"), Frozen, Start, "mill the plug", "aft margin holds with every foreplane still possible (at worst 98.6 % sure)", ""},
	}
	for _, row := range cases {
		t.Run(row.name, func(t *testing.T) {
			got := rowOf(t, judgeParts(t, row.change, row.part), row.part.Name)
			require.Equal(t, [3]string{row.status, row.action, row.next}, [3]string{got.Status, got.Action, got.Next}, strings.Join(got.Reasons, "\n"))
			require.Contains(t, strings.Join(got.Reasons, "\n"), row.reason)
			require.Contains(t, got.Clears, row.clears)
			require.Equal(t, row.status == Frozen, got.Clears == "", "what would clear it is said of pending parts alone")
			require.NotEmpty(t, got.Reasons)
			require.LessOrEqual(t, utf8.RuneCountInString(got.Reasons[0]), longest, got.Reasons[0])
		})
	}
}

// The same part, frozen or pending by the geometry alone: its limit holds for both foreplanes, until the
// long one moves the neutral point four centimetres forward.
func TestFrozenThoughIndirectAndPendingOnTheOtherSide(t *testing.T) {
	strake := makePart("strake", stageDrawn, "", none, "aft margin")
	row := rowOf(t, judgeParts(t, nil, strake), "strake")
	require.Equal(t, Frozen, row.Status)
	forward := func(p *Problem) {
		for _, prediction := range p.Predictions {
			if prediction.Levels["foreplane"] == "long" {
				prediction.Values[evidence.NeutralPoint] -= 0.04
			}
		}
	}
	row = rowOf(t, judgeParts(t, forward, strake), "strake")
	require.Equal(t, Pending, row.Status)
	require.Equal(t, Wait, row.Action)
	require.Contains(t, row.Reasons[0], "waits for the aft-margin limit: only 80 % sure with foreplane long")
	require.Equal(t, "fly foreplane=long, winglet=mid twice at two CGs", row.Clears)
	chain := strings.Join(row.Chain, "\n")
	require.Contains(t, chain, "to clear: the aft-margin limit: fly foreplane=long, winglet=mid twice over the speed range with the centre of gravity at")
	require.Contains(t, chain, "(model ", "a CG is printed at both sizes")
	require.Contains(t, chain, "start forward and move aft in small steps")
	require.Contains(t, chain, "95 % range")
	require.Contains(t, chain, "asks for flight evidence")
	require.Contains(t, chain, "common practice, no source")
}

// What is not weighed dominates: the scales clear it, not a flight.
func TestWeighingClearsWhatWeightDominates(t *testing.T) {
	uncertain := func(p *Problem) {
		p.Aircraft.EmptyX.SD, p.Limits[0].AtLeast = 0.06, at(8)
		p.LeftOut = []LeftOut{{Flight: "F9", Levels: levelsOf("winglet=mid foreplane=long"), Why: "airspeed tube blocked"}}
	}
	row := rowOf(t, judgeParts(t, uncertain, makePart("strake", stageDrawn, "", none, "aft margin")), "strake")
	require.Equal(t, Pending, row.Status)
	require.Equal(t, "weigh the empty aircraft", row.Clears)
	require.Contains(t, strings.Join(row.Chain, "\n"), "weigh the empty aircraft: most of the doubt is its empty centre of gravity, which is only estimated")
	require.Contains(t, strings.Join(row.Chain, "\n"), "flight F9 (foreplane=long, winglet=mid) is left out: airspeed tube blocked")
	gear := func(p *Problem) { p.Aircraft.EmptyX.SD, p.Limits[5].AtLeast = 0.03, at(17*degree) }
	row = rowOf(t, judgeParts(t, gear, makePart("gear well", stageMould, "", none, "tip-back")), "gear well")
	require.Equal(t, StopAndAsk, row.Action)
	require.Contains(t, row.Reasons[0], "whatever the open sizes")
	require.Contains(t, row.Clears, "weigh the empty aircraft")
}

// Other things than scales and flights can be what is missing.
func TestWhatClearsTheOtherDoubts(t *testing.T) {
	cases := []struct {
		name   string
		change func(*Problem)
		part   Part
		clears string
	}{
		{"allowable", func(p *Problem) { p.Built[0].SD = 0.2 }, makePart("tip rib", stageDrawn, "", none, "main spar"), "load the main spar for proof"},
		{"step to full size", func(p *Problem) {
			p.Limits[4].AtMost = at(0.022)
			p.Errors[5].Bias, p.Errors[5].FullSize = 0, map[string]float64{"reynolds": 0.2}
		}, makePart("fairing", stageDrawn, "", none, "drag"), "section data at full-size speed"},
		{"rudder", func(p *Problem) { p.Limits[2].AtLeast = at(0.07) }, makePart("fin cap", stageDrawn, "", none, "directional"), "twice with rudder doublets"},
		{"model", func(p *Problem) { p.Limits[3].AtLeast = at(4.9) }, makePart("fairing", stageDrawn, "", none, "lift slope"), "in steady runs over the speed range"},
	}
	for _, row := range cases {
		got := rowOf(t, judgeParts(t, row.change, row.part), row.part.Name)
		require.Equal(t, Pending, got.Status, row.name)
		require.Contains(t, got.Clears, row.clears, row.name)
	}
}

// No shape is left: whatever a choice or a limit reaches is pending and the limit is named; what neither
// reaches goes on.
func TestContradiction(t *testing.T) {
	impossible := func(p *Problem) { p.Limits[5].AtLeast = at(30 * degree) }
	v := judgeParts(t, impossible,
		makePart("tip rib", stageDrawn, "", "winglet", none), makePart("strake", stagePlug, "", none, "aft margin"),
		makePart("floor", stageDrawn, "", none, none))
	for _, name := range []string{"tip rib", "strake"} {
		row := rowOf(t, v, name)
		require.Equal(t, Pending, row.Status)
		require.Equal(t, "no combination passes: tip-back", row.Reasons[0])
		require.NotEmpty(t, row.Chain)
	}
	require.Equal(t, Start, rowOf(t, v, "floor").Action)
	require.Equal(t, []string{"no combination passes: tip-back"}, v.Alarms)
	for _, choice := range v.Choices {
		require.Equal(t, Contradiction, choice.State)
		require.Empty(t, choice.Live)
	}
}

// A settled level that the evidence rules out raises an alarm and stops its parts; nothing flips.
func TestSettledLevelContradicted(t *testing.T) {
	tall := func(p *Problem) { p.Decisions = []Decision{settle(1, "winglet", "tall")} }
	v := judgeParts(t, tall, makePart("tip rib", stageDrawn, "", "winglet", none), makePart("floor", stageDrawn, "", none, none))
	require.Equal(t, Settled, v.Choices[0].State)
	require.Equal(t, "tall", v.Choices[0].Level)
	require.Contains(t, strings.Join(v.Alarms, "\n"), "winglet is settled at tall (decision 1, J. Hale, 2026-03-01), but the evidence now rules tall out: the laid-up main spar would carry 113 %")
	row := rowOf(t, v, "tip rib")
	require.Equal(t, [2]string{Pending, StopAndAsk}, [2]string{row.Status, row.Action})
	require.Equal(t, Start, rowOf(t, v, "floor").Action)
	require.Equal(t, Out, levelOf(t, v, "winglet", "small").State, "levels put aside are still judged")
}

// Good asks for flights, frozen does not.
func TestGoodAsksForTwoFlights(t *testing.T) {
	mid := levelsOf("winglet=mid foreplane=short")
	flown := func(flights ...string) func(*Problem) {
		return func(p *Problem) {
			p.Limits[2].Evidence = "analysis"
			s := slopesAt(mid, 4.25, testRate, 0.004, []float64{3.95, 4.05}, flights...)
			p.TrimSlopes = []TrimSlopes{s}
		}
	}
	state := func(v Verdict) string {
		for _, c := range v.Configurations {
			if c.Configuration == evidence.Name(mid) {
				return c.State
			}
		}
		return ""
	}
	require.Equal(t, Unproven, state(judgeParts(t, flown("F1"))))
	v := judgeParts(t, flown("F1", "F2"))
	require.Equal(t, Good, state(v))
	require.Equal(t, Good, levelOf(t, v, "winglet", "mid").State)
	require.False(t, limitOf(t, v, evidence.Name(mid), "aft margin").FlightsNeed)
	require.True(t, limitOf(t, judgeParts(t, nil), evidence.Name(mid), "aft margin").FlightsNeed)
}

// With both sizes good, what clears a part is a decision.
func TestGoodLevelsAskForADecision(t *testing.T) {
	good := func(p *Problem) {
		p.Limits, p.Built = p.Limits[3:5], nil
	}
	row := rowOf(t, judgeParts(t, good, makePart("skin", stageDrawn, "", "foreplane", none)), "skin")
	require.Contains(t, row.Clears, "settle the foreplane (short and long pass every limit)")
}

func TestOneConfigurationWithoutChoices(t *testing.T) {
	p := testProblem()
	p.Choices, p.Errors = nil, DefaultErrors(testChord, nil)
	p.Predictions = p.Predictions[3:4]
	p.Predictions[0].Levels = map[string]string{}
	p.Parts = []Part{makePart("strake", stageDrawn, "", none, "aft margin"), makePart("gear well", stageDrawn, "", none, "tip-back")}
	v := mustJudge(t, p)
	require.Len(t, v.Configurations, 1)
	require.Empty(t, v.Choices)
	require.Equal(t, Start, rowOf(t, v, "strake").Action)
	require.Contains(t, rowOf(t, v, "strake").Reasons[0], "aft margin holds (98.")
	p.Limits[5].AtLeast = at(30 * degree)
	require.Equal(t, "no combination passes: tip-back", rowOf(t, mustJudge(t, p), "gear well").Reasons[0])
}

func TestThreeChoices(t *testing.T) {
	p := testProblem()
	p.Choices = append(p.Choices, Choice{Name: "nose", Levels: []string{"blunt", "sharp"}})
	p.Predictions, p.Errors = testPredictions(p.Choices), DefaultErrors(testChord, p.Choices)
	p.Parts = []Part{makePart("strake", stageDrawn, "", none, "aft margin")}
	v := mustJudge(t, p)
	require.Len(t, v.Configurations, 12)
	require.Contains(t, rowOf(t, v, "strake").Reasons[0], "and nose still possible")
}

func TestProblemsThatAreRefused(t *testing.T) {
	cases := map[string]func(*Problem){
		"every combination of levels needs one": func(p *Problem) { p.Predictions = p.Predictions[1:] },
		"is given twice":                        func(p *Problem) { p.Predictions = append(p.Predictions, p.Predictions[0]) },
		"none of its levels":                    func(p *Problem) { p.Choices[0].Baseline = "huge" },
		"is stated twice":                       func(p *Problem) { p.Limits = append(p.Limits, p.Limits[0]) },
		"write at_least or at_most":             func(p *Problem) { p.Limits[0].AtLeast = nil },
		"with a stated error":                   func(p *Problem) { p.Errors = p.Errors[1:] },
		"the landing gear is not stated":        func(p *Problem) { p.Aircraft.Gear = nil },
		"empty mass is 0 kg":                    func(p *Problem) { p.Aircraft.EmptyMass.Value = 0 },
		"loading \"ferry\" is not stated":       func(p *Problem) { p.Limits[0].Loadings = []string{"ferry"} },
		"does not fly":                          func(p *Problem) { p.Limits[0].Loadings = []string{"nobody aboard"} },
		"which is no choice":                    func(p *Problem) { p.Parts[1].ShapedBy = []string{"tail"} },
		"which is no limit":                     func(p *Problem) { p.Parts[1].MustPass = []string{"taste"} },
		"write drawn, plug":                     func(p *Problem) { p.Parts[1].Stage = "painted" },
		"contradict one another": func(p *Problem) {
			p.Correlations = []Correlation{{evidence.NeutralPoint, evidence.LiftCurveSlope, 0.9}, {evidence.NeutralPoint, evidence.ZeroLiftDrag, 0.9}, {evidence.LiftCurveSlope, evidence.ZeroLiftDrag, -0.9}}
		},
		"is no standard deviation":   func(p *Problem) { p.Errors[0].Bias = -1 },
		"write zero for the default": func(p *Problem) { p.Draws = -1 },
	}
	for message, spoil := range cases {
		p := testProblem()
		spoil(&p)
		_, err := Judge(p)
		require.ErrorContains(t, err, message)
	}
}

// Two independent limits, each 1.8 standard deviations on the good side (96.4 %), hold together with 93 %.
func TestLimitsMustHoldTogether(t *testing.T) {
	near18 := func(p *Problem) { p.Limits[3].AtLeast, p.Limits[4].AtMost = at(4.724), at(0.02826) }
	alone := rowOf(t, judgeParts(t, near18, makePart("fairing", stageDrawn, "", none, "drag")), "fairing")
	require.Equal(t, Frozen, alone.Status)
	both := rowOf(t, judgeParts(t, near18, makePart("fairing", stageDrawn, "", none, "lift slope;drag")), "fairing")
	require.Equal(t, Pending, both.Status)
	require.Contains(t, both.Reasons[0], "waits for lift slope and drag together: each holds by itself, all of them are only 9")
	require.Contains(t, strings.Join(both.Chain, "\n"), "together with foreplane=long, winglet=mid: 9")
}

// The long foreplane fails one limit, the short one the other: both are named.
func TestContradictionBetweenTwoLimits(t *testing.T) {
	pinched := func(p *Problem) {
		p.Limits[0].AtLeast, p.Limits[1].AtMost = at(17.5), at(13)
		p.Limits, p.Built = p.Limits[:2], nil
	}
	row := rowOf(t, judgeParts(t, pinched, makePart("skin", stageDrawn, "", "foreplane", none)), "skin")
	require.Equal(t, "no combination passes: aft margin and nose-up room between them", row.Reasons[0])
}
