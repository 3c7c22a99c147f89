package live

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// later is a shop whose report is whole only behind a second piece of work, which a test ends by hand.
type later struct {
	begun chan context.Context
	end   chan outcome
}

func newLater() *later { return &later{make(chan context.Context, 8), make(chan outcome)} }

func (l *later) make(ctx context.Context, s *shop, progress func(int, int, string)) (Report, error) {
	r, err := s.repeat(ctx, progress)
	r.Whole = func(ctx context.Context) (Report, error) {
		l.begun <- ctx
		select {
		case <-ctx.Done():
			return Report{}, ctx.Err()
		case out := <-l.end:
			return out.report, out.err
		}
	}
	return r, err
}

// A page is shown before it is whole, and again when it is: the reader's page learns of both, pages that stay as they were do not change.
func TestAPageIsShownBeforeItIsWhole(t *testing.T) {
	way := newLater()
	s := opened(t, way.make)
	l, other := s.listen(t, "index.html"), s.listen(t, "methods.html")
	early, methods := l.next(kindPage), other.next(kindPage)
	<-way.begun
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>first</p>")
	way.end <- outcome{report: reportOf("first, whole")}
	whole := l.next(kindPage)
	require.NotEqual(t, early.Page, whole.Page)
	require.Equal(t, early.AsOf, whole.AsOf, "both are of the same folder")
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>first, whole</p>")
	require.Equal(t, methods.Page, other.next(kindPage).Page)
	require.Equal(t, 1, builds(s))
}

// A change while the rest is being worked out calls that off and begins with the early page again, however often.
func TestAChangeCallsTheRestOff(t *testing.T) {
	way := newLater()
	s := opened(t, way.make)
	l := s.listen(t, "index.html")
	was := l.next(kindPage).Page
	for _, text := range []string{"second", "third"} {
		rest := <-way.begun
		s.write(t, "note.txt", text)
		now := l.until(func(e event) bool { return e.Kind == kindPage && e.Page != was })
		require.ErrorIs(t, rest.Err(), context.Canceled)
		require.Contains(t, s.ask(t, "GET", "/").body, "<p>"+text+"</p>")
		was = now.Page
	}
	<-way.begun
	way.end <- outcome{report: reportOf("third, whole")}
	l.until(func(e event) bool { return e.Kind == kindPage && e.Page != was })
	require.Contains(t, s.ask(t, "GET", "/").body, "<p>third, whole</p>")
}

// What goes wrong in the rest is told, and the early page stays.
func TestARestThatFailsLeavesTheEarlyPage(t *testing.T) {
	way := newLater()
	s := opened(t, way.make)
	l := s.listen(t, "index.html")
	early := l.next(kindPage)
	<-way.begun
	way.end <- outcome{err: errors.New("the rest is missing")}
	wrong := l.next(kindMistake)
	require.Equal(t, []string{"the rest is missing"}, wrong.Notes[0].Lines)
	require.Equal(t, early.Page, wrong.Page)
	s.write(t, "note.txt", "mended")
	l.next(kindPage)
	<-way.begun
	way.end <- outcome{report: reportOf("mended, whole")}
	require.Empty(t, l.next(kindPage).Notes[0].Tail, "the alarm alone")
}

// Browsers load a page before the work on its rest begins, and a change in that while comes first.
func TestTheRestWaitsForReaders(t *testing.T) {
	changed, board := make(chan struct{}, 1), newBoard(state{})
	r := &runner{board: board, now: time.Now, tell: func(string) {}, changed: changed, pause: time.Hour}
	begun := false
	whole := func(context.Context) (Report, error) {
		begun = true
		return reportOf("whole"), nil
	}
	changed <- struct{}{}
	require.True(t, r.complete(context.Background(), func() {}, whole, time.Now()))
	ended, stop := context.WithCancel(context.Background())
	stop()
	require.False(t, r.complete(ended, func() {}, whole, time.Now()))
	require.False(t, begun)
	r.pause = 0
	require.False(t, r.complete(context.Background(), func() {}, whole, time.Now()))
	require.True(t, begun)
}
