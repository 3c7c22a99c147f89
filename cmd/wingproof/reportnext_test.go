package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/live"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// filesOf are the files of a report by name.
func filesOf(r live.Report) map[string]string {
	out := map[string]string{}
	for _, f := range r.Files {
		out[f.Name] = string(f.Body)
	}
	return out
}

// nextSection is what a page says of what to do next.
func nextSection(t *testing.T, page string) string {
	t.Helper()
	_, section, found := strings.Cut(page, `<section id="next"`)
	require.True(t, found)
	section, _, _ = strings.Cut(section, "</section>")
	return section
}

// built makes the served report of a folder.
func built(t *testing.T, dir string) live.Report {
	t.Helper()
	r, err := serveOptions{}.builder(dir)(context.Background(), func(int, int, string) {})
	require.NoError(t, err)
	return r
}

// A served page comes without its forecast first and with it afterwards; what shows no forecast stays as it was. Asked again, the folder has
// the forecast at once, with the same bytes, and 'report' and 'next' tell the same one.
func TestTheServedPageComesBeforeItsForecast(t *testing.T) {
	dir := smallShop(t)
	early := built(t, dir)
	require.NotNil(t, early.Whole)
	before := filesOf(early)
	require.Contains(t, nextSection(t, before[firstFile]), "The forecast is being worked out.")
	require.Contains(t, before[evidenceFile], `"next":null`)

	called, off := context.WithCancel(context.Background())
	off()
	_, err := early.Whole(called)
	require.ErrorIs(t, err, context.Canceled)

	whole, err := early.Whole(context.Background())
	require.NoError(t, err)
	require.Nil(t, whole.Whole)
	require.Equal(t, early.Alarms, whole.Alarms)
	after := filesOf(whole)
	require.Len(t, after, len(before))
	for name := range before {
		if name == firstFile || name == evidenceFile {
			require.NotEqual(t, before[name], after[name], name)
		} else {
			require.Equal(t, before[name], after[name], name)
		}
	}
	require.Equal(t, firstFile, whole.Files[len(whole.Files)-1].Name, "the board comes last")
	require.NotContains(t, nextSection(t, after[firstFile]), "being worked out")

	again := built(t, dir)
	require.Nil(t, again.Whole, "it is known")
	require.Equal(t, after, filesOf(again))

	got := wingproof("report", "--program", dir)
	require.Zero(t, got.status, got.err)
	require.Equal(t, nextSection(t, after[firstFile]), nextSection(t, read(t, filepath.Join(dir, "report", firstFile))))
	var doc struct {
		Next map[string]any `json:"next"`
	}
	require.NoError(t, json.Unmarshal([]byte(read(t, filepath.Join(dir, "report", evidenceFile))), &doc))
	told := document(t, "next", "--program", dir)
	require.Equal(t, true, doc.Next["forecast"])
	for key, value := range doc.Next {
		require.Equal(t, told[key], value, key)
	}
}

// Without parts nothing waits, and nothing is forecast.
func TestAFolderWithoutPartsHasNoForecast(t *testing.T) {
	dir := smallShop(t)
	path := filepath.Join(dir, "parts.csv")
	head, _, _ := strings.Cut(read(t, path), "\n")
	require.NoError(t, os.WriteFile(path, []byte(head+"\n"), 0o644))
	r := built(t, dir)
	require.Nil(t, r.Whole)
	require.Contains(t, nextSection(t, filesOf(r)[firstFile]), "parts.csv lists no parts")
	require.Contains(t, filesOf(r)[evidenceFile], `"next":null`)
}

// A forecast that cannot be made is said on the page; everything else is there.
func TestAForecastThatFailsCostsItselfAlone(t *testing.T) {
	p, err := program.Load(smallShop(t))
	require.NoError(t, err)
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged})
	require.NoError(t, err)
	head, err := boardHeadOf(st)
	require.NoError(t, err)
	m, err := makePages(context.Background(), st, head, report.Next{}, true)
	require.NoError(t, err)

	sound := st.Program
	broken := *sound
	broken.Limits = append([]program.Limit{{Name: "nonsense", Quantity: "nonsense", AtLeast: new(float64)}}, sound.Limits...)
	st.Program = &broken
	next, err := forecastNext(context.Background(), st, nil)
	st.Program = sound
	require.NoError(t, err)
	require.Equal(t, report.NextFailed, next.State)
	require.Contains(t, next.Failed, "nonsense")
	files, err := m.foretold(next)
	require.NoError(t, err)
	require.Len(t, files, len(m.files))
	page := filesOf(live.Report{Files: files})[firstFile]
	require.Contains(t, nextSection(t, page), "No forecast could be made: ")
	require.Contains(t, page, `id="board"`)
}
