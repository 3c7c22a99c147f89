package live

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"wingproof/cmd/wingproof/internal/report"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// generous is how long a test waits for what must happen; it passes as soon as it has.
const generous = 60 * time.Second

// shop is a server on a folder of its own whose report repeats what the folder holds.
type shop struct {
	dir     string
	address string // host:port
	client  *http.Client
	ended   chan error
	stop    context.CancelFunc

	mu    sync.Mutex
	built int
}

// making is a way of making the report of a shop.
type making func(ctx context.Context, s *shop, progress func(done, total int, what string)) (Report, error)

// opened starts a shop. way may be nil: the report then says what note.txt holds.
func opened(t *testing.T, way making) *shop {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	s := newShop(t, listener.Addr().String())
	build := s.repeat
	if way != nil {
		build = func(ctx context.Context, progress func(done, total int, what string)) (Report, error) {
			return way(ctx, s, progress)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	go func() {
		s.ended <- Serve(ctx, Options{Dir: s.dir, Name: "Invented shop", Listener: listener, Build: build})
	}()
	t.Cleanup(func() { s.closed(t) })
	return s
}

func newShop(t *testing.T, address string) *shop {
	t.Helper()
	s := &shop{dir: t.TempDir(), address: address, client: &http.Client{Transport: &http.Transport{}}, ended: make(chan error, 1)}
	s.write(t, "note.txt", "first")
	return s
}

// closed ends the server once and for all.
func (s *shop) closed(t *testing.T) {
	t.Helper()
	s.stop()
	select {
	case err, fresh := <-s.ended:
		if fresh {
			require.NoError(t, err)
			close(s.ended)
		}
	case <-time.After(generous):
		t.Fatal("the server did not end")
	}
	s.client.CloseIdleConnections()
}

func (s *shop) write(t *testing.T, name, text string) {
	t.Helper()
	path := filepath.Join(s.dir, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// repeat makes a report of note.txt; one that begins with ! is a mistake.
func (s *shop) repeat(ctx context.Context, progress func(done, total int, what string)) (Report, error) {
	s.mu.Lock()
	s.built++
	s.mu.Unlock()
	note, err := os.ReadFile(filepath.Join(s.dir, "note.txt"))
	if err != nil {
		return Report{}, errors.New("the folder is gone")
	}
	progress(1, 2, "reading notes")
	if strings.HasPrefix(string(note), "!") {
		return Report{}, errors.New("note.txt:1:1: " + string(note) + "; write it without\nnote.txt:2:1: more of that; write less")
	}
	return reportOf(string(note)), ctx.Err()
}

// reportOf is a small report: a page that tells its state, one that shows alarms, one as it was issued, and files.
func reportOf(text string) Report {
	body := func(inside string) []byte {
		return []byte(`<!DOCTYPE html><html><head><meta http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;; script-src 'sha256-a&#43;b='; connect-src 'self'"></head><body class="x">` + inside + report.LivePlace + "</body></html>")
	}
	return Report{Alarms: []string{"the record is broken"}, Files: []report.File{
		{Name: "index.html", Body: body("<p>" + text + "</p>")},
		{Name: "board.html", Body: body(`<div aria-label="Alarms">the record is broken</div>` + text)},
		{Name: "methods.html", Body: body("methods")},
		{Name: "sheet-1.html", Body: []byte("<html><body>as issued</body></html>")},
		{Name: "figures/polar.svg", Body: []byte("<svg xmlns='http://www.w3.org/2000/svg'/>")},
		{Name: "figures/polar.png", Body: []byte("\x89PNG")},
		{Name: "tables/parts.csv", Body: []byte("part\n")},
		{Name: "evidence.json", Body: []byte("{}")},
	}}
}

// answered is what came back.
type answered struct {
	status int
	head   http.Header
	body   string
}

func (s *shop) ask(t *testing.T, method, path string, change ...func(*http.Request)) answered {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), generous)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, method, "http://"+s.address+path, nil)
	require.NoError(t, err)
	for _, c := range change {
		c(r)
	}
	got, err := s.client.Do(r)
	require.NoError(t, err)
	defer func() { _ = got.Body.Close() }()
	body, err := io.ReadAll(got.Body)
	require.NoError(t, err)
	return answered{got.StatusCode, got.Header, string(body)}
}

// raw sends bytes as they are and returns the first line of the answer.
func (s *shop) raw(t *testing.T, text string) string {
	t.Helper()
	c, err := net.Dial("tcp", s.address)
	require.NoError(t, err)
	defer func() { _ = c.Close() }()
	require.NoError(t, c.SetDeadline(time.Now().Add(generous)))
	_, err = io.WriteString(c, text)
	require.NoError(t, err)
	line, err := bufio.NewReader(c).ReadString('\n')
	require.NoError(t, err)
	return strings.TrimSpace(line)
}

// listener is a page that listens.
type listening struct {
	t      *testing.T
	lines  *bufio.Scanner
	cancel func()
}

func (s *shop) listen(t *testing.T, page string) *listening {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), generous)
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+s.address+"/events?page="+page, nil)
	require.NoError(t, err)
	got, err := s.client.Do(r)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, got.StatusCode)
	require.Equal(t, "text/event-stream; charset=utf-8", got.Header.Get("Content-Type"))
	l := &listening{t, bufio.NewScanner(got.Body), func() { cancel(); _ = got.Body.Close() }}
	t.Cleanup(l.cancel)
	return l
}

// next is the next event of a kind, or any when kind is empty; those of others are passed over.
func (l *listening) next(kind string) event {
	l.t.Helper()
	named := ""
	for l.lines.Scan() {
		line := l.lines.Text()
		if name, found := strings.CutPrefix(line, "event: "); found {
			named = name
		}
		data, found := strings.CutPrefix(line, "data: ")
		if !found || named == "beat" || kind != "" && named != kind {
			continue
		}
		var e event
		require.NoError(l.t, json.Unmarshal([]byte(data), &e))
		require.Equal(l.t, named, e.Kind)
		return e
	}
	l.t.Fatalf("no event %q came: %v", kind, l.lines.Err())
	return event{}
}

// until is the next event that fits.
func (l *listening) until(fits func(event) bool) event {
	l.t.Helper()
	for {
		if e := l.next(""); fits(e) {
			return e
		}
	}
}

// ready waits for the first report.
func (s *shop) ready(t *testing.T) *shop {
	t.Helper()
	l := s.listen(t, "index.html")
	l.next(kindPage)
	l.cancel()
	return s
}

func builds(s *shop) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.built
}

func text(format string, args ...any) string { return fmt.Sprintf(format, args...) }
