package flightlog

import (
	"bytes"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// cell is one cell of a line: its bytes without quotes and outer blanks, and where it begins.
type cell struct {
	text   []byte
	offset int // bytes from the start of the line
}

// splitCells cuts a line into cells at the separator, into the space of dst. A cell that begins with a
// quote runs to the closing quote, doubled quotes inside it stand for one, or to the end of the line.
func splitCells(line []byte, separator byte, dst []cell) []cell {
	dst = dst[:0]
	quotes := bytes.IndexByte(line, '"') >= 0
	for start := 0; ; {
		if quotes {
			if text, next, ok := quotedCell(line, separator, start); ok {
				dst = append(dst, cell{text, start})
				if next < 0 {
					return dst
				}
				start = next
				continue
			}
		}
		end := bytes.IndexByte(line[start:], separator)
		if end < 0 {
			return append(dst, cell{trimBlanks(line[start:]), start})
		}
		dst = append(dst, cell{trimBlanks(line[start : start+end]), start})
		start += end + 1
	}
}

// quotedCell reads a cell that begins with a quote at or after start. next is where the following cell
// begins, −1 at the end of the line. ok is false when the cell is not a quoted one.
func quotedCell(line []byte, separator byte, start int) (text []byte, next int, ok bool) {
	i := start
	for i < len(line) && line[i] == ' ' {
		i++
	}
	if i >= len(line) || line[i] != '"' {
		return nil, 0, false
	}
	from, doubled := i+1, false
	for i++; i < len(line); i++ {
		if line[i] != '"' {
			continue
		}
		if i+1 < len(line) && line[i+1] == '"' {
			doubled = true
			i++
			continue
		}
		break
	}
	text = line[from:min(i, len(line))]
	if doubled {
		text = bytes.ReplaceAll(text, []byte(`""`), []byte(`"`))
	}
	next = -1
	if rest := min(i, len(line)); rest < len(line) {
		if s := bytes.IndexByte(line[rest:], separator); s >= 0 {
			next = rest + s + 1
		}
	}
	return trimBlanks(text), next, true
}

// trimBlanks cuts spaces, tabs and carriage returns off both ends.
func trimBlanks(b []byte) []byte {
	for len(b) > 0 && (b[0] == ' ' || b[0] == '\t' || b[0] == '\r') {
		b = b[1:]
	}
	for len(b) > 0 {
		c := b[len(b)-1]
		if c != ' ' && c != '\t' && c != '\r' {
			break
		}
		b = b[:len(b)-1]
	}
	return b
}

// readable is a cell as text: bytes that are not UTF-8 are read as Windows-1252, which knows every byte
// that a spreadsheet of a Western system writes.
func readable(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	s, err := charmap.Windows1252.NewDecoder().Bytes(b)
	if err != nil {
		return string(bytes.ToValidUTF8(b, []byte("?")))
	}
	return string(s)
}

// comment tells whether a line is a remark, and gives the line without the mark.
func comment(line []byte) (rest []byte, is bool) {
	line = trimBlanks(line)
	for _, mark := range [...]string{"#", "%", "//"} {
		if bytes.HasPrefix(line, []byte(mark)) {
			return trimBlanks(bytes.TrimLeft(line, "#%/")), true
		}
	}
	return line, false
}
