package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// Board is a verdict with the sheet that it is, or would be, and what was decided.
type Board struct {
	Verdict decide.Verdict
	Sheet   *Sheet    // nil: no head
	Decided []Decided // oldest first
}

// BoardTable writes the board as text no wider than width columns (100 when width is 0): alarms, then what
// to do with each part and the weightiest reason, then what is not judged.
func BoardTable(w io.Writer, v decide.Verdict, width int) error {
	return Board{Verdict: v}.Write(w, width)
}

// Write writes the board as text: the head of the sheet, alarms, what changed since the last sheet, the parts, what was decided,
// and last what is not judged.
func (b Board) Write(w io.Writer, width int) error {
	v, sheet := b.Verdict, Sheet{}
	if b.Sheet != nil {
		sheet = *b.Sheet
		if err := paragraph(w, ended(plain(sheet.Head())), width); err != nil {
			return err
		}
	}
	for _, alarm := range v.Alarms {
		if err := paragraph(w, "ALARM: "+plain(alarm), width); err != nil {
			return err
		}
	}
	if err := b.writeChanges(w, sheet, width); err != nil {
		return err
	}
	for _, line := range QuestionLines(v) {
		if err := paragraph(w, plain(line), width); err != nil {
			return err
		}
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	t := boardRows(v.Board, sheet)
	if len(t.rows) == 0 {
		if err := paragraph(w, "no parts to judge: parts.csv lists none", width); err != nil {
			return err
		}
	} else if err := t.write(w, width); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	return b.writeFoot(w, width)
}

// boardRows has a row for each part, in the order of the wall.
func boardRows(board []decide.Row, sheet Sheet) *textTable {
	t := &textTable{heads: []string{"do this", "part", "stage", "why"}, most: []int{24, 24, 10, 0}, apart: true, mark: actionMarked}
	for _, r := range ordered(board) {
		do := plain(doWords(r))
		if mark := sheet.mark(r); mark != "" {
			do += "\n(" + plain(mark) + ")"
		}
		name := plain(PartWords(r))
		if r.Side == "both" {
			name += ", both sides"
		}
		t.add(do, name, plain(stageWords(r.Stage)), whyCell(r))
	}
	return t
}

// writeChanges lists what changed since the last sheet, with a blank line behind a head.
func (b Board) writeChanges(w io.Writer, sheet Sheet, width int) error {
	if b.Sheet == nil {
		return nil
	}
	var lines []string
	if head := sheet.ChangesHead(); len(sheet.Changed) > 0 {
		lines = append(lines, head+":")
	} else if head != "" {
		lines = append(lines, head+".")
	}
	for _, line := range sheet.ChangeLines() {
		lines = append(lines, "- "+plain(line))
	}
	for _, line := range append(lines, "") {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	return nil
}

// writeFoot writes what was decided, the flights left out and what is not judged.
func (b Board) writeFoot(w io.Writer, width int) error {
	v := b.Verdict
	if lines := decidedLines(b.Decided); len(lines) > 0 {
		if err := WriteSections(w, []Section{{Title: "Decided so far:", Lines: lines}}, width); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(w); err != nil {
			return err
		}
	}
	list := v.NotJudged
	if len(list) == 0 {
		list = notJudged()
	}
	if slices.ContainsFunc(v.Board, func(r decide.Row) bool { _, cut := short(sizesWords(plain(r.Clears))); return cut }) {
		if err := paragraph(w, "Where a text ends in …, 'wingproof parts --why PART' says it all.", width); err != nil {
			return err
		}
	}
	if line := leftOutWords(v.LeftOut); line != "" {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	for _, line := range boardCautions(v.Board) {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	return paragraph(w, "Not judged here: "+plain(strings.Join(list, ", "))+". The board speaks of shape, and of strength only where a built part states what it carries; it never says that an aircraft is safe to fly.", width)
}

// boardCautions are the cautions that the board's own advice calls for: where it asks for flights, and where it asks for a proof load.
func boardCautions(rows []decide.Row) []string {
	asks := func(words string) bool {
		return slices.ContainsFunc(rows, func(r decide.Row) bool { return strings.Contains(r.Clears, words) })
	}
	var lines []string
	if asks("fly ") {
		lines = append(lines, "CAUTION, flights: a model of this size can kill. Local rules come first; people away from it; move the centre of gravity aft in small steps and never aft of where 'wingproof plan' stops.")
	}
	if asks("for proof") {
		lines = append(lines, "CAUTION, proof loads: a loaded spar can break violently. Stand clear, load in steps, and let a licensed person set the loads.")
	}
	return lines
}

// leftOutWords names the flights that the board does not rest on, each with its reason; empty without any.
func leftOutWords(flights []decide.LeftOut) string {
	var words []string
	for _, f := range flights {
		words = append(words, plain(f.Flight)+" ("+plain(f.Why)+")")
	}
	if len(words) == 0 {
		return ""
	}
	return "Flights left out: " + strings.Join(words, "; ") + "."
}

// whyCell is the first reason and, below it, what would clear the part.
func whyCell(r decide.Row) string {
	why := "no reason recorded"
	if len(r.Reasons) > 0 {
		why = plain(r.Reasons[0])
	}
	if r.Clears != "" {
		text, _ := short(sizesWords(plain(r.Clears)))
		why += "\nto clear: " + text
	}
	return why
}
