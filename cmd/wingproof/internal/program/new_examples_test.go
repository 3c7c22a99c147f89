package program

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The examples that stand behind # in a new folder are right as they stand: with the marks taken away and the
// tables put there, the folder is read.
func TestExamplesOfNewAreRight(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{}))
	file := filepath.Join(dir, ProgramFile)
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	text := string(raw)
	for _, line := range []string{"negative_limit_load_factor = -1.9", "manoeuvre_speed_kt = 105", "dive_speed_kt = 170", "gust_cruise_m_s = 15", "gust_dive_m_s = 7.5",
		"[fuselage]", `stations = "shape/fuselage.csv"`} {
		require.Equal(t, 1, strings.Count(text, "\n# "+line+"\n"), line)
		text = strings.Replace(text, "\n# "+line+"\n", "\n"+line+"\n", 1)
	}
	from, to := strings.Index(text, "# [[model.bay]]\n"), strings.Index(text, "\n\n# The aircraft that is built.")
	require.Positive(t, from)
	require.Greater(t, to, from)
	text = text[:from] + strings.TrimPrefix(strings.ReplaceAll("\n"+text[from:to], "\n# ", "\n"), "\n") + text[to:]
	inside := func(hint, old, fresh string) {
		require.Contains(t, text, hint)
		require.Contains(t, text, old)
		text = strings.Replace(text, old, fresh, 1)
	}
	inside("mass_kg = 85, mass_sd_kg = 8", "stations = \"shape/wing.csv\"\n", "stations = \"shape/wing.csv\"\nmass_kg = 85\nmass_sd_kg = 8\n")
	inside("effectiveness_sd = 0.1", "effectiveness = 0.8 }", "effectiveness = 0.8, effectiveness_sd = 0.1 }")
	inside("span_from_m = 0.3, span_to_m = 1.2", "z_m = 0 }", "z_m = 0, span_from_m = 0.3, span_to_m = 1.2 }")
	inside("polar = ", "naca = \"3416\"\n", "mean_line = \"shape/line.csv\"\nthickness_percent = 12\npolar = \"shape/fore-polar.csv\"\n")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	for name, from := range map[string]string{"fuselage.csv": "shape/fuselage.csv", "fore-polar.csv": "shape/fore-polar.csv", "line.csv": "shape/bent.csv"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "shape", name), []byte(furnished(t)[from]), 0o644))
	}
	p, err := Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Model.Bays, 2)
	require.Len(t, p.Fuselage, 4)
	require.Len(t, p.Masses, 1)
	require.Len(t, p.HingeErrors, 1)
	require.Len(t, p.Aerofoils[1].Polar, 5)
	require.InDelta(t, 0.3, p.Loadings[0].Items[1].SpanFrom, 0)
}

// A fresh folder has no surfaces that meet and no foreplane in the plane of the wing.
func TestAFreshFolderIsDrawnSoundly(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{}))
	p, err := Load(dir)
	require.NoError(t, err)
	for _, w := range p.Warnings {
		require.NotContains(t, w, "surface \"")
	}
}
