package program

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whoever signs a new folder without replacing its figures is told which ones are nobody's.
func TestASignedFolderNamesItsPlaceHolders(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{}))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Equal(t, []string{"gross mass", "empty mass", "empty CG aft of datum", "empty CG above datum", "where the wheels stand",
		`aerofoil "wing section"`, `aerofoil "foreplane section"`, `aerofoil "winglet section"`,
		`what "two aboard, full tanks" carries`, `what "one aboard, little fuel" carries`}, p.PlaceHolders())
	require.NotContains(t, strings.Join(p.Warnings, "\n"), "place holders", "not signed, which is told instead")

	file := filepath.Join(dir, ProgramFile)
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	text := strings.Replace(string(raw), `cautions_read = ""`, `cautions_read = "T.E., 2026-01-01"`, 1)
	text = strings.ReplaceAll(text, "\nsource = \"place holder, replace\"", "\nsource = \"drawing 7\"")
	text = strings.Replace(text, `source = "place holder, replace"`, `source = "drawing weights"`, 1)
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	p, err = Load(dir)
	require.NoError(t, err)
	require.Contains(t, p.Warnings, "program.toml: still place holders of a new folder: empty mass, empty CG aft of datum, empty CG above datum; write your own figures, and where they come from as their source")

	require.NoError(t, os.WriteFile(file, []byte(strings.ReplaceAll(text, "place holder, replace", "scales")), 0o600))
	p, err = Load(dir)
	require.NoError(t, err)
	require.Empty(t, p.PlaceHolders())
	require.Empty(t, p.Warnings)
}
