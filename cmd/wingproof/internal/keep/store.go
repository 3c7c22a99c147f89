package keep

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// Where the entries lie in a program folder.
const (
	Folder  = ".wingproof"
	results = "results"
)

// Store is what is kept of one program folder. A nil Store keeps nothing and finds nothing. It may be used from several
// goroutines.
type Store struct {
	folder     string // of the entries
	executable string // digest of the program that computes

	mu    sync.Mutex
	used  map[string]bool // names of the entries found or written
	wrote bool
	count Counts
}

// Counts are how many results a Store found and how many were computed.
type Counts struct{ Found, Computed int }

// Open prepares what is kept of a program folder. executable is the digest of the program that computes, see Executable.
// Without a folder or an executable nothing is kept, since nobody could tell a stale result. Nothing is read or written yet.
func Open(folder, executable string) *Store {
	if folder == "" || executable == "" {
		return nil
	}
	return &Store{folder: filepath.Join(folder, Folder, results), executable: executable, used: map[string]bool{}}
}

// Counts of the results asked for so far.
func (s *Store) Counts() Counts {
	if s == nil {
		return Counts{}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.count
}

// Work is a computation whose result may be kept.
type Work[T any] struct {
	// Kind of the result in small letters, for the name of its file.
	Kind string
	// Inputs are all that Compute reads: plain data, with digests in the place of files.
	Inputs any
	// Compute gives the result. One with an error is not kept.
	Compute func() (T, error)
	// Unchanged says, after Compute, whether the files that it read are still those of Inputs. Nil: it read none.
	Unchanged func() bool
}

// Result gives what is kept for the inputs, else computes it and keeps it. Either way it is the same, bit for bit.
func Result[T any](s *Store, w Work[T]) (T, error) {
	name, key := s.keyOf(w.Kind, w.Inputs, *new(T))
	if key != nil {
		var value T
		if data, ok := s.find(name, key); ok && Decode(data, &value) == nil {
			s.note(name, Counts{Found: 1})
			return value, nil
		}
	}
	value, err := w.Compute()
	s.note("", Counts{Computed: 1})
	if err != nil || key == nil || w.Unchanged != nil && !w.Unchanged() {
		return value, err
	}
	if data, err := Encode(value); err == nil && s.write(name, seal(key, data)) {
		s.note(name, Counts{})
	}
	return value, nil
}

// keyOf is the key of a result and the name of its file; nil where nothing can be kept.
func (s *Store) keyOf(kind string, inputs, result any) (name string, key []byte) {
	if s == nil || inputs == nil {
		return "", nil
	}
	key, err := encodeKey(struct {
		Executable, Kind, Inputs, Result string
		Values                           any
	}{s.executable, kind, fmt.Sprintf("%T", inputs), fmt.Sprintf("%T", result), inputs})
	if err != nil {
		return "", nil
	}
	sum := sha256.Sum256(key)
	return kind + "-" + hex.EncodeToString(sum[:]), key
}

// find is the value of an entry; false when there is no sound one.
func (s *Store) find(name string, key []byte) (value []byte, ok bool) {
	path := filepath.Join(s.folder, name)
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() || info.Size() > largest {
		return nil, false
	}
	file, err := os.ReadFile(path)
	if err != nil {
		return nil, false
	}
	return unseal(file, key)
}

func (s *Store) note(name string, n Counts) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.count.Found += n.Found
	s.count.Computed += n.Computed
	if name != "" {
		s.used[name] = true
	}
}
