package keep

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// What the folder may hold: some hundred flights of several versions of the program. Derived from the size of an entry, 10 kB
// to 1 MB; no source.
const (
	most    = 256 << 20 // bytes, beyond which entries that the last run did not use are removed
	largest = 128 << 20 // bytes of one entry
)

// leftover is a file in the folder of entries that this run did not use.
type leftover struct {
	name    string
	size    int64
	written time.Time
}

// Tidy ends a run: when it wrote something and the folder holds too much, entries that the run did not use are removed, those
// written first before others, until it holds as much as it may. Files that a killed process left behind go the same way.
func (s *Store) Tidy() { s.tidy(most) }

func (s *Store) tidy(most int64) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.wrote {
		return
	}
	s.wrote = false
	total, unused := s.census()
	for _, l := range unused {
		if total <= most {
			return
		}
		if os.Remove(filepath.Join(s.folder, l.name)) == nil {
			total -= l.size
		}
	}
}

// census is the size of all files in the folder, and those that this run did not use, the first to go first.
func (s *Store) census() (total int64, unused []leftover) {
	entries, err := os.ReadDir(s.folder)
	if err != nil {
		return 0, nil
	}
	for _, entry := range entries {
		info, err := entry.Info()
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		total += info.Size()
		if !s.used[entry.Name()] {
			unused = append(unused, leftover{entry.Name(), info.Size(), info.ModTime()})
		}
	}
	slices.SortFunc(unused, func(a, b leftover) int {
		return cmp.Or(a.written.Compare(b.written), cmp.Compare(a.name, b.name))
	})
	return total, unused
}
