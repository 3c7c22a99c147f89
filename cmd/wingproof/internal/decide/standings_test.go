package decide

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A forecast judges without words and reads few ranges; what it does read is what the whole judgement says.
func TestStandingsAreThoseOfTheVerdict(t *testing.T) {
	p := waitingProblem()
	p.Draws = 1000
	p.Parts = append(p.Parts, Part{Name: "nobody knows", Stage: stageDrawn, HoursLeft: 5})
	a, err := assess(p)
	require.NoError(t, err)
	whole, err := a.verdict(p.Decisions)
	require.NoError(t, err)
	bare, err := a.standings(p.Decisions)
	require.NoError(t, err)
	require.Equal(t, whole.Choices, bare.Choices)
	require.Equal(t, whole.Levels, bare.Levels)
	require.Equal(t, whole.Configurations, bare.Configurations)
	require.Len(t, bare.Board, len(whole.Board))
	onPaper := 0
	for i, row := range whole.Board {
		require.Equal(t, Row{Part: row.Part, Side: row.Side, Status: row.Status, OnPaper: row.OnPaper}, bare.Board[i])
		if row.OnPaper {
			onPaper++
		}
	}
	require.Positive(t, onPaper)
}

// What a forecast leaves out or shares changes no prospect.
func TestAForecastLeavesOutWhatNobodyReads(t *testing.T) {
	f, err := newForecast(waitingProblem(), Outcomes, 1000)
	require.NoError(t, err)
	read := 0
	for _, of := range f.problem.ranged {
		for _, ranged := range of {
			if ranged {
				read++
			}
		}
	}
	require.Positive(t, read)
	require.Less(t, read, len(f.problem.ranged)*len(f.problem.ranged[0]))
	careful := *f
	for _, c := range candidates() {
		quick, err := f.prospect(t.Context(), c)
		require.NoError(t, err)
		widths := [][][]float64{}
		for m := range f.outcomes {
			p, err := careful.after(c, m)
			require.NoError(t, err)
			p.weights, p.ranged = nil, nil
			_, v, err := careful.free(p)
			require.NoError(t, err)
			if m == 0 {
				widths = nil
			}
			widths = noteWidths(widths, v)
		}
		require.Equal(t, f.narrowing(widths), quick.Narrows, c.Say)
	}
}
