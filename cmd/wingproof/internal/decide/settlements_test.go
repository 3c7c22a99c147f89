package decide

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/cmd/wingproof/internal/evidence"
)

// drags is a program with one limit, drag at most 0.040, and a drag of the test's own for every combination:
// 0.020 passes for sure, 0.040 is as good as a coin, 0.080 is out. There is no flight and none is asked for.
func drags(t *testing.T, choices []Choice, drag func(levels map[string]string) float64, parts ...Part) Verdict {
	t.Helper()
	p := testProblem()
	p.Choices, p.Errors, p.Built, p.Parts = choices, DefaultErrors(testChord, choices), nil, parts
	p.Predictions = testPredictions(choices)
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.ZeroLiftDrag] = drag(prediction.Levels)
	}
	p.Limits = p.Limits[4:5]
	return mustJudge(t, p)
}

const (
	goodDrag, openDrag, outDrag = 0.020, 0.040, 0.080
)

// badWith is open drag with the named levels, else good.
func badWith(open ...string) func(map[string]string) float64 {
	return func(levels map[string]string) float64 {
		for _, level := range levels {
			if slices.Contains(open, level) {
				return openDrag
			}
		}
		return goodDrag
	}
}

func TestTheFewestDecisionsThatClear(t *testing.T) {
	both := testChoices()
	baseline := testChoices()
	baseline[0].Levels = []string{"small", "mid"}
	three := append(testChoices(), Choice{Name: "nose", Levels: []string{"blunt", "sharp"}})
	only := func(good ...string) func(map[string]string) float64 {
		return func(levels map[string]string) float64 {
			for _, level := range levels {
				if !slices.Contains(good, level) {
					return openDrag
				}
			}
			return goodDrag
		}
	}
	cases := []struct {
		name     string
		choices  []Choice
		drag     func(map[string]string) float64
		shapedBy string
		clears   string
	}{
		{"every size passes", both, badWith(), "foreplane", "settle the foreplane (short and long pass every limit)"},
		{"one size passes", both, badWith("small", "tall"), "winglet", "settle the winglet (mid passes every limit)"},
		{"another choice first", both, badWith("small", "tall"), "foreplane", "settle the winglet at mid, then the foreplane: both sizes pass with it"},
		{"another choice first, the baseline", both, badWith("tall"), "foreplane", "settle the winglet at mid, then the foreplane: both sizes pass with it"},
		{"two shapers, one of them with a size that passes", both, badWith("small", "tall"), "winglet foreplane", "settle the winglet (mid passes every limit), then the foreplane: every size left passes with it"},
		{"only together", baseline, only("mid", "long"), "foreplane", "decide on foreplane long and winglet mid: proven only together"},
		{"only together, of three", three, only("mid", "long", "blunt", "sharp"), "foreplane", "decide on foreplane long and winglet mid: proven only together"},
		{"nothing passes", both, badWith("short", "long"), "foreplane", "fly foreplane=short, winglet=small in power-off glides; then settle the foreplane"},
	}
	for _, row := range cases {
		t.Run(row.name, func(t *testing.T) {
			v := drags(t, row.choices, row.drag, makePart("skin", stageDrawn, "", row.shapedBy, none))
			require.Equal(t, row.clears, rowOf(t, v, "skin").Clears)
		})
	}
}

// A limit that an open size spoils is cleared by settling, although no choice shapes the part; the chain
// keeps the flight that would do instead.
func TestSettlingClearsALimit(t *testing.T) {
	v := drags(t, testChoices(), badWith("small"), makePart("fairing", stageDrawn, "", none, "drag"))
	row := rowOf(t, v, "fairing")
	require.Regexp(t, `^waits for the drag limit: only \d\d % sure with winglet small$`, row.Reasons[0])
	require.Equal(t, "settle the winglet (mid and tall pass every limit)", row.Clears)
	require.Contains(t, strings.Join(row.Chain, "\n"), "otherwise: the drag limit: fly ")
}

// What a level is said to lack names only the sizes that matter.
func TestWhyALevelIsUnproven(t *testing.T) {
	v := drags(t, testChoices(), badWith("small"))
	require.Regexp(t, `^passes every limit with winglet mid; with winglet small the drag limit is only \d\d % sure$`, levelOf(t, v, "foreplane", "long").Why)
	require.Regexp(t, `^the drag limit is only \d\d % sure$`, levelOf(t, v, "winglet", "small").Why)
	require.Equal(t, Good, levelOf(t, v, "winglet", "mid").State)
}

// Combinations that are out are no longer possible and do not count against a level.
func TestOutCombinationsDoNotCountAgainstALevel(t *testing.T) {
	v := drags(t, testChoices(), func(levels map[string]string) float64 {
		if levels["winglet"] == "tall" {
			return outDrag
		}
		return goodDrag
	})
	require.Equal(t, Out, levelOf(t, v, "winglet", "tall").State)
	require.Equal(t, Good, levelOf(t, v, "foreplane", "long").State)
}

// Each way of asking for a flight names a quantity that flights inform, and no other is flown for.
func TestOnlyFlightsThatHelpAreAskedFor(t *testing.T) {
	directional := func(p *Problem) { p.Limits[2].AtLeast, p.Built = at(0.045), nil }
	analysis := func(p *Problem) {
		directional(p)
		p.Limits[2].Evidence, p.Limits = "analysis", p.Limits[2:]
	}
	row := rowOf(t, judgeParts(t, analysis, makePart("fin cap", stageDrawn, "", none, "directional")), "fin cap")
	require.Equal(t, "settle the winglet (mid and tall pass every limit)", row.Clears)
	require.Contains(t, strings.Join(row.Chain, "\n"), "otherwise: the directional limit: fly foreplane=long, winglet=small with doublets of rudder and ailerons, hands off for six seconds behind the rudder, and steady sideslips to both sides")
	row = rowOf(t, judgeParts(t, directional, makePart("fin cap", stageDrawn, "", none, "directional")), "fin cap")
	require.Equal(t, "fly foreplane=long, winglet=small twice with rudder doublets", row.Clears)
	row = rowOf(t, judgeParts(t, nil, makePart("skin", stageDrawn, "", "foreplane", none)), "skin")
	require.Equal(t, "fly foreplane=short, winglet=mid twice at two CGs and with rudder doublets; then settle the foreplane", row.Clears)
	for _, quantity := range []string{evidence.RootBendingMoment, evidence.TipBackAngle, ""} {
		require.False(t, readFromFlights(quantity), quantity)
	}
}

// Steps keep their order, each once; what the wall has no room for is counted and stays in the chain.
func TestStepsOnTheWall(t *testing.T) {
	sign := step{rankSign, "flutter", "sign flutter"}
	steps := []step{sign, {rankMeasure, "fly", "fly far"}, {rankSettle, "settle", "settle it"}, {rankMeasure, "fly", "fly again"}, {rankSign, "hinges", ""}, {rankRebuild, "rebuild", ""}, {rankMeasure, "", "otherwise: weigh"}}
	require.Equal(t, "rebuild; settle; fly; then sign off flutter and hinges", clears(steps))
	require.Equal(t, []string{"to clear: settle it", "to clear: fly far", "otherwise: weigh", "to clear: sign flutter"}, fullSteps(steps))
	require.Equal(t, "sign off flutter", clears([]step{sign}))
	require.Empty(t, clears(nil))
	long := strings.Repeat("x", 90)
	require.Equal(t, long+"; then 2 more steps (ask for its numbers)", fitted([]string{long, strings.Repeat("y", 60), "z"}))
	require.Equal(t, long+"; y; then 1 more step (ask for its numbers)", fitted([]string{long, "y", strings.Repeat("z", 60)}))
	tooLong := fitted([]string{strings.Repeat("word ", 60)})
	require.Equal(t, strings.TrimSpace(strings.Repeat("word ", 25))+" … (ask for its numbers)", tooLong)
	require.LessOrEqual(t, utf8.RuneCountInString(tooLong), most)
}

// Two roads to an order statistic.
func TestQuantilesAgainstSorting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-3, 3), 1, 200).Draw(t, "values")
		if rapid.Bool().Draw(t, "ties") {
			for i := range values {
				values[i] = float64(int(values[i]))
			}
		}
		sorted := slices.Sorted(slices.Values(values))
		got := newQuantiles(values)
		for _, share := range []float64{0.5, 0.025, 0.975, 0, 1} {
			place := share * float64(len(sorted)-1)
			i := min(int(place), len(sorted)-1)
			want := sorted[i]
			if i+1 < len(sorted) {
				want += (place - float64(i)) * (sorted[i+1] - sorted[i])
			}
			require.Equal(t, want, got.at(share))
		}
	})
}
