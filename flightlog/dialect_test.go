package flightlog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A log whose first part is missing, and text that is no table, are told in a sentence, by the drafting of a map and by the reader alike.
func TestNoHeads(t *testing.T) {
	const headless = "x.csv:1: the table begins with numbers and has no line of column heads; the first part of the file is missing, or put a line above it that names the columns"
	const picture = "x.csv:1: this is a page or a drawing (its text begins with a tag), not a log; give a table: a line of column heads and rows of numbers, split by comma, semicolon or tab"
	for name, c := range map[string]struct{ text, want string }{
		"decimal comma, cut in a row": {";2,08;247,5;;;12,22\n" + strings.Repeat("14:05:27,420;-1,03;8,29;12,49;36,01;12,22\n", 80), headless},
		"quoted, instants, remarks":   {"0659\",\"0.0018\",\"-0.99\"\n" + strings.Repeat(`"2026-05-09T06:33:47.050Z","0.09","NaN","1.28","0.13","fine, so far"`+"\n", 80), headless},
		"blanks, small numbers":       {"04\t\t\t\n" + strings.Repeat("288310\t-4.6e-05\t\t0.9\n288311\t\t1e-3\t\n", 80), headless},
		"one row":                     {"1,2,3\n", headless},
		"drawing":                     {"<svg width=\"6\">\n<path d=\"M1,2,3\"/>\n<text>speed, m/s</text>\n1,2,3\n", picture},
		"page":                        {"\n<!doctype html>\n<p>a,b\n1,2\n", strings.Replace(picture, ":1:", ":2:", 1)},
		"heads alone":                 {"t,speed\n", "x.csv:1: there is a line of heads but no row of numbers below it; give a log with samples"},
		"words":                       {"dear diary, today\nnothing, flew\n", "x.csv:2: there is a line of heads but no row of numbers below it; give a log with samples"},
	} {
		_, err := Sniff(strings.NewReader(c.text), "x.csv")
		require.EqualError(t, err, c.want, name)
		require.Len(t, Mistakes(err), 1, name)
		if strings.HasPrefix(c.want, "x.csv:1: the table") {
			_, err = Read(strings.NewReader(c.text), "x.csv", fieldBox())
			require.EqualError(t, err, c.want, name)
		}
	}
}

// Heads that look odd are heads all the same.
func TestOddHeads(t *testing.T) {
	for _, text := range []string{"<t>,<v>\n1,2\n2,3\n", "T\tP\tE\n1\t2\t3\n2\t\t3\n", "t;2nd speed\n1;2,5\n2;3,5\n", "# made, by hand\nt,1st,2nd,3rd\n1,2,3,4\n"} {
		s, err := Sniff(strings.NewReader(text), "x.csv")
		require.NoError(t, err, text)
		require.NotEmpty(t, s.Rows, text)
		require.NotContains(t, s.Heads[0], "1", text)
	}
}
