package live

import (
	"context"
	"errors"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A change of the folder becomes a new page, and an open page is told so.
func TestChangeBecomesANewPage(t *testing.T) {
	seen := make(chan struct{}) // that the second report is being made
	s := opened(t, func(ctx context.Context, s *shop, progress func(int, int, string)) (Report, error) {
		if builds(s) > 0 {
			<-seen
		}
		return s.repeat(ctx, progress)
	})
	l := s.listen(t, "index.html")
	before := l.next(kindPage)
	require.NotEmpty(t, before.Page)
	s.write(t, "note.txt", "second")
	working := l.next(kindWorking)
	require.Equal(t, before.Page, working.Page, "the page stays while another is worked out")
	close(seen)
	after := l.until(func(e event) bool { return e.Kind == kindPage && e.Page != before.Page })
	require.Contains(t, after.Status, "this page renews itself")
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>second</p>")
}

// A page that says the same after a change is not renewed.
func TestSamePageIsNotRenewed(t *testing.T) {
	s := opened(t, nil)
	l := s.listen(t, "methods.html")
	before := l.next(kindPage)
	s.write(t, "note.txt", "second")
	after := l.until(func(e event) bool { return e.Kind == kindPage && builds(s) > 1 })
	require.Equal(t, before.Page, after.Page)
}

// While the folder has mistakes the last good page stays, headed by all of them; mending takes the head away.
func TestMistakeKeepsTheLastGoodPage(t *testing.T) {
	s := opened(t, nil)
	l := s.listen(t, "index.html")
	before := l.next(kindPage)
	s.write(t, "note.txt", "!bad")
	wrong := l.next(kindMistake)
	require.Equal(t, before.Page, wrong.Page)
	require.Equal(t, []string{"note.txt:1:1: !bad; write it without", "note.txt:2:1: more of that; write less"}, wrong.Notes[0].Lines)
	require.Contains(t, wrong.Notes[0].Head, "It shows the folder as it was at "+before.AsOf)
	require.Equal(t, []string{"the record is broken"}, wrong.Notes[1].Lines, "and its alarms")
	got := s.ask(t, "GET", "/")
	require.Equal(t, http.StatusOK, got.status)
	require.Contains(t, got.body, "<p>first</p>")
	require.Contains(t, got.body, "<li><code>note.txt:2:1: more of that; write less</code></li>")
	require.Contains(t, s.ask(t, "GET", "/board.html").body, "<li><code>note.txt:1:1: !bad; write it without</code></li>")

	s.write(t, "note.txt", "mended")
	mended := l.next(kindPage)
	require.Len(t, mended.Notes, 1, "the alarm alone")
	require.NotContains(t, s.ask(t, "GET", "/").body, "!bad")
}

// The first report may fail too: the page that stands in says why and gives way to the first good one.
func TestFirstReportMayFail(t *testing.T) {
	release := make(chan struct{})
	s := opened(t, func(ctx context.Context, s *shop, progress func(int, int, string)) (Report, error) {
		select {
		case <-release:
		case <-ctx.Done():
			return Report{}, ctx.Err()
		}
		return s.repeat(ctx, progress)
	})
	l := s.listen(t, "index.html")
	require.Equal(t, kindWorking, l.next("").Kind)
	got := s.ask(t, "GET", "/flight-F01.html")
	require.Equal(t, http.StatusOK, got.status)
	require.Contains(t, got.body, "Invented shop")
	require.Contains(t, got.body, "No page yet")
	require.Contains(t, got.head.Get("Content-Security-Policy"), "connect-src 'self'")
	require.Equal(t, http.StatusNotFound, s.ask(t, "GET", "/evidence.json").status)
	s.write(t, "note.txt", "!bad")
	close(release)
	wrong := l.next(kindMistake)
	require.Empty(t, wrong.Page)
	require.Empty(t, wrong.AsOf)
	require.Equal(t, "No page can be made yet:", wrong.Notes[0].Head)
	require.Contains(t, s.ask(t, "GET", "/").body, "<li><code>note.txt:1:1: !bad; write it without</code></li>")
	s.write(t, "note.txt", "mended")
	require.NotEmpty(t, l.next(kindPage).Page)
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>mended</p>")
}

// A folder that is removed and put back.
func TestFolderGoesAndComes(t *testing.T) {
	s := opened(t, nil)
	l := s.listen(t, "index.html")
	l.next(kindPage)
	away := s.dir + "-away"
	require.NoError(t, os.Rename(s.dir, away))
	require.Equal(t, []string{"the folder is gone"}, l.next(kindMistake).Notes[0].Lines)
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>first</p>")
	require.NoError(t, os.WriteFile(filepath.Join(away, "note.txt"), []byte("back"), 0o644))
	require.NoError(t, os.Rename(away, s.dir))
	require.NotEmpty(t, l.next(kindPage).Page)
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>back</p>")
	was := s.listen(t, "index.html").next("").Page
	s.write(t, "note.txt", "and again")
	l.until(func(e event) bool { return e.Kind == kindPage && e.Page != was })
}

// What goes wrong inside is told like a mistake, and the server goes on.
func TestFailureInsideIsTold(t *testing.T) {
	s := opened(t, func(ctx context.Context, s *shop, progress func(int, int, string)) (Report, error) {
		r, err := s.repeat(ctx, progress)
		switch {
		case err != nil:
			panic("an index out of range")
		case string(r.Files[0].Body) == "":
			return Report{}, errors.New("never")
		}
		return r, nil
	})
	l := s.listen(t, "index.html")
	l.next(kindPage)
	s.write(t, "note.txt", "!bad")
	require.Contains(t, l.next(kindMistake).Notes[0].Lines[0], "an index out of range")
	s.write(t, "note.txt", "mended")
	l.next(kindPage)
}

// A report without a board is not put in the place of one that has it.
func TestReportWithoutItsFirstPageIsRefused(t *testing.T) {
	whole := true
	s := opened(t, func(context.Context, *shop, func(int, int, string)) (Report, error) {
		if whole {
			whole = false
			return reportOf("whole"), nil
		}
		return Report{}, nil
	})
	l := s.listen(t, "index.html")
	l.next(kindPage)
	s.write(t, "note.txt", "second")
	require.Contains(t, l.next(kindMistake).Notes[0].Lines[0], "index.html")
	require.Contains(t, s.ask(t, "GET", "/").body, "whole")
}
