package report

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// filesListName is the list of what reports wrote into their folder.
const filesListName = ".files"

// filesList is the files that reports wrote: SHA-256 digests in hexadecimal, by name. A file has two digests while a report is being
// written. As text it is a line for each, digest, two spaces and name, sorted by name; a line that is none is passed over.
type filesList map[string][]string

func listOf(files []File) filesList {
	out := filesList{}
	for _, f := range files {
		sum := sha256.Sum256(f.Body)
		out[f.Name] = []string{hex.EncodeToString(sum[:])}
	}
	return out
}

// readFilesList reads the list of a report folder; an empty one where there is none.
func readFilesList(dir string) (filesList, error) {
	text, err := os.ReadFile(filepath.Join(dir, filesListName))
	if errors.Is(err, fs.ErrNotExist) {
		return filesList{}, nil
	}
	if err != nil {
		return nil, fmt.Errorf("report: the folder %s cannot be read (is a file of that name in the way?): %w", dir, because(err))
	}
	out := filesList{}
	for line := range strings.Lines(string(text)) {
		digest, name, found := strings.Cut(strings.TrimRight(line, "\r\n"), "  ")
		if found && len(digest) == 2*sha256.Size && name != "" {
			out[name] = append(out[name], digest)
		}
	}
	return out, nil
}

func (l filesList) names() []string { return slices.Sorted(maps.Keys(l)) }

// with is both lists.
func (l filesList) with(more filesList) filesList {
	out := filesList{}
	for _, list := range []filesList{l, more} {
		for name, digests := range list {
			for _, d := range digests {
				if !slices.Contains(out[name], d) {
					out[name] = append(out[name], d)
				}
			}
		}
	}
	return out
}

// write writes the list, unless it is there already.
func (l filesList) write(dir string) error {
	var b bytes.Buffer
	for _, name := range l.names() {
		for _, digest := range l[name] {
			fmt.Fprintf(&b, "%s  %s\n", digest, name)
		}
	}
	path := filepath.Join(dir, filesListName)
	if holds(path, b.Bytes()) {
		return nil
	}
	return replace(path, &b)
}

func fileDigest(path string) (string, error) {
	body, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:]), nil
}
