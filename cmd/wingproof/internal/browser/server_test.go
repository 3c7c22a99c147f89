package browser_test

import (
	"bufio"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// server is a running 'wingproof serve' on a folder of its own.
type server struct {
	dir     string // the program folder
	address string // of its first page
	stop    func() // ends it as Ctrl-C does, and waits
}

var servedAt = regexp.MustCompile(`http://\S+?:\d+/?`)

// serve starts the live page of a copy of the demo's folder on a free port, and waits for the first whole page.
func serve(t *testing.T) *server {
	t.Helper()
	s := &server{dir: copyOfShop(t)}
	wingproof, err := program()
	require.NoError(t, err)
	command := exec.Command(wingproof, "serve", "--program", s.dir, "--port", "0")
	out, err := command.StdoutPipe()
	require.NoError(t, err)
	command.Stderr = command.Stdout
	require.NoError(t, command.Start())
	s.stop = sync.OnceFunc(func() {
		_ = command.Process.Signal(os.Interrupt)
		_ = command.Wait()
	})
	t.Cleanup(s.stop)
	s.address = addressIn(t, out)
	s.awaitPage(t)
	return s
}

// addressIn reads what the server prints up to the address that it names, and lets it print on.
func addressIn(t *testing.T, out io.Reader) string {
	t.Helper()
	lines := bufio.NewReader(out)
	var told strings.Builder
	for {
		line, err := lines.ReadString('\n')
		told.WriteString(line)
		if found := servedAt.FindString(line); found != "" {
			go func() { _, _ = io.Copy(io.Discard, lines) }()
			return strings.TrimSuffix(found, "/") + "/"
		}
		require.NoError(t, err, "serve ended: %s", told.String())
	}
}

// awaitPage waits until the first page is worked out.
func (s *server) awaitPage(t *testing.T) {
	t.Helper()
	for begin := time.Now(); ; time.Sleep(20 * time.Millisecond) {
		answer, err := http.Get(s.address)
		require.NoError(t, err)
		body, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		require.NoError(t, answer.Body.Close())
		if strings.Contains(string(body), `id="board"`) {
			return
		}
		if time.Since(begin) > patience {
			t.Fatal("no board is served")
		}
	}
}

// edit replaces the one old text in a file of the folder, as a spreadsheet does that saves.
func (s *server) edit(t *testing.T, name, old, new string) {
	t.Helper()
	path := filepath.Join(s.dir, name)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(string(content), old), "%s holds %q", name, old)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(content), old, new, 1)), 0o600))
}
