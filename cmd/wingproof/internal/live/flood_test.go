package live

import (
	"context"
	"io"
	"net"
	"net/http"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Whoever listens and does not read holds nobody up, and misses only what was overtaken.
func TestSlowClientsHoldNobodyUp(t *testing.T) {
	many := make(chan struct{})
	s := opened(t, func(ctx context.Context, s *shop, progress func(int, int, string)) (Report, error) {
		select {
		case <-many:
			for i := range 100_000 {
				progress(i, 100_000, "reading a log with a name as long as names of logs are")
			}
		default:
		}
		return s.repeat(ctx, func(int, int, string) {})
	})
	s.ready(t)
	for range 4 {
		c, err := net.Dial("tcp", s.address)
		require.NoError(t, err)
		defer func() { _ = c.Close() }()
		require.NoError(t, c.(*net.TCPConn).SetReadBuffer(1024))
		_, err = io.WriteString(c, "GET /events?page=index.html HTTP/1.1\r\nHost: "+s.address+"\r\n\r\n")
		require.NoError(t, err)
	}
	l := s.listen(t, "index.html")
	before := l.next("").Page
	close(many)
	s.write(t, "note.txt", "second")
	after := l.until(func(e event) bool { return e.Kind == kindPage && e.Page != before })
	require.NotEmpty(t, after.Page)
	require.Contains(t, s.ask(t, "GET", "/").body, "second")
}

// Many at once, of every kind, and the server answers the next one.
func TestFlood(t *testing.T) {
	s := opened(t, nil).ready(t)
	s.client.Transport = &http.Transport{MaxConnsPerHost: 100}
	var group sync.WaitGroup
	for i := range 60 {
		group.Go(func() {
			for range 20 {
				s.tolerant([]string{"/", "/figures/polar.svg", "/nothing", "/%2e%2e/note.txt"}[i%4])
			}
		})
		group.Go(func() { // connects, says half a word, and goes
			if c, err := net.Dial("tcp", s.address); err == nil {
				_, _ = io.WriteString(c, "GET / HT")
				_ = c.Close()
			}
		})
		group.Go(func() { s.glance() })
		group.Go(func() { _ = s.ask0("POST") })
	}
	group.Wait()
	require.Equal(t, http.StatusOK, s.ask(t, "GET", "/").status)
	l := s.listen(t, "index.html")
	before := l.next("").Page
	s.write(t, "note.txt", "after the flood")
	l.until(func(e event) bool { return e.Kind == kindPage && e.Page != before })
}

// tolerant asks and reads; a refused connection is part of a flood.
func (s *shop) tolerant(path string) {
	if got, err := s.client.Get("http://" + s.address + path); err == nil {
		_, _ = io.Copy(io.Discard, got.Body)
		_ = got.Body.Close()
	}
}

func (s *shop) ask0(method string) error {
	r, err := http.NewRequest(method, "http://"+s.address+"/", nil)
	if err != nil {
		return err
	}
	got, err := s.client.Do(r)
	if err == nil {
		err = got.Body.Close()
	}
	return err
}

// glance listens and goes at once.
func (s *shop) glance() {
	if got, err := s.client.Get("http://" + s.address + "/events?page=index.html"); err == nil {
		_, _ = got.Body.Read(make([]byte, 10))
		_ = got.Body.Close()
	}
}

// One computer opens so many streams and no more; a place that is given back is free for the next.
func TestStreamsAreCounted(t *testing.T) {
	s := opened(t, nil).ready(t)
	var open []*listening
	for range mostStreamsEach {
		l := s.listen(t, "index.html")
		l.next("")
		open = append(open, l)
	}
	got := s.ask(t, "GET", "/events?page=index.html")
	require.Equal(t, http.StatusServiceUnavailable, got.status)
	require.Equal(t, http.StatusOK, s.ask(t, "GET", "/").status, "pages are read all the same")
	open[0].cancel()
	require.Eventually(t, func() bool {
		again, err := s.client.Get("http://" + s.address + "/events?page=index.html")
		if err != nil {
			return false
		}
		defer func() { _ = again.Body.Close() }()
		return again.StatusCode == http.StatusOK
	}, generous, 10*time.Millisecond)
}

func TestCounted(t *testing.T) {
	c := newCounted(3, 2)
	require.True(t, c.enter("a"))
	require.True(t, c.enter("a"))
	require.False(t, c.enter("a"), "two of each")
	require.True(t, c.enter("b"))
	require.False(t, c.enter("c"), "three in all")
	c.leave("a")
	require.True(t, c.enter("c"))
	for _, address := range []string{"a", "b", "c"} {
		c.leave(address)
	}
	require.Empty(t, c.of)
	require.Zero(t, c.all)
}

// Connections beyond the count are closed at once; those within are served.
func TestConnectionsAreCounted(t *testing.T) {
	inner, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	l := limited{inner, newCounted(10, 1)}
	accepted := make(chan net.Conn, 10)
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				close(accepted)
				return
			}
			accepted <- c
		}
	}()
	dial := func() net.Conn {
		c, err := net.Dial("tcp", inner.Addr().String())
		require.NoError(t, err)
		t.Cleanup(func() { _ = c.Close() })
		require.NoError(t, c.SetDeadline(time.Now().Add(generous)))
		return c
	}
	dial()
	one := <-accepted
	_, err = dial().Read(make([]byte, 1))
	require.Error(t, err, "closed")
	require.NotErrorIs(t, err, context.DeadlineExceeded)
	require.NoError(t, one.Close())
	dial()
	require.NoError(t, (<-accepted).Close())
	require.NoError(t, inner.Close())
	for range accepted {
	}
}

// An end lets nobody wait, whoever listens.
func TestEnds(t *testing.T) {
	s := opened(t, nil).ready(t)
	l := s.listen(t, "index.html")
	l.next("")
	s.closed(t)
	for l.lines.Scan() {
	}
	_, err := net.Dial("tcp", s.address)
	require.Error(t, err)
}
