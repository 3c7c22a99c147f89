package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// generous bounds the wait for a server, so that a test that waits in vain ends.
const generous = 2 * time.Minute

// firstPage is what serve tells when the first page is there.
const firstPage = "the page is that of the folder"

// hearing is a stream that says when a text was written to it.
type hearing struct {
	mu    sync.Mutex
	all   bytes.Buffer
	text  string
	heard chan struct{}
}

func listenFor(text string) *hearing { return &hearing{text: text, heard: make(chan struct{})} }

// Write keeps what is written.
func (h *hearing) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	before := strings.Contains(h.all.String(), h.text)
	h.all.Write(p)
	if !before && strings.Contains(h.all.String(), h.text) {
		close(h.heard)
	}
	return len(p), nil
}

func (h *hearing) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.all.String()
}

func (h *hearing) wait(t *testing.T) {
	t.Helper()
	select {
	case <-h.heard:
	case <-time.After(generous):
		t.Fatalf("%q did not come:\n%s", h.text, h)
	}
}

// requireServes runs serve until its first page is there, and ends it as Ctrl-C does. A port that nobody asked for may be
// taken on this computer.
func requireServes(t *testing.T, args []string) {
	t.Helper()
	if !slices.Contains(args, "--port") {
		args = append(args, "--port", "0")
	}
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	out, told := listenFor("http://127.0.0.1:"), listenFor(firstPage)
	status := make(chan int, 1)
	go func() { status <- run(ctx, streams{In: strings.NewReader(""), Out: out, Err: told}, args) }()
	out.wait(t)
	told.wait(t)
	interrupt()
	require.Zero(t, <-status, told.String())
}

// soundFolder lays out the small program folder of the scripts.
func soundFolder(t *testing.T) string {
	t.Helper()
	sound, err := txtar.ParseFile(filepath.Join(scriptFolder, "folder", "sandreed.txtar"))
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "sandreed")
	require.NoError(t, layOut(sound, dir))
	require.NoError(t, withoutForeplane(dir))
	return dir
}

// The program as it is installed: it prints where it listens, is asked, and ends at Ctrl-C with status 0; the folder is as it was.
func TestServeAsInstalled(t *testing.T) {
	dir := soundFolder(t)
	before, err := listing(dir)
	require.NoError(t, err)
	out, told := listenFor("\n"), listenFor(firstPage)
	c := exec.Command("wingproof", "serve", "--program", dir, "--port", "0", "--json")
	c.Stdout, c.Stderr = out, told
	require.NoError(t, c.Start())
	defer func() { _ = c.Process.Kill() }()
	out.wait(t)
	told.wait(t)

	var doc serveDocument
	require.NoError(t, json.Unmarshal([]byte(out.String()), &doc))
	require.Equal(t, 1, strings.Count(out.String(), "\n"), "one line")
	require.Regexp(t, `^http://127\.0\.0\.1:\d+/$`, doc.Address)
	require.Equal(t, []string{doc.Address}, doc.Addresses)
	require.Equal(t, dir, doc.Folder)
	require.False(t, doc.Network)
	require.NotContains(t, told.String(), "warning")
	got, err := http.Get(doc.Address)
	require.NoError(t, err)
	body, err := io.ReadAll(got.Body)
	require.NoError(t, err)
	require.NoError(t, got.Body.Close())
	require.Equal(t, http.StatusOK, got.StatusCode)
	require.Contains(t, string(body), `id="live" data-page="`)
	require.Contains(t, string(body), "Sandreed")
	require.Contains(t, got.Header.Get("Content-Security-Policy"), "connect-src 'self'")

	require.NoError(t, c.Process.Signal(os.Interrupt))
	require.NoError(t, c.Wait(), told.String())
	after, err := listing(dir)
	require.NoError(t, err)
	require.Equal(t, before, after, "serve writes nothing but the cache")
}

func TestServeSaysThatThePortIsTaken(t *testing.T) {
	other, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer func() { require.NoError(t, other.Close()) }()
	port := other.Addr().(*net.TCPAddr).Port
	got := wingproof("serve", "--program", soundFolder(t), "--port", strconv.Itoa(port))
	require.Equal(t, 1, got.status)
	require.Contains(t, got.err, "serve: port "+strconv.Itoa(port)+" of 127.0.0.1 is taken")
	require.Contains(t, got.err, "--port 0")
	require.Empty(t, got.stdout)
}

// Who lets others read is told what they can read.
func TestServeWarnsOfTheNetwork(t *testing.T) {
	var out, told bytes.Buffer
	at := net.TCPAddrFromAddrPort(netip.MustParseAddrPort("0.0.0.0:26417"))
	require.NoError(t, tellAddress(streams{Out: &out, Err: &told}, serveOptions{}, at, "/shop/sandreed"))
	require.Contains(t, out.String(), "http://127.0.0.1:26417/\n")
	require.NotContains(t, out.String(), "0.0.0.0")
	require.Contains(t, told.String(), "warning: everybody who reaches this computer over the network can now read, without a password")
	require.Contains(t, told.String(), "figure and number of sandreed")
}

// The sheets of the record are served as they were kept, and no other file of the folder.
func TestServeHasTheIssuedSheets(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"sheet-1.html", "sheet-1-evidence.html", "sheet-3.html", "notes.html"} {
		require.NoError(t, writeOver(filepath.Join(dir, "report", name), []byte(name)))
	}
	p := &program.Program{Dir: dir, Sheets: []program.Sheet{{Number: 1}, {Number: 2}}}
	fresh := report.File{Name: "sheet-1.html", Body: []byte("from the list")}
	require.Equal(t, []report.File{fresh, {Name: "sheet-1-evidence.html", Body: []byte("sheet-1-evidence.html")}}, withIssued([]report.File{fresh}, p))
}

// A folder that went is told in words, without where it was: others may read it.
func TestServeTellsThatTheFolderWent(t *testing.T) {
	dir := soundFolder(t)
	require.NoError(t, os.Remove(filepath.Join(dir, "program.toml")))
	_, err := readServed(dir)
	require.EqualError(t, err, "there is no program.toml in the folder sandreed any more; put it back")
	require.NoError(t, os.RemoveAll(dir))
	_, err = readServed(dir)
	require.EqualError(t, err, "the program folder sandreed is gone; put it back where it was")
}
