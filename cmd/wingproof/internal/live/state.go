package live

import (
	"fmt"
	"math"
	"sync"
	"time"
)

// The kinds of state, as events name them.
const (
	kindWorking = "working" // something changed, a new report is being made
	kindPage    = "page"    // the report is that of the folder as it is
	kindMistake = "mistake" // no report can be made of the folder as it is
)

// state is all that a page can be told. Its fields are not changed once it is on the board.
type state struct {
	kind     string
	pages    *pages // of the last good report; nil: there is none yet
	stage    string // what is being done, while working
	done     int
	total    int
	begun    time.Time // of the work
	now      time.Time // of the last step
	mistakes []string  // why the last attempt gave no report; they stay until one does
	alert    []byte    // of mistakes and alarms, for pages that do not show alarms by themselves
	quiet    []byte    // of mistakes alone, for pages that do
}

// board holds the newest state. Whoever waits is told that there is a newer one, and looks: nobody is sent a queue.
type board struct {
	mu      sync.Mutex
	state   state
	changed chan struct{} // closed when the state is replaced
}

func newBoard(first state) *board { return &board{state: first, changed: make(chan struct{})} }

// look returns the newest state and a channel that is closed when it is no longer that.
func (b *board) look() (state, <-chan struct{}) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.state, b.changed
}

// put replaces the state by what change makes of it.
func (b *board) put(change func(*state)) {
	b.mu.Lock()
	defer b.mu.Unlock()
	change(&b.state)
	close(b.changed)
	b.changed = make(chan struct{})
}

// timeLeft estimates the rest of the work from the pace so far; known is false where that says nothing.
func (s state) timeLeft() (left time.Duration, known bool) {
	spent := s.now.Sub(s.begun)
	if s.kind != kindWorking || s.done < 2 || s.total <= s.done || spent < 2*time.Second {
		return 0, false
	}
	return time.Duration(float64(spent) * float64(s.total-s.done) / float64(s.done)), true
}

// progress says how far the work is: "reading logs, 7 of 38, about 20 s left".
func (s state) progress() string {
	if s.kind != kindWorking || s.stage == "" {
		return ""
	}
	text := s.stage
	if s.total > 0 {
		text += fmt.Sprintf(", %d of %d", s.done, s.total)
	}
	if left, known := s.timeLeft(); known {
		text += ", about " + roughly(left) + " left"
	}
	return text
}

// roughly writes a time that nobody should take for exact.
func roughly(d time.Duration) string {
	switch s := d.Seconds(); {
	case s < 10:
		return fmt.Sprintf("%.0f s", math.Max(1, math.Ceil(s)))
	case s < 90:
		return fmt.Sprintf("%.0f s", 5*math.Ceil(s/5))
	default:
		return fmt.Sprintf("%.0f min", math.Ceil(s/60))
	}
}
