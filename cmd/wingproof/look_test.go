package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func lookedAt(t *testing.T, args ...string) lookDocument {
	t.Helper()
	got := wingproof(append(append([]string{"look"}, args...), "--json")...)
	require.Zero(t, got.status, got.err)
	var doc lookDocument
	require.NoError(t, json.Unmarshal([]byte(got.stdout), &doc))
	return doc
}

// requireVerdict checks that word and sentence go together.
func requireVerdict(t *testing.T, v lookVerdict) {
	t.Helper()
	begins := map[string]string{good: "good: ", goodBut: "good, but ", flyAgain: "fly again, because "}
	require.Contains(t, begins, v.Word)
	require.True(t, strings.HasPrefix(v.Sentence, begins[v.Word]), v.Sentence)
	require.NotContains(t, v.Sentence, "\n")
	require.Less(t, utf8.RuneCountInString(v.Sentence), 500, v.Sentence)
}

// A log whose time nobody can guess still gets its draft, with what to write, when that is asked; it cannot be looked at.
func TestLookAtALogWithoutTime(t *testing.T) {
	log := filepath.Join(t.TempDir(), "odd.csv")
	require.NoError(t, os.WriteFile(log, []byte("push;airspeed m/s\n3;20\n1;21\n2;22\n"), 0o644))
	got := wingproof("look", log, "--suggest", "--json")
	require.Zero(t, got.status, got.err)
	var doc suggestDocument
	require.NoError(t, json.Unmarshal([]byte(got.stdout), &doc))
	require.Contains(t, doc.Draft, "airspeed m/s")
	require.Contains(t, doc.Reads, "no column shows that it is time")
	got = wingproof("look", log)
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "--suggest")
	require.Empty(t, got.stdout)
}

// Without a folder, a log of the demo is read through a guessed map: the sheet fits a terminal and ends with the verdict.
func TestLookWithoutAFolder(t *testing.T) {
	log := filepath.Join(t.TempDir(), "F02.csv")
	require.NoError(t, os.WriteFile(log, []byte(read(t, filepath.Join(demoFolder(t), "logs", "F02.csv"))), 0o644))
	doc := lookedAt(t, log)
	require.True(t, doc.Drafted)
	require.Empty(t, doc.Folder)
	require.NotEmpty(t, doc.Lines)
	require.Greater(t, doc.FlyingS, 100.0)
	require.Empty(t, doc.Flight)
	require.NotNil(t, doc.Calibration.Rest)
	require.InDelta(t, 9.81, *doc.Calibration.Rest.Force, 0.2)
	require.Less(t, doc.Calibration.Rest.End, 10.0)
	kinds := map[string]int{}
	for _, m := range doc.Manoeuvres {
		kinds[string(m.Kind)]++
		require.Equal(t, m.Usable, m.Why == "")
	}
	require.GreaterOrEqual(t, kinds["glide"], 4)
	require.GreaterOrEqual(t, kinds["level"], 2)
	requireVerdict(t, doc.Verdict)
	require.Contains(t, doc.Verdict.Sentence, "guessed logger map")

	got := wingproof("look", log)
	require.Zero(t, got.status, got.err)
	for line := range strings.SplitSeq(got.stdout, "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 100, line)
	}
	tail := got.stdout[strings.LastIndex(got.stdout, "\n\n"):]
	require.Equal(t, doc.Verdict.Sentence, strings.Join(strings.Fields(tail), " "))
}

// In the folder, the row of flights.csv lends logger, mass and CG, and the plan is compared: the flight has its glides, and one
// doublet where the card asks for two.
func TestLookAtAFlightOfTheFolder(t *testing.T) {
	dir := demoFolder(t)
	doc := lookedAt(t, filepath.Join(dir, "logs", "F02.csv"), "--program", dir)
	require.Equal(t, "F02", doc.Flight)
	require.Equal(t, "field-box", doc.Logger)
	require.False(t, doc.Drafted)
	require.NotEmpty(t, doc.Points)
	require.Len(t, doc.Cards, 9)
	byName := map[string]lookCard{}
	for _, c := range doc.Cards {
		byName[c.Card] = c
		require.NotEqual(t, c.Fulfilled, c.Why != "", c.Card)
	}
	fast := byName["glide at the fast end"]
	require.True(t, fast.ForThisFlight)
	require.True(t, fast.Fulfilled, fast.Why)
	require.Contains(t, fast.FulfilledBy, "F02")
	require.Greater(t, len(fast.FulfilledBy), 5, "the other flights count too")
	require.Equal(t, "1 of 2", byName["pulses of the nose"].Why)
	require.NotContains(t, byName["pulses of the nose"].FulfilledBy, "F02")
	never := byName["tall winglet with short foreplane"]
	require.False(t, never.ForThisFlight)
	require.Equal(t, "planned for foreplane short, winglet tall", never.Why)
	requireVerdict(t, doc.Verdict)

	// the log's own folder lies in a program folder, which is then found
	found := lookedAt(t, filepath.Join(dir, "logs", "F02.csv"))
	require.Equal(t, dir, found.Folder)
	require.Equal(t, doc.Cards, found.Cards)
	require.Contains(t, wingproof("look", filepath.Join(dir, "logs", "F02.csv")).stdout, "found from the log's own folder")

	// the same log by another path is the flight that --flight names
	copied := filepath.Join(t.TempDir(), "0007.csv")
	require.NoError(t, os.WriteFile(copied, []byte(read(t, filepath.Join(dir, "logs", "F02.csv"))), 0o644))
	again := lookedAt(t, copied, "--program", dir, "--flight", "f02")
	require.Equal(t, doc.Points, again.Points)
	require.Equal(t, doc.Cards, again.Cards)
	got := wingproof("look", copied, "--program", dir, "--flight", "F99")
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "it has F01, F02")
}

func TestLookDraws(t *testing.T) {
	log, dir := filepath.Join(demoFolder(t), "logs", "F02.csv"), t.TempDir()
	for name, begins := range map[string]string{"strip.svg": "<svg ", "strip.PNG": "\x89PNG"} {
		file := filepath.Join(dir, name)
		doc := lookedAt(t, log, "--figure", file)
		require.Equal(t, file, doc.Figure)
		require.True(t, strings.HasPrefix(read(t, file), begins), name)
	}
	require.Contains(t, read(t, filepath.Join(dir, "strip.svg")), "glide")
	got := wingproof("look", log, "--figure", filepath.Join(dir, "strip.jpg"))
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "write a name such as monday.png")
	got = wingproof("look", log, "--figure", filepath.Join(dir, "nowhere", "strip.png"))
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "make it first")
}

// What cannot be read gets one sentence with what to do, and status 2; what can be read gets a verdict.
func TestLookAtDamagedLogs(t *testing.T) {
	dir := t.TempDir()
	whole := read(t, filepath.Join(demoFolder(t), "logs", "F02.csv"))
	put := func(name, content string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(content), 0o644))
		return path
	}
	for _, c := range []struct{ path, says string }{
		{filepath.Join(dir, "none.csv"), "there is no log"},
		{"", "the log has no name; write the path of one"},
		{dir, "is a folder, not a log; name a file inside it"},
		{put("empty.csv", ""), "empty"},
		{put("binary.csv", "\x7fELF\x00\x01\x02\x00\x00\x00\xff\xfe\x00\x01"), "binary"},
		{put("heads.csv", "t,tube\n"), "no row of numbers"},
	} {
		got := wingproof("look", c.path)
		require.Equal(t, 2, got.status, c.path)
		require.Contains(t, got.err, c.says)
		require.Len(t, strings.Split(strings.TrimSpace(got.err), "\n"), 1, got.err)
		require.Empty(t, got.stdout)
	}
	half := lookedAt(t, put("half.csv", whole[:len(whole)/2]))
	requireVerdict(t, half.Verdict)
	require.Equal(t, goodBut, half.Verdict.Word, half.Verdict.Sentence)
	require.Contains(t, half.Verdict.Sentence, "the log breaks off in the air at ")
	require.NotEmpty(t, half.Manoeuvres)

	lines := strings.SplitAfter(whole, "\n")
	ground := lookedAt(t, put("ground.csv", strings.Join(lines[:120], "")))
	require.Equal(t, flyAgain, ground.Verdict.Word)
	require.Contains(t, ground.Verdict.Sentence, "there is no flight in it")
}

// Without --logger, a named program folder lends its only logger; with several it asks which. A log of another kind is told so at
// once.
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
	const logger = "\n[logger.%]\ntime = { column = \"t\", unit = \"s\" }\nchannels = [{ column = \"tube\", is = \"airspeed\", unit = \"m/s\" }, { column = \"thr\", is = \"throttle\", unit = \"%\" }]\n"
	one := strings.Replace(logger, ", { column = \"thr\", is = \"throttle\", unit = \"%\" }", "", 1)
	for _, name := range []string{"box", "spare"} {
		content = append(content, []byte(strings.Replace(one, "%", name, 1))...)
		require.NoError(t, os.WriteFile(file, content, 0o644))
		got = wingproof("look", log, "--program", dir)
		if name == "box" {
			require.Zero(t, got.status, got.err)
			require.Contains(t, got.stdout, "Read as logger box")
		}
	}
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, "add --logger with one of box, spare")

	content = append(content, []byte(strings.Replace(logger, "%", "other", 1))...)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(content), "[logger.box]", "[logger.fourth]", 1)), 0o644))
	require.NoError(t, os.WriteFile(log, []byte("uhr,fahrt\n0,20\n0.1,21\n"), 0o644))
	got = wingproof("look", log, "--program", dir, "--logger", "other")
	require.Equal(t, 2, got.status)
	require.Contains(t, got.err, `no column "t"`)
	require.Contains(t, got.err, "and 2 more like it")
	require.Contains(t, got.err, "seems to be of another logger than other")
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
