package program

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Fingerprint is one digest over everything that a decision rests on: program.toml, the tables but for
// decisions.csv, every geometry file and log that they point to. It changes when a byte of one of them
// changes, when one appears or goes, and not when other files of the folder change.
//
// It is the SHA-256 of lines "name size digest", sorted by name; a file that is not there has the digest
// "absent". A folder with mistakes has a fingerprint too, over the files that could be found.
func Fingerprint(dir string) (string, error) {
	files := os.DirFS(dir)
	l, err := read(files, dir)
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	for _, name := range sortedKeys(l.inputs) {
		size, digest, err := digestOf(files, name)
		if err != nil {
			return "", fmt.Errorf("fingerprint of %s: %w", name, err)
		}
		fmt.Fprintf(sum, "%s %d %s\n", name, size, digest)
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

func digestOf(files fs.FS, name string) (size int64, digest string, err error) {
	f, err := files.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, "absent", nil
	}
	if err != nil {
		return 0, "", err
	}
	defer func() { _ = f.Close() }()
	sum := sha256.New()
	if size, err = io.Copy(sum, f); err != nil {
		return 0, "", err
	}
	return size, hex.EncodeToString(sum.Sum(nil)), nil
}
