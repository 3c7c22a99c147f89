package program

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/natefinch/atomic"
)

// EvidenceFolder holds, for every fingerprint that stands in the record or on a sheet, the list of files behind it.
const EvidenceFolder = "evidence"

// absent is the digest of a file that the folder names and does not hold.
const absent = "absent"

// InputFile is one file that a decision rests on.
type InputFile struct {
	Name   string // relative to the folder, slashes
	Size   int64  // bytes
	SHA256 string // 64 lower-case digits, or the word absent
}

// There tells whether the file was in the folder.
func (f InputFile) There() bool { return f.SHA256 != absent }

// Inputs is the list of everything that a decision rests on, sorted by name: program.toml, the tables but for decisions.csv and
// sheets.csv, every geometry file and log that they point to.
type Inputs []InputFile

// ReadInputs lists the files of a folder as they are now. A folder with mistakes has a list too, of the files that could be found.
func ReadInputs(dir string) (Inputs, error) {
	files := os.DirFS(dir)
	l, err := read(files, dir)
	if err != nil {
		return nil, err
	}
	var list Inputs
	for _, name := range sortedKeys(l.inputs) {
		size, digest, err := digestOf(files, name)
		if err != nil {
			return nil, fmt.Errorf("fingerprint of %s: %w", name, err)
		}
		list = append(list, InputFile{name, size, digest})
	}
	return list, nil
}

// Text is one line "name size digest" a file. It is what the file in EvidenceFolder holds, byte for byte.
func (in Inputs) Text() string {
	var b strings.Builder
	for _, f := range in {
		fmt.Fprintf(&b, "%s %d %s\n", f.Name, f.Size, f.SHA256)
	}
	return b.String()
}

// Fingerprint is the SHA-256 of Text, as rows write it into inputs_sha256. So the usual tools can check an evidence file: its
// digest is its own name.
func (in Inputs) Fingerprint() string {
	sum := sha256.Sum256([]byte(in.Text()))
	return hex.EncodeToString(sum[:])
}

// save writes the list into EvidenceFolder, unless it is there already.
func (in Inputs) save(dir string) error {
	file := filepath.Join(dir, filepath.FromSlash(EvidenceFile(in.Fingerprint())))
	text := []byte(in.Text())
	if have, err := os.ReadFile(file); err == nil && bytes.Equal(have, text) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return fmt.Errorf("make %s: %w", EvidenceFolder, err)
	}
	if err := atomic.WriteFile(file, bytes.NewReader(text)); err != nil {
		return fmt.Errorf("write the list of the evidence: %w", err)
	}
	if err := os.Chmod(file, 0o644); err != nil {
		return fmt.Errorf("let everybody read the list of the evidence: %w", err)
	}
	return nil
}

// EvidenceFile is where the list behind a fingerprint stands, relative to the folder.
func EvidenceFile(fingerprint string) string { return EvidenceFolder + "/" + fingerprint + ".txt" }

// ErrEvidenceLost says that nobody can tell any more which files a fingerprint stood for: its list is not in EvidenceFolder, or
// was changed since.
var ErrEvidenceLost = errors.New("the list of the files is lost")

// RecallInputs reads the list behind a fingerprint. It returns ErrEvidenceLost when the folder has none that fits.
func RecallInputs(dir, fingerprint string) (Inputs, error) {
	raw, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(EvidenceFile(strings.ToLower(fingerprint)))))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrEvidenceLost
	}
	if err != nil {
		return nil, fmt.Errorf("read the list of the evidence: %w", err)
	}
	list, ok := parseInputs(strings.ReplaceAll(string(raw), "\r\n", "\n")) // some ways of keeping versions turn line ends
	if !ok || list.Fingerprint() != strings.ToLower(fingerprint) {
		return nil, ErrEvidenceLost
	}
	return list, nil
}

func parseInputs(text string) (list Inputs, ok bool) {
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\n"), "\n") {
		words := strings.Split(line, " ")
		if len(words) < 3 {
			return nil, false
		}
		n := len(words) - 2
		size, err := strconv.ParseInt(words[n], 10, 64)
		if err != nil {
			return nil, false
		}
		list = append(list, InputFile{strings.Join(words[:n], " "), size, words[n+1]})
	}
	return list, true
}

// InputChanges are the differences between two lists, by name.
type InputChanges struct {
	Added, Changed, Gone []string
}

// None tells that the two lists are the same.
func (c InputChanges) None() bool { return len(c.Added)+len(c.Changed)+len(c.Gone) == 0 }

// Since lists what became of the files since an earlier list was made.
func (in Inputs) Since(then Inputs) InputChanges {
	var c InputChanges
	before := map[string]InputFile{}
	for _, f := range then {
		before[f.Name] = f
	}
	for _, f := range in {
		was, listed := before[f.Name]
		delete(before, f.Name)
		switch {
		case f.There() && !(listed && was.There()):
			c.Added = append(c.Added, f.Name)
		case listed && was.There() && !f.There():
			c.Gone = append(c.Gone, f.Name)
		case listed && was != f:
			c.Changed = append(c.Changed, f.Name)
		}
	}
	for _, f := range then {
		if _, left := before[f.Name]; left && f.There() {
			c.Gone = append(c.Gone, f.Name)
		}
	}
	return c
}

// Has tells whether a file of that name was in the folder.
func (in Inputs) Has(name string) bool {
	for _, f := range in {
		if f.Name == name {
			return f.There()
		}
	}
	return false
}
