package live

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"time"

	"wingproof/cmd/wingproof/internal/report"
)

// Options of a server.
type Options struct {
	Dir      string            // program folder, watched
	Name     string            // of the program, for the page that stands in until there is one
	Listener net.Listener      // is closed behind the serving
	Build    Build             // makes the report
	Tell     func(line string) // what happened, for whoever started the server; nil: nobody
	Now      func() time.Time  // nil: the computer's clock
	Pause    time.Duration     // from a page to the work that makes it whole (Report.Whole), in which browsers load what there is
}

// grace is how long an end waits for answers under way and for a report that is being made.
const grace = 400 * time.Millisecond

// Serve hands out the report of a folder and renews it whenever the folder changes, until ctx ends. It returns an error only when it
// could not go on serving.
func Serve(ctx context.Context, o Options) error {
	o = o.whole()
	empty, err := report.Waiting(o.Name)
	if err != nil {
		return err
	}
	waiting, err := fileOf(report.File{Name: first, Body: empty}, "")
	if err != nil {
		return err
	}
	if waiting.page == nil {
		return errors.New("serve: the page that stands in has no place for its state")
	}
	begin := state{kind: kindWorking, begun: o.Now(), now: o.Now()}
	if err := begin.prepare(); err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	board := newBoard(begin)
	background := renew(ctx, o, board)
	s := &site{board: board, waiting: waiting, hosts: hostsOf(o.Listener.Addr()), streams: newCounted(mostStreams, mostStreamsEach)}
	err = s.serve(ctx, o.Listener)
	stop()
	select {
	case <-background:
	case <-time.After(grace): // a step of the study that cannot be cut short; nothing is half written
	}
	return err
}

func (o Options) whole() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Tell == nil {
		o.Tell = func(string) {}
	}
	return o
}

// renew watches the folder and makes reports of it until ctx ends; then the channel is closed.
func renew(ctx context.Context, o Options, b *board) <-chan struct{} {
	changed := make(chan struct{}, 1)
	w := watch(o.Dir) // before the first report is begun: no change falls in between
	r := &runner{build: o.Build, board: b, now: o.Now, tell: o.Tell, changed: changed, pause: o.Pause}
	var group sync.WaitGroup
	group.Go(func() {
		w.run(ctx, func() {
			select {
			case changed <- struct{}{}:
			default: // one is waiting already
			}
		})
	})
	group.Go(func() { r.run(ctx) })
	done := make(chan struct{})
	go func() {
		group.Wait()
		close(done)
	}()
	return done
}

// serve answers requests until ctx ends.
func (s *site) serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler: s, ReadHeaderTimeout: headerTime, ReadTimeout: requestTime, WriteTimeout: answerTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHeaderBytes,
		DisableGeneralOptionsHandler: true,
		BaseContext:                  func(net.Listener) context.Context { return ctx }, // so that streams end with the server
		ErrorLog:                     log.New(io.Discard, "", 0),                        // what strangers send is no news
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(limited{l, newCounted(mostConnections, mostConnectionsEach)}) }()
	select {
	case err := <-ended:
		_ = server.Close()
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), grace)
	defer cancel()
	if server.Shutdown(last) != nil {
		_ = server.Close() // whoever reads slowly is cut off
	}
	<-ended
	return nil
}
