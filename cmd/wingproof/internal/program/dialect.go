package program

import (
	"bytes"
	"strings"
)

// dialect is how a spreadsheet has saved a table.
type dialect struct {
	encoding  encoding
	separator rune
	end       string // of a line
	quotesAll bool   // every cell stands between quotation marks
}

// newline is the end of a line.
func (d dialect) newline() string {
	if d.end == "" {
		return "\n"
	}
	return d.end
}

// sniff finds the separator of a table from its first line that is neither empty nor a comment, and
// how many bytes to skip: a first line such as sep=; is an instruction to spreadsheets, not a head.
func sniff(text []byte) (d dialect, skip int) {
	d = dialect{separator: ',', end: "\n"}
	if bytes.Contains(text, []byte("\r\n")) {
		d.end = "\r\n"
	}
	first, rest, _ := bytes.Cut(text, []byte("\n"))
	line := strings.TrimSpace(string(first))
	if len(line) == 5 && strings.EqualFold(line[:4], "sep=") && strings.Contains(",;", line[4:]) {
		d.separator = rune(line[4])
		return d, len(text) - len(rest)
	}
	for remaining := text; len(remaining) > 0; {
		first, remaining, _ = bytes.Cut(remaining, []byte("\n"))
		line = strings.TrimSuffix(string(first), "\r")
		if bare := strings.Trim(line, "\",;\t "); bare == "" || bare[0] == '#' {
			continue
		}
		d.separator = separator(line)
		d.quotesAll = allQuoted(line, d.separator)
		break
	}
	return d, 0
}

// separator counts candidates outside quotation marks; a comma wins when there is none.
func separator(line string) rune {
	counts := map[rune]int{}
	inside := false
	for _, r := range line {
		switch {
		case r == '"':
			inside = !inside
		case !inside:
			counts[r]++
		}
	}
	best := ','
	for _, candidate := range []rune{';', '\t'} {
		if counts[candidate] > counts[best] {
			best = candidate
		}
	}
	return best
}

func allQuoted(line string, separator rune) bool {
	cells := strings.Split(strings.TrimRight(line, string(separator)), string(separator))
	for _, c := range cells {
		if len(c) < 2 || c[0] != '"' || c[len(c)-1] != '"' {
			return false
		}
	}
	return true
}

// line writes cells as one line of the dialect, with its end.
func (d dialect) line(cells []string) string {
	written := make([]string, len(cells))
	for i, c := range cells {
		special := strings.ContainsAny(c, "\"\r\n\t"+string(d.separator)) || c != strings.TrimSpace(c)
		if d.quotesAll || special {
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		written[i] = c
	}
	return strings.Join(written, string(d.separator)) + d.newline()
}
