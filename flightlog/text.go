package flightlog

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

const (
	peekSize = 256 << 10 // bytes that decide on encoding, separator and heads
	lineSize = 1 << 20   // longest line taken for a line of a table
)

// text is a file as lines of bytes that keep ASCII as it is.
type text struct {
	*bufio.Reader
	source   string
	encoding string
	raw      io.Reader // below the buffer, where its bytes are those of the text; nil where they are decoded first
	returns  bool      // lines end with a carriage return alone
	line     int       // of the line read last, from 1
}

// openText finds out how a file is encoded and refuses what is no text.
func openText(r io.Reader, source string) (*text, error) {
	raw := bufio.NewReaderSize(r, bufferFor(r, 1))
	head, err := raw.Peek(min(peekSize, raw.Size()))
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("read %s: %w", source, err)
	}
	if len(head) == 0 {
		return nil, &Mistake{File: source, What: "the file is empty", Right: "give a log with a line of column heads and rows of numbers"}
	}
	t := &text{Reader: raw, source: source, encoding: encodingOf(head), raw: r}
	switch t.encoding {
	case "UTF-8 with byte-order mark":
		_, _ = raw.Discard(3) // three bytes that were just peeked at
	case "UTF-16 little-endian":
		t.decode(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder(), r)
	case "UTF-16 big-endian":
		t.decode(unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder(), r)
	case "":
		return nil, binaryMistake(head, source)
	}
	head, _ = t.Peek(min(peekSize, t.Size()))
	if bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head, '\r') >= 0 {
		t.returns = true
		t.Reader = bufio.NewReaderSize(returnsAsLines{t.Reader}, t.Size())
	}
	return t, nil
}

func (t *text) decode(d transform.Transformer, r io.Reader) {
	t.raw = nil
	t.Reader = bufio.NewReaderSize(transform.NewReader(t.Reader, d), bufferFor(r, 2)) // two bytes become up to three
}

// bufferFor is the size of a buffer that takes the longest line, or the whole of a small text that may become a number of
// times as long as it is.
func bufferFor(r io.Reader, times int64) int {
	if size := fixedSize(r); size > 0 {
		return int(min(lineSize, times*min(lineSize, size)+64))
	}
	return lineSize
}

// encodingOf names the encoding by the first bytes of a file; empty when it holds bytes of no text.
func encodingOf(head []byte) string {
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		return "UTF-8 with byte-order mark"
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		return "UTF-16 little-endian"
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		return "UTF-16 big-endian"
	}
	var zeros [2]int // at even and odd places
	controls := 0
	for i, c := range head {
		switch {
		case c == 0:
			zeros[i%2]++
		case c < 32 && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 26:
			controls++
		}
	}
	switch third := len(head) / 3; {
	case zeros[0]+zeros[1] == 0 && controls*100 <= len(head):
		return "UTF-8 or Windows-1252"
	case len(head) > 3 && zeros[0] == 0 && zeros[1] > third:
		return "UTF-16 little-endian"
	case len(head) > 3 && zeros[1] == 0 && zeros[0] > third:
		return "UTF-16 big-endian"
	}
	return ""
}

func binaryMistake(head []byte, source string) *Mistake {
	m := &Mistake{File: source, What: "the file is binary, not a text table", Right: "export the log as CSV from the logger's own software"}
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		m.What = "the file is a packed archive or a spreadsheet workbook, not a text table"
		m.Right = "unpack it, or save the sheet as CSV"
	case bytes.HasPrefix(head, []byte("\x1f\x8b")):
		m.What, m.Right = "the file is compressed, not a text table", "unpack it first"
	}
	return m
}

// bytes is what follows in the text, past the buffer where that needs no decoding: large pieces are read faster so.
func (t *text) bytes() io.Reader {
	if t.raw == nil || t.returns {
		return t.Reader
	}
	held, _ := t.Peek(t.Buffered())
	return io.MultiReader(bytes.NewReader(held), t.raw)
}

// next gives the following line without its end. whole is false for a last line that has no line end.
// The bytes are good until the next call.
func (t *text) next() (line []byte, whole bool, err error) {
	line, err = t.ReadSlice('\n')
	if len(line) == 0 && errors.Is(err, io.EOF) {
		return nil, false, io.EOF
	}
	t.line++
	switch {
	case errors.Is(err, bufio.ErrBufferFull):
		return nil, false, &Mistake{File: t.source, Line: t.line, What: fmt.Sprintf("the line is longer than %d bytes", lineSize), Right: "give a table with one row a line"}
	case errors.Is(err, io.EOF):
		return line, false, nil
	case err != nil:
		return nil, false, fmt.Errorf("read %s:%d: %w", t.source, t.line, err)
	}
	line = line[:len(line)-1]
	if n := len(line); n > 0 && line[n-1] == '\r' {
		line = line[:n-1]
	}
	return line, true, nil
}

// ahead gives the lines at the start of the file without reading on. The last one may be cut.
func (t *text) ahead() ([][]byte, error) {
	head, err := t.Peek(min(peekSize, t.Size()))
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("read %s: %w", t.source, err)
	}
	lines := bytes.Split(head, []byte("\n"))
	if len(lines) > 1 && err == nil {
		lines = lines[:len(lines)-1]
	}
	for i, l := range lines {
		lines[i] = bytes.TrimSuffix(l, []byte("\r"))
	}
	return lines, nil
}

// returnsAsLines turns each carriage return into a line end, for files that know no other.
type returnsAsLines struct{ r io.Reader }

func (r returnsAsLines) Read(p []byte) (int, error) {
	n, err := r.r.Read(p)
	for i, c := range p[:n] {
		if c == '\r' {
			p[i] = '\n'
		}
	}
	return n, err
}
