package flightlog

import (
	"bytes"
	"errors"
	"fmt"
	"io"
)

// chunkSize is how many bytes a parser takes at once: large enough that handing over costs nothing, small
// enough that the chunk and its samples stay in the cache of a core.
const chunkSize = 256 << 10

// chunker cuts a text into chunks of whole lines.
type chunker struct {
	text   io.Reader
	source string
	size   int    // of a chunk in bytes; a longer line makes a longer chunk
	rest   []byte // begun line, for the chunk that follows
	done   bool
	err    error // why the text cannot be read on
}

// next fills buffer, which grows where it must, with the chunk that follows. last tells that the text ends with it. The
// chunk is empty when there is no more, or when err tells why.
func (c *chunker) next(buffer []byte) (chunk []byte, last bool) {
	buffer = append(buffer[:0], c.rest...)
	c.rest = c.rest[:0]
	for target := c.size; !c.done; target = min(2*target, lineSize) {
		if target <= len(buffer) && target < lineSize {
			continue
		}
		if cap(buffer) < target+linePad {
			buffer = append(make([]byte, 0, target+linePad), buffer...)
		}
		n, err := io.ReadFull(c.text, buffer[len(buffer):target])
		buffer = buffer[:len(buffer)+n]
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			c.done = true
			return buffer, true
		}
		end := bytes.LastIndexByte(buffer, '\n') + 1
		if err == nil && end == 0 && len(buffer) >= lineSize {
			err = &Mistake{What: fmt.Sprintf("the line is longer than %d bytes", lineSize), Right: "give a table with one row a line"}
		}
		c.done, c.err = err != nil, err
		if end > 0 {
			c.rest = append(c.rest, buffer[end:]...)
			return buffer[:end], false
		}
	}
	return nil, true
}

// failed is what kept the text from being read to its end, with the line where it happened.
func (c *chunker) failed(line int) error {
	var m *Mistake
	switch {
	case c.err == nil:
		return nil
	case errors.As(c.err, &m):
		m.File, m.Line = c.source, line
		return m
	}
	return fmt.Errorf("read %s:%d: %w", c.source, line, c.err)
}
