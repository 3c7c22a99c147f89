package program

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// New begins a program folder: program.toml with comments, tables and geometry that pass Load, and copies
// of the logs with a drafted logger map for each kind of log.
//
// dir may be absent or empty; a folder that holds anything is refused. Nothing is left behind when New
// fails. Flights are entered with use = no until somebody has filled in what was flown.
func New(dir string, o NewOptions) (err error) {
	o = o.filled()
	if err := o.check(); err != nil {
		return err
	}
	if err := emptyFolder(dir); err != nil {
		return err
	}
	logs, err := draftLogs(o.Logs)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("make the program folder: %w", err)
	}
	draft, err := os.MkdirTemp(dir, ".new-")
	if err != nil {
		return fmt.Errorf("write into %s: %w", dir, err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(draft)) }()
	if err := writeDraft(draft, o, logs); err != nil {
		return err
	}
	if _, err := Load(draft); err != nil {
		return fmt.Errorf("the new folder would not pass its own check:\n%w", err)
	}
	entries, err := os.ReadDir(draft)
	if err != nil {
		return fmt.Errorf("write into %s: %w", dir, err)
	}
	for _, entry := range entries {
		if err := os.Rename(filepath.Join(draft, entry.Name()), filepath.Join(dir, entry.Name())); err != nil {
			return fmt.Errorf("write into %s: %w", dir, err)
		}
	}
	return nil
}

func emptyFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("look into %s: %w", dir, err)
	case len(entries) > 0:
		return fmt.Errorf("the folder %s is not empty (%s stands in it); name a new folder", dir, entries[0].Name())
	}
	return nil
}

// writeDraft writes every file of the new folder below dir.
func writeDraft(dir string, o NewOptions, logs []draftLog) error {
	choices := o.choices()
	files := o.shapeFiles()
	files[ProgramFile] = o.programText(choices, logs)
	files[FlightsFile] = flightsText(choices, logs)
	files[weighingsFile] = o.weighingsText()
	files[PartsFile] = o.partsText(choices)
	for _, name := range sortedKeys(files) {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(files[name]), 0o644); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(filepath.Join(dir, "logs"), 0o755); err != nil {
		return err
	}
	for _, log := range logs {
		if err := copyFile(log.source, filepath.Join(dir, filepath.FromSlash(log.path))); err != nil {
			return fmt.Errorf("copy the log %s: %w", log.source, err)
		}
	}
	return nil
}

func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	_, err = io.Copy(out, in)
	return err
}

// choices are those that are given, or those that follow from more than one height or span.
func (o NewOptions) choices() []Choice {
	if o.Choices != nil {
		return o.Choices
	}
	var out []Choice
	if len(o.WingletHeights) > 1 {
		out = append(out, sizes("winglet", o.WingletHeights, []string{"short", "mid", "tall"}, func(e *Edit, v float64) { e.Height = &v }))
	}
	if len(o.ForeplaneSpans) > 1 {
		out = append(out, sizes("foreplane", o.ForeplaneSpans, []string{"small", "standard", "large"}, func(e *Edit, v float64) { e.Span = &v }))
	}
	return out
}

// sizes is a choice between sizes of one surface; the middle one is the baseline, and the geometry is drawn to it.
func sizes(surface string, values []float64, words []string, set func(*Edit, float64)) Choice {
	c := Choice{Name: surface}
	for i, v := range values {
		name := fmt.Sprintf("%.0fmm", 1000*v)
		switch {
		case len(values) == 3:
			name = words[rank(values, v)]
		case len(values) == 2:
			name = words[2*rank(values, v)]
		}
		level := Level{Name: name}
		if i == middle(values) {
			c.Baseline = name
		} else {
			edit := Edit{Surface: surface}
			set(&edit, v)
			level.Edits = []Edit{edit}
		}
		c.Levels = append(c.Levels, level)
	}
	return c
}

// rank counts the values that are smaller.
func rank(values []float64, v float64) int {
	smaller := 0
	for _, other := range values {
		if other < v {
			smaller++
		}
	}
	return smaller
}

// middle is the index of the value in the middle of the order of size.
func middle(values []float64) int {
	for i, v := range values {
		if rank(values, v) == (len(values)-1)/2 {
			return i
		}
	}
	return 0
}

// tomlText writes a text as program.toml needs it.
func tomlText(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
