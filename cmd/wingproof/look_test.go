package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A log whose time nobody can guess still gets its draft, with what to write: that is what was asked.
func TestLookShowsTheDraftOfALogThatItCannotRead(t *testing.T) {
	log := filepath.Join(t.TempDir(), "odd.csv")
	require.NoError(t, os.WriteFile(log, []byte("push;airspeed m/s\n3;20\n1;21\n2;22\n"), 0o644))
	got := wingproof("look", log, "--json")
	require.Zero(t, got.status, got.err)
	var doc lookDocument
	require.NoError(t, json.Unmarshal([]byte(got.stdout), &doc))
	require.Contains(t, doc.Draft, "airspeed m/s")
	require.Contains(t, doc.Verdict, "no column shows that it is time")
	require.Empty(t, doc.Channels)
}

// Without --logger, a named program folder lends its only logger; with several it asks which.
func TestLookThroughTheOnlyLoggerOfAFolder(t *testing.T) {
	root := t.TempDir()
	log := filepath.Join(root, "monday.csv")
	require.NoError(t, os.WriteFile(log, []byte("t,tube\n0,20\n0.1,21\n0.2,22\n"), 0o644))
	dir := filepath.Join(root, "mine")
	require.Zero(t, wingproof("new", dir).status)
	got := wingproof("look", log, "--program", dir)
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "--suggest drafts one")

	file := filepath.Join(dir, "program.toml")
	content, err := os.ReadFile(file)
	require.NoError(t, err)
	const logger = "\n[logger.%]\ntime = { column = \"t\", unit = \"s\" }\nchannels = [{ column = \"tube\", is = \"airspeed\", unit = \"m/s\" }]\n"
	for _, name := range []string{"box", "spare"} {
		content = append(content, []byte(logger[:9]+name+logger[10:])...)
		require.NoError(t, os.WriteFile(file, content, 0o644))
		got = wingproof("look", log, "--program", dir)
		if name == "box" {
			require.Zero(t, got.status, got.err)
			require.Contains(t, got.stdout, "read as logger box")
		}
	}
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "add --logger with one of box, spare")
}

// A sign-off is a row that is never changed: a name that no part waits for is refused.
func TestSettleRefusesASignoffThatNoPartWaitsFor(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "mine")
	require.Zero(t, wingproof("new", dir).status)
	sign := func(name string, more ...string) outcome {
		return wingproof(append([]string{"settle", name, "--signoff", "--who", "S.I.", "--why", "report 12", "--program", dir}, more...)...)
	}
	got := sign("flutter_and_mass_balanse", "--date", "2026-03-14")
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "there is flutter_and_mass_balance")
	got = sign("flutter and mass balance")
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "add --date")
	got = sign("flutter and mass balance", "--date", "2026-03-14")
	require.Zero(t, got.status, got.err)
}

func TestTruthStandsBesideTheFolder(t *testing.T) {
	beside, err := truthPath("demo")
	require.NoError(t, err)
	require.Equal(t, "demo-truth.json", beside)
	here, err := os.Getwd()
	require.NoError(t, err)
	beside, err = truthPath(".")
	require.NoError(t, err)
	require.Equal(t, here+"-truth.json", beside)
}
