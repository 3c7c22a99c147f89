package live

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// How much of a folder is looked at: far more than a program holds, and little enough that a folder of something else, or one that
// holds itself, costs nothing.
const (
	mostEntries = 20000
	deepest     = 8
)

// passed over at the top of the folder: what this program writes.
var ownFolders = map[string]bool{"report": true}

// trace is what a file shows of itself without being read.
type trace struct {
	size   int64
	mod    int64 // ns
	folder bool
}

// snapshot is what a folder shows of itself: a trace by path. It is nil where there is no such folder.
type snapshot map[string]trace

// take looks at a folder and everything below it that matters.
func take(dir string) snapshot {
	info, err := os.Stat(dir)
	if err != nil || !info.IsDir() {
		return nil
	}
	s := snapshot{}
	s.add(dir, info, []fs.FileInfo{info})
	return s
}

// add puts a folder into the snapshot. above are the folders that it lies in, itself the last: a link back to one of them is not
// followed.
func (s snapshot) add(dir string, info fs.FileInfo, above []fs.FileInfo) {
	s[dir] = trace{folder: true} // its own time changes with files that are passed over
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, entry := range entries {
		if passedOver(entry.Name()) || len(above) == 1 && ownFolders[entry.Name()] || len(s) >= mostEntries {
			continue
		}
		path := filepath.Join(dir, entry.Name())
		info, err := os.Stat(path) // of what a link leads to
		switch {
		case err != nil:
			s[path] = trace{size: -1}
		case !info.IsDir():
			s[path] = trace{size: info.Size(), mod: info.ModTime().UnixNano()}
		case len(above) < deepest && !holds(above, info):
			s.add(path, info, append(above[:len(above):len(above)], info))
		}
	}
}

func holds(above []fs.FileInfo, info fs.FileInfo) bool {
	for _, a := range above {
		if os.SameFile(a, info) {
			return true
		}
	}
	return false
}

// passedOver tells whether a file is none of the program's: hidden ones (the cache, version keeping, locks of spreadsheets) and what
// editors and copying programs leave for a moment.
func passedOver(name string) bool {
	lower := strings.ToLower(name)
	if strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~") || strings.HasPrefix(name, "#") || strings.HasSuffix(name, "~") || name == "4913" {
		return true
	}
	switch filepath.Ext(lower) {
	case ".tmp", ".temp", ".swp", ".swx", ".part", ".partial", ".crdownload", ".lock", ".lck":
		return true
	}
	return false
}
