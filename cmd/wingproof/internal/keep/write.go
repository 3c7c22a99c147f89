package keep

import (
	"bytes"
	"os"
	"path/filepath"

	"github.com/natefinch/atomic"
)

// write puts an entry into the folder. It is false where that cannot be done, and says no more: the result is there,
// and the next run computes it again.
func (s *Store) write(name string, content []byte) bool {
	if len(content) > largest || !s.prepare() {
		return false
	}
	path := filepath.Join(s.folder, name)
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return false // somebody put something else there
	}
	if atomic.WriteFile(path, bytes.NewReader(content)) != nil {
		return false
	}
	_ = os.Chmod(path, 0o644) // others of the shop may share the folder; where not, they compute for themselves
	s.mu.Lock()
	defer s.mu.Unlock()
	s.wrote = true
	return true
}

// prepare makes the folder of entries, and beside it a file that keeps it out of the history of a folder under git.
func (s *Store) prepare() bool {
	if os.MkdirAll(s.folder, 0o755) != nil {
		return false
	}
	ignore := filepath.Join(filepath.Dir(s.folder), ".gitignore")
	if file, err := os.OpenFile(ignore, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644); err == nil {
		_, _ = file.WriteString("*\n")
		_ = file.Close()
	}
	return true
}
