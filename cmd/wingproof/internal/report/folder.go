package report

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/natefinch/atomic"
)

// Folder tells what writing the report folder changed.
type Folder struct {
	Written []string // files whose bytes are new, in the order of writing
	Removed []string // files of an earlier report that this one does not make any more
	Same    int      // files left alone
}

// WriteFolder writes a report into a folder, which it makes when it is missing.
//
// Each file is replaced as a whole, in the order given, and one that holds the same bytes already is left alone. Then
// files of an earlier report that this one does not make any more are removed, but only those that an earlier report wrote, as it wrote
// them: the folder keeps a list of names and digests (see filesList). A file that somebody else put there or changed, and every issued
// sheet, stays.
//
// An error says in words what to do; the files written before it stay written.
func WriteFolder(dir string, files []File) (Folder, error) {
	var f Folder
	before, err := readFilesList(dir)
	if err != nil {
		return f, err
	}
	now := listOf(files)
	if err := before.with(now).write(dir); err != nil { // before anything is written, so that nothing of ours goes unlisted
		return f, err
	}
	for _, file := range files {
		if err := f.put(dir, file); err != nil {
			return f, err
		}
	}
	if err := f.removeStale(dir, before, now); err != nil {
		return f, err
	}
	return f, now.write(dir)
}

// put writes one file unless it is there already.
func (f *Folder) put(dir string, file File) error {
	if !filepath.IsLocal(filepath.FromSlash(file.Name)) {
		return fmt.Errorf("report: %q is no name of a file in the report folder", file.Name)
	}
	path := filepath.Join(dir, filepath.FromSlash(file.Name))
	if holds(path, file.Body) {
		f.Same++
		return nil
	}
	if err := replace(path, bytes.NewBuffer(bytes.Clone(file.Body))); err != nil {
		return err
	}
	f.Written = append(f.Written, file.Name)
	return nil
}

// holds tells whether a file is there and holds these bytes.
func holds(path string, body []byte) bool {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(body)) {
		return false
	}
	have, err := os.ReadFile(path)
	return err == nil && bytes.Equal(have, body)
}

// removeStale removes what an earlier report wrote and this one does not make, and folders that this leaves empty.
func (f *Folder) removeStale(dir string, before, now filesList) error {
	for _, name := range before.names() {
		if len(now[name]) > 0 || !removable(name) {
			continue
		}
		path := filepath.Join(dir, filepath.FromSlash(name))
		digest, err := fileDigest(path)
		if err != nil || !slices.Contains(before[name], digest) {
			continue // gone already, or somebody else's by now
		}
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("report: remove %s of an earlier report (is it open elsewhere? close it and repeat): %w", path, because(err))
		}
		f.Removed = append(f.Removed, name)
		if parent := filepath.Dir(path); strings.Contains(name, "/") {
			_ = os.Remove(parent) // refused while anything is in it
		}
	}
	return nil
}

// removable tells whether a file of that name may be removed: one of a report, and no issued sheet.
func removable(name string) bool {
	if !filepath.IsLocal(filepath.FromSlash(name)) || strings.ContainsAny(name, `\:`) || issuedSheet(name) {
		return false
	}
	folder, base, nested := strings.Cut(name, "/")
	if !nested {
		return strings.HasSuffix(name, ".html") || name == "evidence.json"
	}
	if strings.Contains(base, "/") {
		return false
	}
	switch folder {
	case "figures":
		return strings.HasSuffix(base, ".svg") || strings.HasSuffix(base, ".png")
	case "tables":
		return strings.HasSuffix(base, ".csv")
	}
	return false
}

// issuedSheet tells whether a file is a sheet that was issued; such files are kept for good.
func issuedSheet(name string) bool { return strings.HasPrefix(strings.ToLower(name), "sheet-") }

// replace writes a file as a whole, in a folder that it makes when it is missing: a reader sees the old file or the new one, and an
// error leaves the old one.
func replace(path string, b *bytes.Buffer) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("report: the folder %s cannot be made (is a file of that name in the way, or is the disk write-protected?): %w", filepath.Dir(path), because(err))
	}
	if err := atomic.WriteFile(path, b); err != nil {
		return fmt.Errorf("report: %s cannot be written (is it open elsewhere, or is the folder write-protected? close it and repeat): %w", path, because(err))
	}
	if err := os.Chmod(path, 0o644); err != nil {
		return fmt.Errorf("report: let others read %s: %w", path, because(err))
	}
	return nil
}

// because is what the system says, without the path that the message around it names already.
func because(err error) error {
	var place *fs.PathError
	if errors.As(err, &place) {
		return place.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
