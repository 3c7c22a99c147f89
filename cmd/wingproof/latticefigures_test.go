package main

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// One figure for each choice, with every level in it and the foreplane's tip where it passes.
func TestSpanLoadFigures(t *testing.T) {
	p, err := program.Load(demoFolder(t))
	require.NoError(t, err)
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Predicted, Keep: keptIn(p)})
	require.NoError(t, err)
	figures, err := spanLoadFigures(st)
	require.NoError(t, err)
	require.Len(t, figures, 2)
	require.Equal(t, "Load along the span, by winglet", figures[0].Title)
	for _, words := range []string{"mid (baseline): ", "small: ", "tall: ", "winglet greatest load", "foreplane's tip passes at 1.80 m"} {
		require.Contains(t, figures[0].Alt, words)
	}
	require.Contains(t, figures[1].Alt, "foreplane's tip passes at 1.65 m")
}
