package program

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
)

// Fingerprint is one digest over everything that a decision rests on: that of ReadInputs. It changes when a byte of one of
// those files changes, when one appears or goes, and not when other files of the folder change.
func Fingerprint(dir string) (string, error) {
	in, err := ReadInputs(dir)
	if err != nil {
		return "", err
	}
	return in.Fingerprint(), nil
}

func digestOf(files fs.FS, name string) (size int64, digest string, err error) {
	f, err := files.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, absent, nil
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
