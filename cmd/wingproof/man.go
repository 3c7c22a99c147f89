package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/natefinch/atomic"
	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// newManCommand writes the manual.
func newManCommand(s streams) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "man DIR",
		Short: "write the manual, one page for each command",
		Long: `man writes what --help says as pages of the manual, section 1, into a folder, which it makes when it is missing: wingproof.1 and one
page for each command. Pages of the same names are replaced. Read one with: man -l DIR/wingproof.1`,
		Example: "  wingproof man manual\n  wingproof man manual --json",
		Args:    exactly(1, "one word: the folder for the pages"),
		RunE: func(_ *cobra.Command, args []string) error {
			written, err := writeManual(args[0])
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, manDocument{args[0], written})
			}
			_, err = fmt.Fprintf(s.Out, "wrote %d pages into %s; read one with: man -l %s\n", len(written), args[0], filepath.Join(args[0], written[0]))
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON document that names the pages")
	return c
}

// manDocument is what man --json prints.
type manDocument struct {
	Folder string   `json:"folder"`
	Pages  []string `json:"pages"`
}

// manPage is one page of the manual.
type manPage struct {
	name string
	text []byte
}

// manEdition dates the manual, so that one program writes the same pages on every day.
var manEdition = time.Date(2026, time.November, 1, 0, 0, 0, 0, time.UTC)

// manual makes all pages, that of the program first.
func manual() ([]manPage, error) {
	root := newRootCommand(streams{})
	root.DisableAutoGenTag = true
	var pages []manPage
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		if c.HasParent() && !c.IsAvailableCommand() {
			continue
		}
		c.Long = manText(c.Long)
		var b bytes.Buffer
		date := manEdition
		if err := doc.GenMan(c, &doc.GenManHeader{Section: "1", Date: &date, Source: "wingproof", Manual: "wingproof manual"}, &b); err != nil {
			return nil, fmt.Errorf("write the manual of %s: %w", c.CommandPath(), err)
		}
		pages = append(pages, manPage{strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1", b.Bytes()})
	}
	return pages, nil
}

// manText is a text of --help with its indented lines, which are lists, kept as they stand.
func manText(long string) string {
	var out []string
	listed := false
	for line := range strings.SplitSeq(long, "\n") {
		indented := strings.HasPrefix(line, "  ")
		if indented != listed {
			out = append(out, "")
		}
		if listed = indented; indented {
			line = "    " + line
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// writeManual writes all pages into a folder and names them.
func writeManual(dir string) ([]string, error) {
	if strings.TrimSpace(dir) == "" {
		return nil, usagef("man: the folder has no name; write one, such as: wingproof man manual")
	}
	pages, err := manual()
	if err != nil {
		return nil, err
	}
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return nil, usagef("man: %s is a file; name a folder for the pages", dir)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("make the folder for the manual: %w", err)
	}
	var names []string
	for _, page := range pages {
		path := filepath.Join(dir, page.name)
		if err := atomic.WriteFile(path, bytes.NewReader(page.text)); err != nil {
			return nil, fmt.Errorf("write %s: %w", path, err)
		}
		_ = os.Chmod(path, 0o644) // for everybody to read, as far as the system goes along
		names = append(names, page.name)
	}
	return names, nil
}
