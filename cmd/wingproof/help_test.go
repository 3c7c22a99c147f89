package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// commands lists the program itself and everything that it can be told to do.
func commands(t *testing.T) []*cobra.Command {
	t.Helper()
	var all []*cobra.Command
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		all = append(all, c)
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRootCommand(streams{}))
	require.Greater(t, len(all), 10)
	return all
}

// examples lists the lines of a command's example.
func examples(c *cobra.Command) []string {
	var lines []string
	for _, line := range strings.Split(c.Example, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// Every command explains itself: a sentence, a text, an example that calls it, --json and, where it reads a
// program folder, --program.
func TestEveryCommandHasHelp(t *testing.T) {
	for _, c := range commands(t) {
		name := c.CommandPath()
		require.NotEmpty(t, c.Short, name)
		require.NotEmpty(t, c.Long, name)
		require.NotEmpty(t, examples(c), "%s --help shows no example", name)
		args := append(strings.Fields(name)[1:], "--help")
		got := wingproof(args...)
		require.Zero(t, got.status, name)
		require.Empty(t, got.err, name)
		require.Contains(t, got.stdout, "Usage:", name)
		for _, line := range examples(c) {
			require.Contains(t, got.stdout, "  "+line+"\n", name)
			require.True(t, strings.HasPrefix(line, name), "%s shows an example of something else: %s", name, line)
		}
		if !c.HasParent() {
			continue
		}
		require.NotNil(t, c.Flags().Lookup("json"), "%s has no --json", name)
		if !slices.Contains([]string{"demo", "new", "completion", "man"}, c.Name()) { // which read no program folder
			require.NotNil(t, c.Flags().Lookup("program"), "%s has no --program", name)
		}
	}
}

// Every example line of --help does what it shows: in a program folder, with another called sandreed beside it
// and two logs and a weighing sheet at hand.
func TestExamplesOfHelpRun(t *testing.T) {
	root := t.TempDir()
	here := filepath.Join(root, "here")
	warmSeason(t, here, append(fewFlights(), "F04")...) // a fourth flight of the middle winglet, which the examples settle
	warmSeason(t, filepath.Join(root, "sandreed"), "F01")
	require.NoError(t, os.Link(filepath.Join(here, "logs", "F01.csv"), filepath.Join(here, "monday.csv")))
	require.NoError(t, os.Link(filepath.Join(here, "logs", "F10.csv"), filepath.Join(here, "tuesday.csv")))
	sheet, _, _ := strings.Cut(wingproof("weigh", "--blank").stdout, "bifilar,inclined") // the demo's weighings have no column for Ixz
	require.NoError(t, os.WriteFile(filepath.Join(here, "sheet.csv"), []byte(sheet), 0o644))
	t.Chdir(here)
	run := map[string]bool{}
	for _, c := range commands(t) {
		for _, line := range examples(c) {
			if run[line] {
				continue
			}
			run[line] = true
			for _, made := range []string{"../mine", "wingproof-demo", "other"} {
				require.NoError(t, os.RemoveAll(made))
			}
			if line == "wingproof demo" { // which made the folder that all these tests share
				requireFlown(t)
				continue
			}
			if strings.HasPrefix(line, "wingproof serve") { // which does not end by itself
				requireServes(t, words(t, line)[1:])
				continue
			}
			got := wingproof(words(t, line)[1:]...)
			require.Zero(t, got.status, "%s\n%s", line, got.err)
			require.NotEmpty(t, got.stdout, line)
		}
	}
}

// words splits a command line as a shell does, with double quotation marks and no other signs.
func words(t *testing.T, line string) []string {
	t.Helper()
	var out []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, piece)
			continue
		}
		require.NotContains(t, piece, "'", "an example that a Windows shell would read otherwise")
		out = append(out, strings.Fields(piece)...)
	}
	require.Zero(t, strings.Count(line, `"`)%2, line)
	return out
}
