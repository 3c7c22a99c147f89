package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/rogpeppe/go-internal/txtar"

	"wingproof/cmd/wingproof/internal/keep"
)

// scriptFolder holds whole jobs as scripts, and below it the program folder that they begin with.
const scriptFolder = "../../testdata/script"

// TestScripts runs every script of testdata/script. Each begins in a folder of its own that holds a sound
// program folder, sandreed. Beside the commands that scripts have anyway there are
//
//	status N COMMAND ...        the command ends with exit status N
//	edit FILE OLD NEW           replaces the one OLD in the file; \n is a line break
//	mistake FILE OLD NEW        sandreed as it was, with one edit; ‸ in NEW marks where the mistake must be told
//	refused PATTERN             every command refuses sandreed as it should, and tells the mistake at that place
//	remember NAME DIR           remembers every file of a folder
//	unchanged NAME DIR          the folder holds what was remembered, byte for byte, and nothing else
//	board PART STATUS ACTION    the board that 'parts --json' just printed says so
//	binary FILE                 writes a file that is no text
//	one choice DIR              takes the choice of the foreplane out of a folder, for speed
func TestScripts(t *testing.T) {
	sound, err := txtar.ParseFile(filepath.Join(scriptFolder, "folder", "sandreed.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 scriptFolder,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Values[stateKey{}] = &scriptState{sound: sound, remembered: map[string]string{}}
			dir := filepath.Join(e.WorkDir, "sandreed")
			if err := layOut(sound, dir); err != nil || isCold(e.WorkDir) {
				return err
			}
			e.Defer(func() { _ = harvest(dir) })
			return warmed(dir)
		},
		Cmds: scriptCommands(),
	})
}

// isCold tells whether the script in a folder begins with nothing kept: the one that looks at what is kept.
func isCold(work string) bool { return filepath.Base(work) == "script-keep" }

type stateKey struct{}

// scriptState is what the commands of one script remember.
type scriptState struct {
	sound      *txtar.Archive
	place      string // file:line:column of the mistake that was made last
	remembered map[string]string
}

func stateOf(ts *testscript.TestScript) *scriptState {
	return ts.Value(stateKey{}).(*scriptState)
}

// layOut writes the program folder of an archive.
func layOut(a *txtar.Archive, dir string) error {
	for _, f := range a.Files {
		if err := writeOver(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
			return err
		}
	}
	return nil
}

// listing is every file of a folder with the digest of its content, one a line. The cache is left out: it
// may be written and deleted at any time.
func listing(dir string) (string, error) {
	var lines []string
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		if entry.IsDir() {
			if entry.Name() == keep.Folder {
				return filepath.SkipDir
			}
			lines = append(lines, filepath.ToSlash(rel)+"/")
			return nil
		}
		content, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		lines = append(lines, fmt.Sprintf("%s %x", filepath.ToSlash(rel), sha256.Sum256(content)))
		return nil
	})
	sort.Strings(lines)
	return strings.Join(lines, "\n"), err
}
