package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// NextTable writes what could be done next as text, the most shop hours first, below the board's alarms. Every number in it is a forecast.
func NextTable(w io.Writer, o decide.Outlook, alarms []string, width int) error {
	for _, alarm := range alarms {
		if err := paragraph(w, "ALARM: "+plain(alarm), width); err != nil {
			return err
		}
	}
	words := outlookWordsOf(o, "'wingproof parts'")
	if err := paragraphs(w, words.Head, width); err != nil {
		return err
	}
	t := textTable{heads: []string{"hours", "do this", "clears (chance)", "narrows most"}, most: []int{6, 0, 30, 28}, apart: true}
	for _, step := range words.Steps {
		t.add(step.Hours, step.Do+"\n("+step.Why+")", clearsCell(step.Clears), step.Narrows)
	}
	if len(t.rows) > 0 {
		if err := t.write(w, width); err != nil {
			return err
		}
	}
	return paragraphs(w, words.After, width)
}

func paragraphs(w io.Writer, lines []string, width int) error {
	for _, line := range lines {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	return nil
}

// mostCleared is how many parts a line names.
const mostCleared = 4

// clearsCell lists the parts that a step clears, as many as a line names.
func clearsCell(parts []string) string {
	if len(parts) == 0 {
		return clearsNothing
	}
	if more := len(parts) - mostCleared; more > 0 {
		parts = append(slices.Clone(parts[:mostCleared]), fmt.Sprintf("and %d more", more))
	}
	return strings.Join(parts, "\n")
}

// NextRehearsed writes what rehearsed steps would do.
func NextRehearsed(w io.Writer, lines []string, width int) error {
	for _, line := range lines {
		if err := paragraph(w, sizesWords(plain(line)), width); err != nil {
			return err
		}
	}
	return nil
}
