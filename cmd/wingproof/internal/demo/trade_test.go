package demo

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// boardOf judges the scenario before any flight, after an edit of program.toml.
func boardOf(t *testing.T, from, to string) map[string]decide.Row {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 1))
	path := filepath.Join(dir, "program.toml")
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(content), from)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(content), from, to, 1)), 0o644))
	p, err := program.Load(dir)
	require.NoError(t, err)
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged})
	require.NoError(t, err)
	require.Empty(t, st.Flights)
	rows := map[string]decide.Row{}
	for _, row := range st.Verdict.Board {
		rows[row.Part+" "+row.Side] = row
	}
	return rows
}

// Before any flight, with the spar laid up and winglet and foreplane open, whatever they shape waits; the
// tank skin may start, because the default model errors leave its limits standing with either foreplane.
// Common practice, no source.
func TestBeforeAnyFlight(t *testing.T) {
	rows := boardOf(t, "span_m = 3.30", "span_m = 3.30")
	require.Equal(t, decide.CarryOn, rows["main spar both"].Action)
	require.Equal(t, decide.Start, rows["lower wing skin left"].Action)
	for _, part := range []string{"foreplane skin both", "foreplane spar both", "winglet left", "winglet right", "winglet rudder both"} {
		require.Equal(t, decide.Pending, rows[part].Status, part)
	}
	require.Equal(t, decide.Frozen, rows["strake tank skin left"].Status)
	require.Equal(t, decide.Start, rows["strake tank skin left"].Action)
}

// A foreplane on the table that carries the neutral point forward takes the tank skin's limit with it.
func TestBeforeAnyFlightWithALargerForeplane(t *testing.T) {
	rows := boardOf(t, "span_m = 3.30", "span_m = 4.40")
	row := rows["strake tank skin left"]
	require.Equal(t, decide.Pending, row.Status)
	require.Equal(t, decide.Wait, row.Action)
	require.Contains(t, strings.Join(row.Reasons, "\n"), "aft-margin limit")
	require.Equal(t, decide.CarryOn, rows["main spar both"].Action)
}
