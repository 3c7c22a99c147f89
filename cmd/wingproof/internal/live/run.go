package live

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"wingproof/cmd/wingproof/internal/report"
)

// Report is what one look at the program folder gives.
type Report struct {
	Files  []report.File // index.html among them
	Alarms []string      // of the board, for the pages that do not show them

	// Whole makes the same report with what takes longer than readers shall wait; nil: it is whole already. It stops soon after ctx ends.
	Whole func(ctx context.Context) (Report, error)
}

// Build makes the report of the folder as it is now. It stops soon after ctx ends; progress may be called from several goroutines.
// Each line of an error is shown as one mistake.
type Build func(ctx context.Context, progress func(done, total int, what string)) (Report, error)

// runner makes reports, one at a time, and puts them on the board.
type runner struct {
	build   Build
	board   *board
	now     func() time.Time
	tell    func(line string)
	changed <-chan struct{} // something in the folder changed; holds one signal at most
	pause   time.Duration   // from a page to the work that makes it whole
}

// run makes a report at once and another one behind every change, until ctx ends. A change during a run makes that run stale: it is
// called off and begun anew. The run behind one that was called off is left to its end whatever changes, so that a folder that never
// rests has a page all the same; what makes a report whole afterwards is called off by any change.
func (r *runner) run(ctx context.Context) {
	calledOff := false
	for ctx.Err() == nil {
		var again bool
		calledOff, again = r.once(ctx, !calledOff)
		if again {
			continue
		}
		select {
		case <-ctx.Done():
		case <-r.changed:
		}
	}
}

// outcome of one call of build.
type outcome struct {
	report Report
	err    error
}

// once makes one report. calledOff: a change made it stale and it was stopped, which mayStop allows. again: something changed meanwhile.
func (r *runner) once(ctx context.Context, mayStop bool) (calledOff, again bool) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	began := r.now()
	r.board.put(func(s *state) { s.kind, s.stage, s.done, s.total, s.begun, s.now = kindWorking, "", 0, 0, began, began })
	ended := make(chan outcome, 1)
	go func() {
		ended <- guarded(func() (Report, error) { return r.build(ctx, r.progress) })
	}()
	for {
		select {
		case <-r.changed:
			if again = true; mayStop {
				calledOff = true
				stop()
			}
		case out := <-ended:
			if calledOff && errors.Is(out.err, context.Canceled) {
				return true, true
			}
			shown := (ctx.Err() == nil || out.err == nil) && r.publish(out, began, "the page is that of the folder")
			if again || !shown || out.report.Whole == nil {
				return false, again
			}
			return false, r.complete(ctx, stop, out.report.Whole, began)
		}
	}
}

// complete puts a whole report in the place of the one that is on the board. A change calls it off; changed tells of one.
func (r *runner) complete(ctx context.Context, stop func(), whole func(context.Context) (Report, error), began time.Time) (changed bool) {
	select {
	case <-r.changed:
		return true
	case <-ctx.Done():
		return false
	case <-time.After(r.pause):
	}
	ended := make(chan outcome, 1)
	go func() {
		ended <- guarded(func() (Report, error) { return whole(ctx) })
	}()
	for {
		select {
		case <-r.changed:
			changed = true
			stop()
		case out := <-ended:
			if ctx.Err() == nil {
				r.publish(out, began, "and what took longer has followed")
			}
			return changed
		}
	}
}

// guarded calls a maker of reports; what goes wrong inside is an error like others, and the last page stays.
func guarded(make func() (Report, error)) (out outcome) {
	defer func() {
		if failed := recover(); failed != nil {
			out = outcome{err: fmt.Errorf("wingproof itself failed on this folder (%v); the command 'wingproof check' may say more", failed)}
		}
	}()
	made, err := make()
	return outcome{made, err}
}

func (r *runner) progress(done, total int, what string) {
	now := r.now()
	r.board.put(func(s *state) {
		if done >= s.done { // two goroutines may tell their steps in the other order
			s.stage, s.done, s.total, s.now = what, done, total, now
		}
	})
}

// publish puts a new report on the board and tells that it is done, or what stands in its way. shown: the board has it.
func (r *runner) publish(out outcome, began time.Time, done string) (shown bool) {
	var fresh *pages
	if out.err == nil {
		fresh, out.err = pagesOf(out.report, began)
	}
	r.board.put(func(s *state) {
		if out.err != nil {
			s.kind, s.mistakes = kindMistake, lines(out.err)
		} else {
			s.kind, s.mistakes, s.pages = kindPage, nil, fresh
		}
		if err := s.prepare(); err != nil {
			r.tell(err.Error())
		}
	})
	if out.err != nil {
		r.tell(moment(r.now()) + ": no new page\n" + out.err.Error())
		return false
	}
	r.tell(fmt.Sprintf("%s: %s (%.1f s)", moment(began), done, r.now().Sub(began).Seconds()))
	return true
}

// lines are the lines of an error that say something.
func lines(err error) []string {
	var out []string
	for line := range strings.SplitSeq(err.Error(), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	if len(out) == 0 {
		out = []string{"an error without words"}
	}
	return out
}
