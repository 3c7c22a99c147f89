package live

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFilesAreServedWithTheirKind(t *testing.T) {
	s := opened(t, nil).ready(t)
	for name, kind := range map[string]string{
		"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8", "/sheet-1.html": "text/html; charset=utf-8",
		"/figures/polar.svg": "image/svg+xml; charset=utf-8", "/figures/polar.png": "image/png", "/tables/parts.csv": "text/csv; charset=utf-8", "/evidence.json": "application/json; charset=utf-8",
	} {
		got, head := s.ask(t, "GET", name), s.ask(t, "HEAD", name)
		require.Equal(t, http.StatusOK, got.status, name)
		require.Equal(t, kind, got.head.Get("Content-Type"), name)
		require.Equal(t, http.StatusOK, head.status, name)
		require.Empty(t, head.body, name)
		require.Equal(t, text("%d", len(got.body)), head.head.Get("Content-Length"), name)
	}
}

// A served page tells its state: which it is, and, at its head, what must not be overlooked.
func TestPageTellsItsState(t *testing.T) {
	s := opened(t, nil).ready(t)
	page, board, issued := s.ask(t, "GET", "/").body, s.ask(t, "GET", "/board.html").body, s.ask(t, "GET", "/sheet-1.html").body
	require.Contains(t, page, "<p>first</p>")
	require.Regexp(t, `<div id="live" data-page="[0-9a-f]{16}" data-as-of="\d\d:\d\d:\d\d, \d+ [A-Z][a-z]+ \d{4}">`, page)
	require.Contains(t, page, "reload it to renew it")
	require.Contains(t, page, `<body class="x"><div id="live-alert" role="alert"><p class="head">Alarms on the board:</p><ul><li><code>the record is broken</code></li></ul></div><p>first`)
	require.Contains(t, board, `<div id="live-alert" role="alert"></div>`, "the board shows its alarms by itself")
	require.Equal(t, "<html><body>as issued</body></html>", issued, "a sheet stays as it was issued")
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	s := opened(t, nil).ready(t)
	for _, path := range []string{"/", "/sheet-1.html", "/figures/polar.svg", "/figures/polar.png", "/nothing", "/events?page=index.html"} {
		method := "GET"
		if strings.HasPrefix(path, "/events") {
			method = "HEAD"
		}
		head := s.ask(t, method, path).head
		require.Equal(t, "nosniff", head.Get("X-Content-Type-Options"), path)
		require.Equal(t, "no-referrer", head.Get("Referrer-Policy"), path)
		require.Equal(t, "DENY", head.Get("X-Frame-Options"), path)
		require.Equal(t, "same-origin", head.Get("Cross-Origin-Resource-Policy"), path)
		require.Equal(t, "same-origin", head.Get("Cross-Origin-Opener-Policy"), path)
		require.Contains(t, head.Get("Content-Security-Policy"), "default-src 'none'", path)
		require.Contains(t, head.Get("Content-Security-Policy"), "frame-ancestors 'none'", path)
	}
	require.Equal(t, "default-src 'none'; script-src 'sha256-a+b='; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
		s.ask(t, "GET", "/").head.Get("Content-Security-Policy"), "the policy that the page states, and more")
	require.NotContains(t, s.ask(t, "GET", "/figures/polar.svg").head.Get("Content-Security-Policy"), "script-src")
	require.Contains(t, s.ask(t, "GET", "/figures/polar.svg").head.Get("Content-Security-Policy"), "sandbox")
}

// No path leaves the list of files, however it is written.
func TestNoPathLeavesTheReport(t *testing.T) {
	s := opened(t, nil).ready(t)
	for _, path := range []string{
		"/note.txt", "/../note.txt", "/%2e%2e/note.txt", "/..%2fnote.txt", "/%2e%2e%5cnote.txt", "/..\\note.txt", "/index.html%00", "/%00", "//etc/passwd", "/etc/passwd", "/C:/note.txt", "/figures", "/figures/",
		"/figures/../index.html", "/./index.html", "/index.html/", "//index.html", "/INDEX.HTML", "/figures/%2e%2e/index.html", "/" + strings.Repeat("a", 8000), "/" + strings.Repeat("../", 1000), "/.git/config", "/.wingproof/", "/program.toml",
	} {
		require.Contains(t, s.raw(t, "GET "+path+" HTTP/1.1\r\nHost: "+s.address+"\r\nConnection: close\r\n\r\n"), "404", path[:min(len(path), 40)])
	}
	require.Contains(t, s.raw(t, "GET /"+strings.Repeat("a", 100_000)+" HTTP/1.1\r\nHost: "+s.address+"\r\n\r\n"), "431")
}

func TestOnlyReading(t *testing.T) {
	s := opened(t, nil).ready(t)
	for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND"} {
		got := s.ask(t, method, "/")
		require.Equal(t, http.StatusMethodNotAllowed, got.status, method)
		require.Equal(t, "GET, HEAD", got.head.Get("Allow"), method)
	}
	require.Contains(t, s.raw(t, "OPTIONS * HTTP/1.1\r\nHost: "+s.address+"\r\nConnection: close\r\n\r\n"), "405")
	require.Contains(t, s.raw(t, "GET / HTTP/1.1\r\nHost: "+s.address+"\r\nContent-Length: 5\r\n\r\n"), "413", "what is sent along is not waited for")
}

// Another name that somebody points to this computer gets nothing.
func TestOnlyItsOwnName(t *testing.T) {
	s := opened(t, nil).ready(t)
	port := s.address[strings.LastIndex(s.address, ":"):]
	as := func(host string) int {
		return s.ask(t, "GET", "/", func(r *http.Request) { r.Host = host }).status
	}
	for _, host := range []string{"127.0.0.1" + port, "localhost" + port, "LocalHost" + port} {
		require.Equal(t, http.StatusOK, as(host), host)
	}
	for _, host := range []string{"rebound.example" + port, "127.0.0.1", "127.0.0.1:1", "127.0.0.2" + port, "[::1]" + port, "localhost.rebound.example" + port, "127.0.0.1.rebound.example" + port, "0.0.0.0" + port} {
		require.Equal(t, http.StatusMisdirectedRequest, as(host), host)
	}
	require.Contains(t, s.raw(t, "GET / HTTP/1.0\r\n\r\n"), "421")
	require.Contains(t, s.raw(t, "GET http://rebound.example/ HTTP/1.1\r\nHost: "+s.address+"\r\nConnection: close\r\n\r\n"), "421")
}

// Another site's page may not listen, in a browser that says where a request comes from.
func TestOnlyOwnPagesListen(t *testing.T) {
	s := opened(t, nil).ready(t)
	for _, site := range []string{"cross-site", "same-site"} {
		require.Equal(t, http.StatusForbidden, s.ask(t, "GET", "/events", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", site) }).status)
	}
	require.Equal(t, http.StatusBadRequest, s.ask(t, "GET", "/events?page="+strings.Repeat("a", 600)).status)
}

func TestFilesThatDidNotChangeAreNotSentAgain(t *testing.T) {
	s := opened(t, nil).ready(t)
	tag := s.ask(t, "GET", "/figures/polar.svg").head.Get("ETag")
	require.Regexp(t, `^"[0-9a-f]{16}"$`, tag)
	having := func(tags string) answered {
		return s.ask(t, "GET", "/figures/polar.svg", func(r *http.Request) { r.Header.Set("If-None-Match", tags) })
	}
	require.Equal(t, http.StatusNotModified, having(tag).status)
	require.Equal(t, http.StatusNotModified, having(`"other", W/`+tag).status)
	require.Equal(t, http.StatusOK, having(`"other"`).status)
	require.Equal(t, "no-store", s.ask(t, "GET", "/").head.Get("Cache-Control"), "a page is always asked for")
}
