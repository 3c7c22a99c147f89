package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// Terminal is a writer that knows how wide a line it shows and whether it shows colours. Text written to it takes both from it; text
// written elsewhere has the usual width and no colour, and so have documents for other programs, which never ask.
//
// Colour is sparse and says nothing that the words do not say: what heads a table and the word on the board are bold, an alarm, a danger
// and a stop are bold and red. The red is the terminal's own, which its user has made legible on the ground that it stands on.
type Terminal struct {
	io.Writer
	Width  int // columns; 0 for the usual
	Colour bool
}

// usual is the width of text that nobody stated another for, columns.
const usual = 100

// Select Graphic Rendition, ECMA-48 (5th edition, 1991), section 8.3.117.
const (
	sgrBold  = "\x1b[1m"
	sgrAlarm = "\x1b[1;31m"
	sgrPlain = "\x1b[0m"
)

// columns is the width for text: the one stated, else what the writer shows, else the usual.
func columns(w io.Writer, stated int) int {
	if t, ok := w.(Terminal); ok && stated <= 0 {
		stated = t.Width
	}
	if stated <= 0 {
		return usual
	}
	return stated
}

// Bold makes words bold where the writer shows that.
func Bold(w io.Writer, words string) string { return inked(w, sgrBold, words) }

// Alarm makes words stand out as an alarm where the writer shows that.
func Alarm(w io.Writer, words string) string { return inked(w, sgrAlarm, words) }

func inked(w io.Writer, ink, words string) string {
	if t, ok := w.(Terminal); ok && t.Colour && words != "" {
		return ink + words + sgrPlain
	}
	return words
}

// Tell writes sentences that stand outside of tables. A writer that knows its width gets each line broken where it must, later lines
// further in; elsewhere a line stays whole, so that a search finds it.
func Tell(w io.Writer, lines string) error {
	t, ok := w.(Terminal)
	for line := range strings.SplitSeq(strings.TrimSuffix(lines, "\n"), "\n") {
		if ok && t.Width > 0 {
			line = broken(line, t.Width)
		}
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// broken breaks one line at a width.
func broken(line string, width int) string {
	words := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(words)]
	pieces := strings.Split(text.WrapSoft(words, max(width-len(indent)-2, narrowest/2)), "\n")
	for i := range pieces {
		pieces[i] = indent + strings.TrimRight(pieces[i], " ")
		indent = line[:len(line)-len(words)] + "  "
	}
	return strings.Join(pieces, "\n")
}
