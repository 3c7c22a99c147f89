package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// The head of the board says what is undecided, what is out and what is proven, and never that something proven is decided.
func TestQuestionLines(t *testing.T) {
	v := decide.Verdict{
		Choices: []decide.ChoiceVerdict{{Choice: "winglet", State: decide.Open, Live: []string{"mid", "small"}}, {Choice: "foreplane", State: decide.Settled, Level: "long"},
			{Choice: "tip", State: decide.Elimination, Level: "round"}},
		Levels: []decide.LevelVerdict{{Choice: "winglet", Level: "tall", State: decide.Out, Why: "the laid-up main spar would carry 131 % of what it may"}},
		Configurations: []decide.ConfigurationVerdict{{Configuration: "foreplane=long, tip=round, winglet=mid", State: decide.Good, Live: true},
			{Configuration: "foreplane=long, tip=round, winglet=small", State: decide.Unproven, Live: true}},
		Board: []decide.Row{{Part: "winglet"}},
	}
	require.Equal(t, []string{
		"NOT DECIDED: winglet, mid or small.",
		"Decided: foreplane long.",
		"NOT DECIDED: tip; only round is left, and somebody must confirm it.",
		"OUT: winglet tall: the laid-up main spar would carry 131 % of what it may.",
		"Proven so far, every limit passed: foreplane long, tip round, winglet mid. Nobody has decided on it yet: that takes a name and a reason ('wingproof settle').",
		"How sure: a limit counts when it holds with 95 % or more; a part waits for what is less sure.",
	}, QuestionLines(v))
	v.Configurations[0].State = decide.Unproven
	require.Contains(t, QuestionLines(v), "Proven so far: no combination of sizes passes every limit with 95 %.")
	require.Empty(t, QuestionLines(decide.Verdict{}))
	v.Choices[0].State = decide.Contradiction
	require.Contains(t, QuestionLines(v), "NO COMBINATION OF SIZES PASSES: see the alarm.")
	require.NotContains(t, strings.Join(QuestionLines(v), " "), "OUT:", "the alarm says why, once")
}
