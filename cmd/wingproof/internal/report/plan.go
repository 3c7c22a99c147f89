package report

import (
	"fmt"
	"io"
	"strings"

	"wingproof/cmd/wingproof/internal/plan"
)

// PlanText writes test sheets for a printer: one after the other, or one a page with form feeds between. No line is longer
// than width.
func PlanText(w io.Writer, p plan.Plan, formFeed bool, width int) error {
	t := planText{width: max(columns(w, width), narrowest)}
	for i, s := range p.Sheets {
		if i > 0 && formFeed {
			t.b.WriteString("\f")
		} else if i > 0 {
			t.b.WriteString("\n" + strings.Repeat("=", t.width) + "\n\n")
		}
		t.sheet(p, s)
	}
	if len(p.LeftOut) > 0 {
		t.b.WriteString("\nNot on these sheets\n")
		t.list(p.LeftOut)
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// planText gathers the lines.
type planText struct {
	b     strings.Builder
	width int
}

// line writes words wrapped to the width, behind an indent that later lines keep.
func (t *planText) line(indent int, words string) { t.hang(strings.Repeat(" ", indent), indent, words) }

// blanks writes what is filled in by hand, as many side by side as there is room for.
func (t *planText) blanks(items ...string) {
	line := ""
	for _, item := range items {
		if line != "" && len(line)+2+len(item) > t.width {
			t.b.WriteString(line + "\n")
			line = ""
		}
		if line != "" {
			line += "  "
		}
		line += item
	}
	t.b.WriteString(line + "\n")
}

// hang writes words behind a head, later lines indented.
func (t *planText) hang(head string, indent int, words string) {
	at := head
	for i, line := range wrapLines(words, t.width-indent) {
		if i > 0 {
			at = strings.Repeat(" ", indent)
		}
		t.b.WriteString(strings.TrimRight(at+line, " ") + "\n")
	}
}

func (t *planText) list(lines []string) {
	for _, l := range lines {
		t.hang("- ", 2, l)
	}
}

func (t *planText) sheet(p plan.Plan, s plan.Sheet) {
	t.line(0, p.Program)
	t.line(0, planTitle(s))
	t.b.WriteString("\n")
	for _, c := range p.Cautions {
		t.hang("! ", 2, c)
	}
	t.b.WriteString("\n")
	for _, row := range planHead(p, s) {
		t.hang(fmt.Sprintf("%-18s", row.Head), 18, row.Text)
	}
	t.b.WriteString("\n")
	for _, c := range s.Cards {
		t.card(c)
	}
	if len(s.Notes) > 0 {
		t.b.WriteString("\nNot on this sheet\n")
		t.list(s.Notes)
	}
	if len(p.Assumptions) > 0 {
		t.b.WriteString("\nAssumed\n")
		t.list(p.Assumptions)
	}
	t.b.WriteString("\n")
	t.blanks("Date ____________", "log ______________________", "wind ___________", "pressure ______", "temperature ____")
	t.blanks("Flown by ________________", "observer ________________", "what the pilot says ______________________")
}

func (t *planText) card(c plan.Card) {
	t.hang(fmt.Sprintf("%2d  ", c.Number), 4, strings.ToUpper(c.Name)+": "+planFly(c))
	t.line(4, c.Do)
	t.line(4, "Stop: "+planStop(c)+". Read: "+c.Reads+".")
}

// wrapLines breaks words at blanks.
func wrapLines(words string, width int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(words) {
		switch {
		case line == "":
			line = word
		case len([]rune(line))+1+len([]rune(word)) <= width:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}
