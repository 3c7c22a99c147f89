package keep

import (
	"crypto/sha256"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// work is a computation that counts how often it is done.
type work struct {
	done   int
	inputs any
	result sample
	err    error
	moved  bool
}

func (w *work) ask(t require.TestingT, s *Store) {
	got, err := Result(s, Work[sample]{Kind: "sample", Inputs: w.inputs, Unchanged: func() bool { return !w.moved },
		Compute: func() (sample, error) { w.done++; return w.result, w.err }})
	require.Equal(t, w.err, err)
	require.Equal(t, w.result, got)
}

func inputs() map[string]string { return map[string]string{"log": "abc", "mass": "14"} }

func entries(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, Folder, results, "*"))
	require.NoError(t, err)
	return all
}

func TestSameInputsAreComputedOnce(t *testing.T) {
	dir := t.TempDir()
	w := work{inputs: inputs(), result: sample{Values: []float64{1, math.Inf(1)}, Text: "so"}}
	for range 3 {
		w.ask(t, Open(dir, "one"))
	}
	require.Equal(t, 1, w.done)
	require.Len(t, entries(t, dir), 1)
	s := Open(dir, "one")
	w.ask(t, s)
	w.inputs = "others"
	w.ask(t, s)
	require.Equal(t, Counts{Found: 1, Computed: 1}, s.Counts())
}

// Another executable, another kind, another type and other inputs each compute anew, and the first result stays.
func TestEachPartOfTheKeyCounts(t *testing.T) {
	dir := t.TempDir()
	w := work{inputs: inputs()}
	w.ask(t, Open(dir, "one"))
	w.ask(t, Open(dir, "two"))
	require.Equal(t, 2, w.done, "executable")
	changed := inputs()
	changed["mass"] = "14.001"
	w.inputs = changed
	w.ask(t, Open(dir, "one"))
	require.Equal(t, 3, w.done, "inputs")
	type other map[string]string
	w.inputs = other(inputs())
	w.ask(t, Open(dir, "one"))
	require.Equal(t, 4, w.done, "type of the inputs")
	kinds := 0
	for range 2 {
		_, err := Result(Open(dir, "one"), Work[sample]{Kind: "another", Inputs: inputs(), Compute: func() (sample, error) { kinds++; return sample{}, nil }})
		require.NoError(t, err)
	}
	require.Equal(t, 1, kinds, "kind")
	w.inputs = inputs()
	w.ask(t, Open(dir, "one"))
	require.Equal(t, 4, w.done, "the first stays")
}

func TestNothingIsKeptThatMayBeStale(t *testing.T) {
	dir := t.TempDir()
	for name, w := range map[string]*work{
		"an error":                    {inputs: inputs(), err: errors.New("the disk failed")},
		"a file that changed":         {inputs: inputs(), moved: true},
		"inputs that are no data":     {inputs: func() {}},
		"a result that is not whole":  {inputs: inputs(), result: sample{inner: inner{X: 1}}},
		"nothing known of the inputs": {},
	} {
		w.ask(t, Open(dir, "one"))
		w.ask(t, Open(dir, "one"))
		require.Equal(t, 2, w.done, name)
	}
	require.Nil(t, Open(dir, ""), "an executable that cannot be told from others")
	require.Nil(t, Open("", "one"), "no folder")
	var none *Store
	w := work{inputs: inputs()}
	w.ask(t, none)
	w.ask(t, none)
	none.Tidy()
	require.Equal(t, 2, w.done)
	require.Equal(t, Counts{}, none.Counts())
	require.Empty(t, entries(t, dir))
}

// Whatever happened to the file of an entry, the result is computed again and the entry is sound afterwards.
func TestDamagedEntriesAreComputedAgain(t *testing.T) {
	dir := t.TempDir()
	w := work{inputs: inputs(), result: sample{Values: []float64{1, 2, 3}}}
	w.ask(t, Open(dir, "one"))
	path := entries(t, dir)[0]
	sound, err := os.ReadFile(path)
	require.NoError(t, err)
	foreign, err := Encode(w.result)
	require.NoError(t, err)
	otherKey := seal([]byte("another key"), foreign)
	damaged := map[string][]byte{"empty": {}, "foreign": []byte("a shopping list\n"), "longer": append(sound[:len(sound):len(sound)], 0), "of another key": otherKey}
	for _, n := range []int{1, len(magic), len(magic) + 4, len(sound) / 2, len(sound) - 32, len(sound) - 1} {
		damaged["cut to "+strconv.Itoa(n)] = sound[:n]
	}
	for i := range sound {
		bad := append([]byte{}, sound...)
		bad[i] ^= 0x10
		damaged["byte "+strconv.Itoa(i)] = bad
	}
	for name, content := range damaged {
		require.NoError(t, os.WriteFile(path, content, 0o644))
		before := w.done
		w.ask(t, Open(dir, "one"))
		require.Equal(t, before+1, w.done, name)
		now, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, sound, now, name)
	}
}

// An entry of another layout with a right checksum is not read: its bytes may mean something else.
func TestAnotherFormatIsNotRead(t *testing.T) {
	key := []byte("key")
	file := seal(key, []byte("value"))
	value, ok := unseal(file, key)
	require.True(t, ok)
	require.Equal(t, []byte("value"), value)
	newer := append([]byte{}, file[:len(file)-32]...)
	newer[len(magic)]++
	_, ok = unseal(resealed(newer), key)
	require.False(t, ok)
	_, ok = unseal(resealed(file[:len(file)-32]), key)
	require.True(t, ok, "resealed as it was")
	_, ok = unseal(resealed(file[:len(file)-33]), key)
	require.False(t, ok, "shorter than its lengths say, with a right checksum")
	_, ok = unseal(resealed(append(append([]byte{}, file[:len(file)-32]...), 0)), key)
	require.False(t, ok, "longer")
}

// The folder may be read-only, hold something else under the name of the cache, or lose it while it is used.
func TestAFolderThatCannotBeWrittenWorks(t *testing.T) {
	for name, spoil := range map[string]func(dir string) error{
		"a file in place of the folder": func(dir string) error { return os.WriteFile(filepath.Join(dir, Folder), nil, 0o644) },
		"a file in place of results": func(dir string) error {
			return errors.Join(os.Mkdir(filepath.Join(dir, Folder), 0o755), os.WriteFile(filepath.Join(dir, Folder, results), nil, 0o644))
		},
		"no folder at all": os.Remove,
		"read-only":        func(dir string) error { return os.Chmod(dir, 0o555) },
	} {
		dir := filepath.Join(t.TempDir(), "program")
		require.NoError(t, os.Mkdir(dir, 0o755))
		require.NoError(t, spoil(dir), name)
		w := work{inputs: inputs()}
		s := Open(dir, "one")
		w.ask(t, s)
		w.ask(t, s)
		s.Tidy()
		require.GreaterOrEqual(t, w.done, 1, name)
		_ = os.Chmod(dir, 0o755)
	}
	dir := t.TempDir()
	w := work{inputs: inputs()}
	s := Open(dir, "one")
	w.ask(t, s)
	path := entries(t, dir)[0]
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Mkdir(path, 0o755))
	w.ask(t, s)
	require.DirExists(t, path, "what somebody put there stays")
	require.NoError(t, os.RemoveAll(filepath.Join(dir, Folder)))
	w.ask(t, s)
	w.ask(t, s)
	require.Equal(t, 3, w.done)
}

// The cache keeps itself out of a history of the folder, and leaves a file of the user's as it is.
func TestTheFolderIsNotForGit(t *testing.T) {
	dir := t.TempDir()
	w := work{inputs: inputs()}
	w.ask(t, Open(dir, "one"))
	ignore := filepath.Join(dir, Folder, ".gitignore")
	text, err := os.ReadFile(ignore)
	require.NoError(t, err)
	require.Equal(t, "*\n", string(text))
	require.NoError(t, os.WriteFile(ignore, []byte("mine\n"), 0o644))
	w.ask(t, Open(dir, "two"))
	text, err = os.ReadFile(ignore)
	require.NoError(t, err)
	require.Equal(t, "mine\n", string(text))
}

// Many stores of one folder, as of many processes, find and write the same entries; nobody ever sees half of one.
func TestManyUseOneFolderAtOnce(t *testing.T) {
	dir := t.TempDir()
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for i := range 20 {
				w := work{inputs: i % 5, result: sample{Count: i % 5, Values: make([]float64, 5000)}}
				s := Open(dir, "one")
				w.ask(t, s)
				s.tidy(100_000)
			}
		})
	}
	wait.Wait()
	for _, path := range entries(t, dir) {
		require.Regexp(t, `/sample-[0-9a-f]{64}$`, filepath.ToSlash(path), "nothing half-written is left")
	}
}

func TestTidyTakesTheOldestThatThisRunDidNotUse(t *testing.T) {
	dir := t.TempDir()
	paths := map[int]string{}
	for i := range 6 {
		w := work{inputs: i, result: sample{Values: make([]float64, 100)}}
		w.ask(t, Open(dir, "one"))
		for _, path := range entries(t, dir) {
			if _, seen := findValue(paths, path); !seen {
				paths[i] = path
			}
		}
		require.NoError(t, os.Chtimes(paths[i], time.Time{}, time.Unix(int64(1000-i), 0))) // the later, the older
	}
	leftBehind := filepath.Join(dir, Folder, results, "sample-abc123456789")
	require.NoError(t, os.WriteFile(leftBehind, make([]byte, 500), 0o600))
	require.NoError(t, os.Chtimes(leftBehind, time.Time{}, time.Unix(1, 0)))
	info, err := os.Stat(paths[0])
	require.NoError(t, err)

	s := Open(dir, "one")
	used := work{inputs: 5, result: sample{Values: make([]float64, 100)}}
	used.ask(t, s)
	require.Zero(t, used.done)
	s.tidy(1)
	require.Len(t, entries(t, dir), 7, "a run that wrote nothing removes nothing")
	fresh := work{inputs: 6, result: sample{Values: make([]float64, 100)}}
	fresh.ask(t, s)
	s.tidy(4 * info.Size())
	require.Len(t, entries(t, dir), 4)
	for i, stays := range []bool{true, true, false, false, false, true} { // 5 is the oldest and was used
		_, err := os.Stat(paths[i])
		require.Equal(t, stays, err == nil, "entry %d", i)
	}
	require.NoFileExists(t, leftBehind)

	all := Open(dir, "one")
	for _, i := range []int{0, 1, 5, 6, 7} {
		w := work{inputs: i, result: sample{Values: make([]float64, 100)}}
		w.ask(t, all)
	}
	all.tidy(1)
	require.Len(t, entries(t, dir), 5, "what a run used stays, however much it is")
}

func findValue(all map[int]string, path string) (int, bool) {
	for i, p := range all {
		if p == path {
			return i, true
		}
	}
	return 0, false
}

func TestDigests(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, os.WriteFile(path, []byte("abc"), 0o644))
	digest, err := FileDigest(path)
	require.NoError(t, err)
	require.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", digest, "FIPS 180-4, example of SHA-256: abc")
	_, err = FileDigest(path + "x")
	require.ErrorIs(t, err, os.ErrNotExist)
	require.NotEmpty(t, Executable())
	require.Equal(t, Executable(), Executable())
}

// resealed puts the right checksum behind what may be wrong.
func resealed(content []byte) []byte {
	sum := sha256.Sum256(content)
	return append(append([]byte{}, content...), sum[:]...)
}
