package report

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func oneFile(name, body string) File { return File{name, []byte(body)} }

// TestFolderChangesOnlyWhatIsNew writes a report three times: equal bytes are left alone, what is gone is removed.
func TestFolderChangesOnlyWhatIsNew(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "report")
	first := []File{oneFile("figures/a.svg", "a"), oneFile("flight-F01.html", "one"), oneFile("index.html", "board")}
	f, err := WriteFolder(dir, first)
	require.NoError(t, err)
	require.Equal(t, Folder{Written: []string{"figures/a.svg", "flight-F01.html", "index.html"}}, f)
	old := time.Unix(1e9, 0)
	for _, name := range []string{"figures/a.svg", "flight-F01.html", "index.html", filesListName} {
		require.NoError(t, os.Chtimes(filepath.Join(dir, name), old, old))
	}
	f, err = WriteFolder(dir, first)
	require.NoError(t, err)
	require.Equal(t, Folder{Same: 3}, f)
	for _, name := range []string{"figures/a.svg", "index.html", filesListName} {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		require.True(t, info.ModTime().Equal(old), "%s was written again", name)
	}
	f, err = WriteFolder(dir, []File{oneFile("index.html", "newer board")})
	require.NoError(t, err)
	require.Equal(t, Folder{Written: []string{"index.html"}, Removed: []string{"figures/a.svg", "flight-F01.html"}}, f)
	require.NoDirExists(t, filepath.Join(dir, "figures"))
}

// TestFolderKeepsWhatIsNotItsOwn puts files of the user's beside those of a report, and changes one of the report's.
func TestFolderKeepsWhatIsNotItsOwn(t *testing.T) {
	dir := t.TempDir()
	_, err := WriteFolder(dir, []File{oneFile("flight-F01.html", "one"), oneFile("flight-F02.html", "two"), oneFile("sheet-1.html", "issued"), oneFile("index.html", "board")})
	require.NoError(t, err)
	write := func(name, body string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(body), 0o644))
	}
	write("flight-F01.html", "with a remark of mine")
	write("notes.html", "mine")
	write("flight-F09.html", "mine too")
	f, err := WriteFolder(dir, []File{oneFile("index.html", "board")})
	require.NoError(t, err)
	require.Equal(t, []string{"flight-F02.html"}, f.Removed)
	for name, want := range map[string]string{"flight-F01.html": "with a remark of mine", "notes.html": "mine", "flight-F09.html": "mine too", "sheet-1.html": "issued"} {
		got, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		require.Equal(t, want, string(got), name)
	}
}

// TestFolderRemovesNothingOutside plants names into the list of files that point elsewhere.
func TestFolderRemovesNothingOutside(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "report")
	require.NoError(t, os.MkdirAll(dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(top, "flights.html"), []byte("x"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.txt"), []byte("x"), 0o644))
	digest := listOf([]File{oneFile("x", "x")})["x"][0]
	planted := digest + "  ../flights.html\n" + digest + "  mine.txt\n" + digest + "  sheet-3.html\nno line\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, filesListName), []byte(planted), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "sheet-3.html"), []byte("x"), 0o644))
	f, err := WriteFolder(dir, []File{oneFile("index.html", "board")})
	require.NoError(t, err)
	require.Empty(t, f.Removed)
	require.FileExists(t, filepath.Join(top, "flights.html"))
	require.FileExists(t, filepath.Join(dir, "mine.txt"))
	require.FileExists(t, filepath.Join(dir, "sheet-3.html"))
	_, err = WriteFolder(dir, []File{oneFile("../escaped.html", "x")})
	require.ErrorContains(t, err, "no name of a file in the report folder")
}

// TestFolderSaysWhatIsInTheWay blocks the folder and one of its files.
func TestFolderSaysWhatIsInTheWay(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "report")
	require.NoError(t, os.WriteFile(dir, nil, 0o644))
	_, err := WriteFolder(dir, []File{oneFile("index.html", "board")})
	require.ErrorContains(t, err, "is a file of that name in the way")
	dir = t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "index.html", "x"), 0o755))
	_, err = WriteFolder(dir, []File{oneFile("board.html", "wall"), oneFile("index.html", "board")})
	require.ErrorContains(t, err, "cannot be written")
	require.FileExists(t, filepath.Join(dir, "board.html"))
}

// TestFileNamesDiffer gives names that people, and people with bad intentions, give to flights.
func TestFileNamesDiffer(t *testing.T) {
	names := []string{"F01", "f01", "F 03/b", "F-03-b", "ÄÖ", "äö", "AO", "CON", "../x", "x", "...", "日本", "F07", "con", strings.Repeat("long ", 40), "a\x00b", "<script>"}
	got := FileNames(names)
	seen := map[string]string{}
	for i, name := range got {
		require.Regexp(t, `^[A-Za-z0-9][A-Za-z0-9-]*$`, name, names[i])
		require.Less(t, len(name), 80)
		require.Empty(t, seen[strings.ToLower(name)], "%q and %q are both %s", names[i], seen[strings.ToLower(name)], name)
		seen[strings.ToLower(name)] = names[i]
	}
	require.Equal(t, "F07", got[12])
	again := FileNames([]string{"F-03-b", "F07", "F 03/b"})
	require.Equal(t, []string{got[3], "F07", got[2]}, again, "a name keeps its file when the order changes")
	for plain, other := range map[string]string{"F-03-b": "F 03/b", "F-03-B": "f 03/b", "AO": "äö", "F01": "f01", "x": "../x"} {
		for _, both := range [][]string{{plain, other}, {other, plain}} {
			pages := FileNames(both)
			i := slices.Index(both, plain)
			require.Equal(t, plain, pages[i], "the page stays where it was before %q came", other)
			require.Regexp(t, "^"+letters(other)+"-[0-9a-f]{6}$", pages[1-i])
		}
	}
	two := FileNames([]string{"F 03", "F/03"})
	require.Regexp(t, "^F-03-[0-9a-f]{6}$", two[0], "neither has more right to the plain name")
	require.Regexp(t, "^F-03-[0-9a-f]{6}$", two[1])
	mark := strings.TrimPrefix(two[0], "F-03-")
	require.Equal(t, "F-03-"+mark, FileNames([]string{"F 03", "F/03", "F 03 " + mark})[2], "a mark gives way to a name")
	require.Equal(t, []string{"F-03-b"}, FileNames([]string{"F 03/b"}))
}
