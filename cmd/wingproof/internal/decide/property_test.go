package decide

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/cmd/wingproof/internal/evidence"
)

const fewDraws = 1000 // enough for rules that do not depend on the luck of the draw

// anyProblem varies geometry, errors, evidence, decisions and parts.
func anyProblem(t *rapid.T) Problem {
	p := testProblem()
	p.Draws, p.Seed = fewDraws, rapid.Uint64().Draw(t, "seed")
	shift := rapid.Float64Range(-0.10, 0.05).Draw(t, "neutral point shift")
	yaw := rapid.Float64Range(-0.03, 0.03).Draw(t, "yaw shift")
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.NeutralPoint] += shift
		prediction.Values[evidence.DirectionalStiffness] += yaw
	}
	for _, prediction := range p.Predictions {
		if rapid.Bool().Draw(t, "flown") {
			np := prediction.Values[evidence.NeutralPoint] + rapid.Float64Range(-0.02, 0.02).Draw(t, "found")
			p.TrimSlopes = append(p.TrimSlopes, slopesAt(prediction.Levels, np, testRate, 0.005, []float64{3.95, 4.05}, evidence.Name(prediction.Levels)))
		}
	}
	p.Limits[5].AtLeast = at(rapid.SampledFrom([]float64{15, 18.7, 30}).Draw(t, "tip-back") * degree)
	if rapid.Bool().Draw(t, "settled") {
		p.Decisions = []Decision{settle(1, "winglet", rapid.SampledFrom(p.Choices[0].Levels).Draw(t, "level"))}
	}
	p.Parts = anyParts(t, p)
	return p
}

func anyParts(t *rapid.T, p Problem) []Part {
	var parts []Part
	for i := range rapid.IntRange(1, 6).Draw(t, "parts") {
		part := Part{
			Name: fmt.Sprintf("part %d", i), ShapedByStated: rapid.Bool().Draw(t, "shaped"), MustPassStated: rapid.Bool().Draw(t, "must"),
			Stage: rapid.SampledFrom([]string{stageDrawn, stagePlug, stageMould, stageLaidUp, stageFitted}).Draw(t, "stage"), BuiltTo: map[string]string{},
		}
		for _, choice := range p.Choices {
			if part.ShapedByStated && rapid.Bool().Draw(t, "by") {
				part.ShapedBy = append(part.ShapedBy, choice.Name)
				part.BuiltTo[choice.Name] = rapid.SampledFrom(choice.Levels).Draw(t, "built to")
			}
		}
		for _, limit := range p.Limits {
			if part.MustPassStated && rapid.IntRange(0, 4).Draw(t, "pass") == 0 {
				part.MustPass = append(part.MustPass, limit.Name)
			}
		}
		parts = append(parts, part)
	}
	return parts
}

func TestRulesThatAlwaysHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		v, err := Judge(p)
		require.NoError(t, err)
		live := 0
		for _, c := range v.Configurations {
			if c.Live {
				live++
			}
		}
		require.Len(t, v.Board, len(p.Parts))
		for i, row := range v.Board {
			part := p.Parts[i]
			require.Equal(t, part.Name, row.Part, "rows keep the order of the parts")
			require.Equal(t, row.Status == Pending, row.Clears != "", "a pending part says what clears it, and no other")
			require.LessOrEqual(t, utf8.RuneCountInString(row.Clears), most, row.Clears)
			require.NotContains(t, row.Clears, "level", "the shop says size")
			stated := part.ShapedByStated && part.MustPassStated
			if !stated {
				require.Equal(t, Pending, row.Status, "what is not stated never freezes")
			}
			if stated && len(part.ShapedBy) == 0 && len(part.MustPass) == 0 {
				require.Equal(t, Frozen, row.Status, "none and none freezes")
			}
			if live == 0 && len(part.ShapedBy)+len(part.MustPass) > 0 {
				require.Equal(t, Pending, row.Status, "a contradiction never freezes what it reaches")
			}
			for _, choice := range v.Choices {
				if slices.Contains(part.ShapedBy, choice.Choice) && choice.State != Settled {
					require.Equal(t, Pending, row.Status, "an open choice never freezes what it shapes")
				}
			}
		}
	})
}

// shuffled lists the same problem in another order.
func shuffled(p Problem, random *rand.Rand) Problem {
	mix := func(n int, swap func(i, j int)) { random.Shuffle(n, swap) }
	q := p
	q.Predictions, q.TrimSlopes, q.Parts = slices.Clone(p.Predictions), slices.Clone(p.TrimSlopes), slices.Clone(p.Parts)
	q.Errors, q.Limits, q.Choices = slices.Clone(p.Errors), slices.Clone(p.Limits), slices.Clone(p.Choices)
	mix(len(q.Predictions), func(i, j int) { q.Predictions[i], q.Predictions[j] = q.Predictions[j], q.Predictions[i] })
	mix(len(q.TrimSlopes), func(i, j int) { q.TrimSlopes[i], q.TrimSlopes[j] = q.TrimSlopes[j], q.TrimSlopes[i] })
	mix(len(q.Parts), func(i, j int) { q.Parts[i], q.Parts[j] = q.Parts[j], q.Parts[i] })
	mix(len(q.Errors), func(i, j int) { q.Errors[i], q.Errors[j] = q.Errors[j], q.Errors[i] })
	mix(len(q.Limits), func(i, j int) { q.Limits[i], q.Limits[j] = q.Limits[j], q.Limits[i] })
	mix(len(q.Choices), func(i, j int) { q.Choices[i], q.Choices[j] = q.Choices[j], q.Choices[i] })
	return q
}

// Whatever the order of the lists, every part and every configuration gets the same answer, to the bit.
func TestOrderOfRowsIsIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t)
		v, err := Judge(p)
		require.NoError(t, err)
		w, err := Judge(shuffled(p, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "order"), 1))))
		require.NoError(t, err)
		require.Equal(t, v.Agreement, w.Agreement)
		status := map[string]string{}
		for _, row := range w.Board {
			status[row.Part] = row.Status + row.Action
		}
		for _, row := range v.Board {
			require.Equal(t, row.Status+row.Action, status[row.Part])
		}
		all := map[string]map[string]LimitVerdict{}
		for _, c := range w.Configurations {
			all[c.Configuration] = map[string]LimitVerdict{}
			for _, l := range c.Limits {
				all[c.Configuration][l.Limit] = l
			}
		}
		for _, c := range v.Configurations {
			for _, l := range c.Limits {
				require.Equal(t, l, all[c.Configuration][l.Limit])
			}
		}
	})
}

// Flights that find exactly what theory says make everybody surer, never less sure: a one-sided
// probability above one half does not fall, but for the luck of the draw.
func TestEvidenceAtTheMeanNeverLowersConfidence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := testProblem()
		p.Draws, p.Parts = 4000, nil
		p.Limits = p.Limits[:1]
		p.Limits[0].AtLeast = at(rapid.Float64Range(0, 10).Draw(t, "asked"))
		before, err := Judge(p)
		require.NoError(t, err)
		for _, prediction := range p.Predictions {
			if rapid.Bool().Draw(t, "flown") {
				p.TrimSlopes = append(p.TrimSlopes, slopesAt(prediction.Levels, prediction.Values[evidence.NeutralPoint], testRate,
					rapid.Float64Range(0.001, 0.05).Draw(t, "sd"), []float64{3.95, 4.05}, "a", "b"))
			}
		}
		after, err := Judge(p)
		require.NoError(t, err)
		for c := range before.Configurations {
			was, is := before.Configurations[c].Limits[0].Probability, after.Configurations[c].Limits[0].Probability
			if was > 0.5 {
				luck := 4 * math.Sqrt(2*was*(1-was)/4000)
				require.GreaterOrEqual(t, is, was-luck-1e-3)
			}
		}
		for i, e := range before.Anchored {
			require.LessOrEqual(t, *after.Anchored[i].SD, *e.SD*(1+1e-9), "no standard deviation grows")
		}
	})
}

// The same bytes on one, two and seven processors, twice.
func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var first []byte
	for _, processors := range []int{1, 2, 7, 1} {
		runtime.GOMAXPROCS(processors)
		text, err := json.Marshal(mustJudge(t, nineByTen()))
		require.NoError(t, err)
		if first == nil {
			first = text
		}
		require.Equal(t, string(first), string(text))
	}
}

// Adding a level leaves the draws of the other levels alone, to the bit.
func TestAddingALevelLeavesOthersAlone(t *testing.T) {
	p := testProblem()
	before := mustJudge(t, p)
	p.Choices[0].Levels = append(p.Choices[0].Levels, "taller")
	p.Predictions = testPredictions(p.Choices)
	after := mustJudge(t, p)
	for _, c := range before.Configurations {
		for _, l := range c.Limits {
			require.Equal(t, l, limitOf(t, after, c.Configuration, l.Limit))
		}
	}
}

// A flight that finds what is believed by now makes nobody less sure, and leaving it out again makes nobody surer. Where flights
// disagree with theory, one more that agrees with what is believed by now also counts as agreement, so that the errors shrink.
func TestAFlightAtTheCurrentMeanNeverLowersConfidence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := testProblem()
		p.Draws, p.Parts, p.Limits = 4000, nil, p.Limits[:1]
		p.Limits[0].AtLeast = at(rapid.Float64Range(0, 10).Draw(t, "asked"))
		for _, prediction := range p.Predictions[:rapid.IntRange(1, 3).Draw(t, "flown")] {
			np := prediction.Values[evidence.NeutralPoint] + rapid.Float64Range(-0.03, 0.03).Draw(t, "found")
			p.TrimSlopes = append(p.TrimSlopes, slopesAt(prediction.Levels, np, testRate, 0.008, []float64{3.95, 4.05}, "a", "b"))
		}
		without, err := Judge(p)
		require.NoError(t, err)
		at := rapid.IntRange(0, len(p.Predictions)-1).Draw(t, "flown again")
		levels, now := p.Predictions[at].Levels, map[string]float64{}
		for _, e := range without.Anchored {
			if e.Configuration == evidence.Name(levels) && e.Scale == evidence.ModelScale {
				now[e.Quantity] = *e.Value
			}
		}
		more := p
		more.TrimSlopes = append(slices.Clone(p.TrimSlopes), slopesAt(levels, now[evidence.NeutralPoint], now[evidence.ElevatorTrimRate], 0.004, []float64{3.95, 4.05}, "c", "d"))
		with, err := Judge(more)
		require.NoError(t, err)
		for c := range without.Configurations {
			was, is := without.Configurations[c].Limits[0].Probability, with.Configurations[c].Limits[0].Probability
			if was > 0.5 {
				luck := 4 * math.Sqrt(2*was*(1-was)/4000)
				require.GreaterOrEqual(t, is, was-luck-1e-3, "%s", without.Configurations[c].Configuration)
			}
		}
	})
}

// Leaving out the flight that spoke against a limit may free a part; the board then names the flight and why it does not count.
func TestAnExcludedFlightIsNamedWhereItMatters(t *testing.T) {
	p := testProblem()
	p.Parts = p.Parts[1:2] // the strake tank skin, on aft margin and fuel travel
	p.Choices = []Choice{{Name: "winglet", Baseline: "mid", Levels: []string{"mid"}}, {Name: "foreplane", Baseline: "long", Levels: []string{"long"}}}
	p.Predictions = testPredictions(p.Choices)
	levels := p.Predictions[0].Levels
	good := slopesAt(levels, 4.16, testRate, 0.002, []float64{3.95, 4.05}, "F1", "F2")
	adverse := slopesAt(levels, 4.10, testRate, 0.002, []float64{3.95, 4.05}, "F3", "F4")
	p.TrimSlopes = []TrimSlopes{good, adverse}
	require.Equal(t, Pending, mustJudge(t, p).Board[0].Status, "the adverse flights keep it waiting")
	p.TrimSlopes = []TrimSlopes{good}
	p.LeftOut = []LeftOut{{Flight: "F3", Levels: levels, Why: "tube blocked by rain"}}
	v := mustJudge(t, p)
	require.Equal(t, Frozen, v.Board[0].Status)
	require.Contains(t, strings.Join(v.Board[0].Reasons, "; "), "F3")
	require.Contains(t, strings.Join(v.Board[0].Reasons, "; "), "tube blocked by rain")
}
