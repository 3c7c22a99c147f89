package live

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
	"github.com/stretchr/testify/require"
)

// watched is a folder under a watcher.
type watched struct {
	t       *testing.T
	dir     string
	changed chan struct{}
}

// watching watches a folder with logs and a shape. deaf: the system tells nothing, as on many network shares.
func watching(t *testing.T, deaf bool) watched {
	t.Helper()
	f := watched{t, t.TempDir(), make(chan struct{}, 100)}
	for _, name := range []string{"program.toml", "parts.csv", "logs/F01.csv", "shape/wing.csv", "report/index.html", ".wingproof/results/a", ".git/HEAD"} {
		f.write(name, "as it was")
	}
	w := watch(f.dir)
	require.NotNil(t, w.events)
	if deaf {
		require.NoError(t, w.events.Close())
		w.events, w.poll = nil, 10*time.Millisecond
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { w.run(ctx, func() { f.changed <- struct{}{} }); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	return f
}

func (f watched) write(name, text string) {
	f.t.Helper()
	path := filepath.Join(f.dir, filepath.FromSlash(name))
	require.NoError(f.t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(f.t, os.WriteFile(path, []byte(text), 0o644))
}

// tells waits for the word that something changed.
func (f watched) tells(what string) {
	f.t.Helper()
	select {
	case <-f.changed:
	case <-time.After(generous):
		f.t.Fatal("nothing was told of " + what)
	}
}

func TestChangesAreTold(t *testing.T) {
	for name, deaf := range map[string]bool{"by the system": false, "by looking": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			f := watching(t, deaf)
			f.write("parts.csv", "something longer than it was")
			f.tells("a table")
			f.write("logs/F02.csv", "a new log")
			f.tells("a log")
			f.write("shape/new/tall/winglet.csv", "in new folders")
			f.tells("a new folder")
			f.write("shape/new/tall/winglet.csv", "changed in new folders")
			f.tells("a file of a new folder")
			require.NoError(t, os.Remove(filepath.Join(f.dir, "logs", "F01.csv")))
			f.tells("a log that went")
			require.NoError(t, os.Rename(filepath.Join(f.dir, "logs"), filepath.Join(f.dir, "old logs")))
			f.tells("a folder that was renamed")
			f.write("kept.csv", "new")
			f.tells("a new table")
		})
	}
}

// A spreadsheet writes a copy beside the table and puts it in its place.
func TestReplacedFileIsToldOnce(t *testing.T) {
	f := watching(t, false)
	f.write(".~lock.parts.csv#", "lock")
	f.write("lu1234.tmp", "the new table")
	require.NoError(t, os.Remove(filepath.Join(f.dir, "parts.csv")))
	require.NoError(t, os.Rename(filepath.Join(f.dir, "lu1234.tmp"), filepath.Join(f.dir, "parts.csv")))
	require.NoError(t, os.Remove(filepath.Join(f.dir, ".~lock.parts.csv#")))
	f.tells("the table")
	f.quietUntil("weighings.csv")
}

// quietUntil tells that nothing before the next real change was told.
func (f watched) quietUntil(name string) {
	f.t.Helper()
	require.Empty(f.t, f.changed)
	f.write(name, "a change that counts")
	f.tells(name)
	require.Empty(f.t, f.changed)
}

// What this program writes, what keeps versions, and what editors leave for a moment is no change.
func TestPassedOver(t *testing.T) {
	dir := t.TempDir()
	f := watched{t: t, dir: dir}
	f.write("parts.csv", "as it was")
	f.write("report/index.html", "as it was")
	w := watch(dir)
	require.NotNil(t, w.events)
	defer func() { require.NoError(t, w.events.Close()) }()
	before := take(dir)
	for _, name := range []string{
		"report/index.html", "report/figures/polar.svg", ".wingproof/results/b", ".git/index", ".parts.csv.swp", "parts.csv~", "~$parts.xlsx", "#parts.csv#", ".#parts.csv", ".~lock.parts.csv#", "lu12.tmp", "logs.part", "4913", "F09.csv.crdownload",
	} {
		f.write(name, "for a moment")
		require.Equal(t, before, take(dir), name)
		require.False(t, w.matters(fsnotify.Event{Name: filepath.Join(dir, filepath.FromSlash(name)), Op: fsnotify.Write}), name)
	}
	for _, name := range []string{"parts.csv", "logs/F01.csv", "shape/report/wing.csv"} {
		require.True(t, w.matters(fsnotify.Event{Name: filepath.Join(dir, filepath.FromSlash(name)), Op: fsnotify.Write}), name)
		require.False(t, w.matters(fsnotify.Event{Name: filepath.Join(dir, filepath.FromSlash(name)), Op: fsnotify.Chmod}), name)
	}
}

func TestSnapshot(t *testing.T) {
	dir := t.TempDir()
	f := watched{t: t, dir: dir}
	f.write("logs/F01.csv", "as it was")
	before := take(dir)
	require.Equal(t, before, take(dir))
	f.write("logs/F01.csv", "longer than it was")
	require.NotEqual(t, before, take(dir))
	require.Nil(t, take(filepath.Join(dir, "none")))
	require.Nil(t, take(filepath.Join(dir, "logs", "F01.csv")))
}

// A link to a folder is followed, one back into itself is not.
func TestSnapshotOfLinks(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	if err := os.Symlink(elsewhere, filepath.Join(dir, "logs")); err != nil {
		t.Logf("this system makes no links: %v", err)
		return
	}
	require.NoError(t, os.Symlink(dir, filepath.Join(elsewhere, "back")))
	before := take(dir)
	require.NoError(t, os.WriteFile(filepath.Join(elsewhere, "F01.csv"), []byte("log"), 0o644))
	after := take(dir)
	require.Len(t, after, len(before)+1)
	require.Contains(t, after, filepath.Join(dir, "logs", "F01.csv"))
}
