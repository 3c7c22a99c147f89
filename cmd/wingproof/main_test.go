package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"wingproof/cmd/wingproof/internal/keep"
)

func TestMain(m *testing.M) {
	testscript.Main(removingFlown{m}, map[string]func(){"wingproof": main})
}

// outcome is what one command line did.
type outcome struct {
	status      int
	stdout, err string
}

// wingproof runs one command line in this process, with nothing to read and no terminal.
func wingproof(args ...string) outcome {
	var stdout, stderr bytes.Buffer
	status := run(context.Background(), streams{In: strings.NewReader(""), Out: &stdout, Err: &stderr}, args)
	return outcome{status, stdout.String(), stderr.String()}
}

// copyFolder copies a folder. Files are linked where the system can do that, so that logs cost nothing;
// a test that changes a copied file must replace it (writeOver), not write into it. What was kept of earlier runs stays behind.
func copyFolder(from, to string) error {
	return filepath.WalkDir(from, func(path string, entry os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		target := filepath.Join(to, rel)
		if entry.IsDir() && entry.Name() == keep.Folder {
			return filepath.SkipDir
		}
		if entry.IsDir() {
			return os.MkdirAll(target, 0o755)
		}
		if os.Link(path, target) == nil {
			return nil
		}
		content, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(target, content, 0o644)
	})
}

// withoutForeplane takes the choice of the foreplane out of a program folder, so that half of the configurations
// are left to be solved. The plan, which names both choices, goes too.
func withoutForeplane(dir string) error {
	if err := os.RemoveAll(filepath.Join(dir, "cards.csv")); err != nil {
		return err
	}
	for name, change := range map[string]func(string) string{
		"flights.csv": strings.NewReplacer(",winglet,foreplane,", ",winglet,", ",long,", ",").Replace,
		"parts.csv":   strings.NewReplacer(",foreplane=long,", ",,", ",foreplane,", ",none,").Replace,
		"program.toml": func(text string) string {
			before, rest, _ := strings.Cut(text, "[[choice]]\nname = \"foreplane\"")
			_, after, _ := strings.Cut(rest, "\n[[")
			return before + "[[" + after
		},
	} {
		path := filepath.Join(dir, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if err := writeOver(path, []byte(change(string(text)))); err != nil {
			return err
		}
	}
	return nil
}

// writeOver puts a new file in the place of one that may be linked.
func writeOver(path string, content []byte) error {
	if err := os.Remove(path); err != nil && !os.IsNotExist(err) {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, content, 0o644)
}
