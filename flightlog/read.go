package flightlog

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// ReadFile reads the log at path, up to the size that it has when it is opened: what a logger adds meanwhile is left
// for another time. A device or a pipe has no size and is read to its end. See Read.
func ReadFile(path string, m Map) (*Recording, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	if info.IsDir() {
		return nil, &Mistake{File: path, What: "this is a folder, not a log", Right: "name a file inside it"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	defer f.Close()
	r, err := asOpened(f)
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	return Read(r, path, m)
}

// asOpened gives what a file holds now, whatever is added to it later.
func asOpened(f *os.File) (io.Reader, error) {
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return f, err
	}
	return io.NewSectionReader(f, 0, info.Size()), nil
}

// Read reads a log through a map of its columns. source names the log in messages.
//
// Sign and Scale of a Column that are 0 count as 1. The error of a log that is no table, or that lacks a
// column that the map names, holds Mistakes. Rows and cells that cannot be used are left out, and the
// Recording's Findings say which and what follows.
//
// A channel keeps its first sample of any instant, so rows that repeat a time add only channels that had
// none. A row whose time runs backward is left out, unless the rows behind it show that up to three rows ahead of it
// were the ones in error. The delay of a column is taken off the times of its channel after all that.
//
// Read parses with as many processors as there are; the recording does not depend on their number. Read holds the
// channels in memory once and little beside them when r is a file or another reader that knows its size.
func Read(r io.Reader, source string, m Map) (*Recording, error) {
	return readWith(r, source, m, workersFor(sizeOf(r)), chunkSize)
}

func readWith(r io.Reader, source string, m Map, workers, chunk int) (*Recording, error) {
	a, err := assemble(r, source, m, workers, chunk)
	if err != nil {
		return nil, err
	}
	rec := a.recording(source)
	rec.Sensors, rec.Delays = m.Sensors, m.delays()
	return rec, nil
}

// assemble reads a log by a number of workers in chunks of a size. Neither shows in what it gives.
func assemble(r io.Reader, source string, m Map, workers, chunk int) (*assembly, error) {
	t, err := openText(r, source)
	if err != nil {
		return nil, err
	}
	l, err := findLayout(t, source, m)
	if err != nil {
		return nil, err
	}
	for range l.headLine {
		if _, _, err := t.next(); err != nil {
			break // the heads are the last line
		}
	}
	chunks := &chunker{text: t.bytes(), source: source, size: min(chunk, lineSize)}
	a := newAssembly(l, expect(r, t, l))
	readAll(chunks, l, a, workers)
	if err := chunks.failed(a.lines + 1); err != nil {
		return nil, err
	}
	if a.rows == 0 {
		return nil, a.nothing(source)
	}
	return a, nil
}

// findLayout matches the map with the first lines of the text.
func findLayout(t *text, source string, m Map) (*layout, error) {
	lines, err := t.ahead()
	if err != nil {
		return nil, err
	}
	wanted := []string{m.Time.Column}
	for _, c := range m.Columns {
		wanted = append(wanted, c.Column)
	}
	d, err := findDialect(lines, source, wanted)
	if err != nil {
		return nil, err
	}
	timeIndex, plans, mistakes := planColumns(m, d, source)
	c, mistake := newClock(m.Time.Unit, source)
	if mistake != nil {
		mistakes = append(mistakes, mistake)
	}
	if len(mistakes) > 0 {
		return nil, errors.Join(mistakes...)
	}
	return newLayout(d, timeIndex, plans, c.timeFormat), nil
}
