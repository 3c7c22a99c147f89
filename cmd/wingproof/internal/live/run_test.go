package live

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// steered is a runner whose builds a test ends by hand.
type steered struct {
	board   *board
	changed chan struct{}
	begun   chan context.Context // one for each build
	end     chan Report
	atOnce  atomic.Int32
	most    atomic.Int32
}

func steer(t *testing.T) *steered {
	t.Helper()
	s := &steered{board: newBoard(state{}), changed: make(chan struct{}, 1), begun: make(chan context.Context, 16), end: make(chan Report)}
	r := &runner{build: s.build, board: s.board, now: time.Now, tell: func(string) {}, changed: s.changed}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { r.run(ctx); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	return s
}

func (s *steered) build(ctx context.Context, _ func(int, int, string)) (Report, error) {
	s.most.Store(max(s.most.Load(), s.atOnce.Add(1)))
	defer s.atOnce.Add(-1)
	s.begun <- ctx
	select {
	case <-ctx.Done():
		return Report{}, fmt.Errorf("judge: %w", ctx.Err())
	case r := <-s.end:
		return r, nil
	}
}

// wait waits until the board is as a test wants it.
func (s *steered) wait(t *testing.T, fits func(state) bool) {
	t.Helper()
	late := time.After(generous)
	for {
		now, changed := s.board.look()
		if fits(now) {
			return
		}
		select {
		case <-changed:
		case <-late:
			t.Fatalf("the board stays %+v", now)
		}
	}
}

func shows(kind, text string) func(state) bool {
	return func(s state) bool {
		return s.kind == kind && s.pages != nil && string(s.pages.files[first].body) == string(reportOf(text).Files[0].Body)
	}
}

// A change during a run calls it off; the run behind it goes to its end, and the change that came meanwhile gets one run more.
func TestRunsAreOneAtATime(t *testing.T) {
	s := steer(t)
	one := <-s.begun
	s.changed <- struct{}{}
	two := <-s.begun
	require.Error(t, one.Err(), "called off: it read a folder that is no more")
	s.changed <- struct{}{}
	s.end <- reportOf("two")
	require.NoError(t, context.Cause(two), "left to its end")
	three := <-s.begun
	s.wait(t, shows(kindWorking, "two"))
	s.end <- reportOf("three")
	s.wait(t, shows(kindPage, "three"))
	require.NotNil(t, three)
	require.EqualValues(t, 1, s.most.Load())
	select {
	case <-s.begun:
		t.Fatal("a run without a change")
	default:
	}
}

func TestTimeLeft(t *testing.T) {
	at := time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC)
	s := state{kind: kindWorking, stage: "reading logs", done: 10, total: 40, begun: at, now: at.Add(5 * time.Second)}
	left, known := s.timeLeft()
	require.True(t, known)
	require.Equal(t, 15*time.Second, left, "half a second a step, thirty to go")
	require.Equal(t, "reading logs, 10 of 40, about 15 s left", s.progress())
	s.now = at.Add(time.Second)
	require.Equal(t, "reading logs, 10 of 40", s.progress(), "too early to say")
	s.kind = kindPage
	require.Empty(t, s.progress())
}

func TestRoughly(t *testing.T) {
	for d, want := range map[time.Duration]string{
		100 * time.Millisecond: "1 s", 3200 * time.Millisecond: "4 s", 11 * time.Second: "15 s", 89 * time.Second: "90 s", 100 * time.Second: "2 min", 10 * time.Minute: "10 min",
	} {
		require.Equal(t, want, roughly(d))
	}
}

// Steps that are told late do not turn progress back.
func TestProgressNeverFalls(t *testing.T) {
	b := newBoard(state{kind: kindWorking})
	r := &runner{board: b, now: time.Now}
	r.progress(3, 10, "reading logs")
	r.progress(2, 10, "lattice")
	now, _ := b.look()
	require.Equal(t, 3, now.done)
	require.Equal(t, "reading logs", now.stage)
}
