package live

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Times of watching. A spreadsheet saves in several steps, a log takes seconds to copy: a change counts when the folder has been
// quiet for a moment, but a folder that never rests is looked at all the same.
const (
	quiet     = 150 * time.Millisecond
	longest   = 2 * time.Second
	pollTime  = 2 * time.Second
	pollShare = 20 // at most one part in so many of the time is spent on looking
)

// mostWatched is for how many folders the system is asked to tell changes; beyond, looking every few seconds has to do.
const mostWatched = 500

// watcher tells when something in a folder changes. The system's word comes at once but not from every network share; so it looks at
// sizes and times every few seconds too.
type watcher struct {
	dir     string
	poll    time.Duration     // between two looks
	events  *fsnotify.Watcher // nil: the system tells nothing
	watched map[string]os.FileInfo
	last    snapshot
}

// watch prepares a watcher on the folder as it is now.
func watch(dir string) *watcher {
	w := &watcher{dir: dir, poll: pollTime, watched: map[string]os.FileInfo{}}
	w.events, _ = fsnotify.NewWatcher() // without it, looking has to do
	w.last = take(dir)
	w.follow(w.last)
	return w
}

// run calls changed behind every change until ctx ends.
func (w *watcher) run(ctx context.Context, changed func()) {
	var told <-chan fsnotify.Event
	var failed <-chan error
	if w.events != nil {
		told, failed = w.events.Events, w.events.Errors
		defer func() { _ = w.events.Close() }()
	}
	timer := time.NewTimer(w.poll)
	defer timer.Stop()
	for {
		sure := false
		select {
		case <-ctx.Done():
			return
		case event := <-told:
			if sure = w.matters(event); !sure {
				continue
			}
		case <-failed: // more happened than the system could tell
		case <-timer.C:
		}
		begin := time.Now()
		now := take(w.dir)
		timer.Reset(max(w.poll, pollShare*time.Since(begin)))
		if !sure && maps.Equal(now, w.last) {
			continue
		}
		if now = w.settled(ctx, now, told); ctx.Err() != nil {
			return
		}
		w.last = now
		w.follow(now)
		changed()
	}
}

// settled waits until the folder rests and returns what it shows then.
func (w *watcher) settled(ctx context.Context, now snapshot, told <-chan fsnotify.Event) snapshot {
	end := time.Now().Add(longest)
	for time.Now().Before(end) {
		w.follow(now) // a folder that came must not fill unseen
		moved := wait(ctx, quiet, told, w.matters)
		next := take(w.dir)
		same := maps.Equal(now, next)
		if now = next; ctx.Err() != nil || same && !moved {
			break
		}
	}
	return now
}

// wait lets a time pass and tells whether something that matters happened meanwhile.
func wait(ctx context.Context, d time.Duration, told <-chan fsnotify.Event, matters func(fsnotify.Event) bool) (moved bool) {
	timer := time.NewTimer(d)
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return moved
		case <-timer.C:
			return moved
		case event := <-told:
			moved = matters(event) || moved
		}
	}
}

// matters tells whether an event is about a file of the program's, and about more than its permissions.
func (w *watcher) matters(event fsnotify.Event) bool {
	if event.Op&^fsnotify.Chmod == 0 || event.Name == "" {
		return false
	}
	rel, err := filepath.Rel(w.dir, event.Name)
	if err != nil {
		return true
	}
	names := strings.Split(filepath.ToSlash(rel), "/")
	for i, name := range names {
		if name != "." && (passedOver(name) || i == 0 && ownFolders[name]) {
			return false
		}
	}
	return true
}

// follow asks the system to tell changes in every folder of a snapshot, and forgets folders that went or became others.
func (w *watcher) follow(s snapshot) {
	if w.events == nil {
		return
	}
	for path := range w.watched {
		if !s[path].folder {
			_ = w.events.Remove(path) // it may have gone with its folder
			delete(w.watched, path)
		}
	}
	for path, t := range s {
		if !t.folder {
			continue
		}
		info, err := os.Stat(path)
		before, had := w.watched[path]
		if err != nil || had && os.SameFile(before, info) || !had && len(w.watched) >= mostWatched {
			continue
		}
		if had {
			_ = w.events.Remove(path)
			delete(w.watched, path)
		}
		if w.events.Add(path) == nil {
			w.watched[path] = info
		}
	}
}
