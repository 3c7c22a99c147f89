package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
)

// A decision is not recorded on evidence that changed while it was judged.
func TestInputsMustNotChangeWhileTheyAreJudged(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "own")
	require.NoError(t, program.New(dir, program.NewOptions{}))
	before, err := program.Fingerprint(dir)
	require.NoError(t, err)
	after, err := unchangedInputs(dir, before, nil)
	require.NoError(t, err)
	require.Equal(t, before, after)

	path := filepath.Join(dir, "parts.csv")
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, append(content, "keel,both,drawn\n"...), 0o644))
	_, err = unchangedInputs(dir, before, nil)
	require.ErrorContains(t, err, "nothing was recorded, repeat")
}
