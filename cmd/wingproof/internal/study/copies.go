package study

import (
	"fmt"
	"os"
	"path/filepath"

	"wingproof/cmd/wingproof/internal/keep"
)

// leaveOutCopies leaves flights out whose log is that of an earlier one, byte for byte: intervals count flights, and one
// flight that is named twice would count as two. Only logs of one size are compared.
func (s *Study) leaveOutCopies() {
	bySize := map[int64][]int{}
	for i, f := range s.Flights {
		if !f.Used {
			continue
		}
		if info, err := os.Stat(s.logPath(f)); err == nil {
			bySize[info.Size()] = append(bySize[info.Size()], i)
		}
	}
	for _, alike := range bySize {
		first := map[string]string{}
		for _, i := range alike {
			f := &s.Flights[i]
			digest, err := "", error(nil)
			if len(alike) > 1 {
				digest, err = keep.FileDigest(s.logPath(*f))
			}
			if other, twice := first[digest]; twice && err == nil {
				*f = f.leaveOut(fmt.Sprintf("its log %s holds the same bytes as that of flight %s: one flight counts once", f.Log, other))
				continue
			}
			first[digest] = f.Name
		}
	}
}

func (s *Study) logPath(f Flight) string {
	return filepath.Join(s.Program.Dir, filepath.FromSlash(f.Log))
}
