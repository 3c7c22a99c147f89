package report

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// wallSheet is the board as it hangs: rows in letters that are read at three metres, what is read close by in small ones.
type wallSheet struct {
	Head    string // number or draft, date, newest flight, when it is void
	Above   []wallBlock
	Rows    []wallRow
	Below   []wallBlock
	Ways    []wallWay // what would clear rows, by letter
	Leaves  int       // of A4 or Letter in portrait; 1: the whole board
	OneA3   bool      // all of it fits on one sheet of A3
	Upright bool      // A4 and Letter are too low for it when they lie across

	bold, plain *lettering
}

// wallBlock is a few lines around the rows.
type wallBlock struct {
	Head  string // stands before the first line
	Lines []string
	Alarm bool
	Small bool
}

// wallRow is one part on the wall.
type wallRow struct {
	Part, Word, Next string
	First            bool   // of its word
	Changed          string // "was wait"; empty: the word of the last sheet
	Stage            string
	Why              string
	Way              string // letter of what would clear it
	Until            string // needed by, who
	Turn             int    // page that begins with this row; 0: none
	Under            []bool // by box: the small text stands under the words
}

// wallWay is what would clear some of the rows.
type wallWay struct {
	Letter string
	clearing
}

// Words is the text behind its letter, with the work that waits for it.
func (w wallWay) Words() string {
	words := upperFirst(sizesWords(w.Clears))
	if hours := hoursWords(w.Hours); hours != "" {
		words += " (" + hours + " of work waiting)"
	}
	return w.Letter + "  " + ended(words)
}

// Do is the word with the operation that it means.
func (r wallRow) Do() string {
	if r.Next == "" {
		return r.Word
	}
	return r.Word + ": " + r.Next
}

// Small is what is read close by, in one text.
func (r wallRow) Small() string {
	parts := []string{r.Stage, r.Why}
	if r.Changed != "" {
		parts = slices.Insert(parts, 0, "CHANGED, "+r.Changed)
	}
	if r.Way != "" {
		parts = append(parts, "clears: "+r.Way)
	}
	if r.Until != "" {
		parts = append(parts, r.Until)
	}
	return strings.Join(parts, " · ")
}

// newWallSheet puts a board on the wall.
func newWallSheet(c Content) *wallSheet {
	w := &wallSheet{Head: ended(c.Sheet.Head()), Ways: wallWays(c.Verdict.Board), bold: newLettering(true), plain: newLettering(false)}
	word := ""
	for _, r := range ordered(c.Verdict.Board) {
		row := wallRow{Part: PartWords(r), Word: r.Action, Next: r.Next, First: r.Action != word, Changed: c.Sheet.mark(r), Stage: stageWords(r.Stage), Why: "no reason recorded", Way: w.letter(r.Clears), Until: untilWords(r, c.Date)}
		if r.Side == "both" {
			row.Stage += ", both sides"
		}
		if len(r.Reasons) > 0 {
			row.Why = sizesWords(r.Reasons[0])
		}
		word = r.Action
		w.Rows = append(w.Rows, row)
	}
	w.Above, w.Below = wallAbove(c), w.wallBelow(c)
	return w
}

// wallWays gives each different text of what would clear parts a letter, most waiting hours first; of more than 26 the later ones get a number.
func wallWays(board []decide.Row) []wallWay {
	var out []wallWay
	for i, c := range clearings(board) {
		letter := fmt.Sprint(i + 1)
		if i < 26 {
			letter = string(rune('A' + i))
		}
		out = append(out, wallWay{letter, c})
	}
	return out
}

// letter of the text that would clear a row; empty when nothing is needed.
func (w *wallSheet) letter(clears string) string {
	for _, way := range w.Ways {
		if way.Clears == clears {
			return way.Letter
		}
	}
	return ""
}

// untilWords says until when a part is needed, and who answers for it; the year only where it is not that of the sheet.
func untilWords(r decide.Row, sheet string) string {
	until := DateWords(r.NeededBy)
	if len(sheet) >= 4 {
		until = strings.TrimSuffix(until, " "+sheet[:4])
	}
	switch {
	case r.NeededBy != "" && r.Responsible != "":
		return "needed by " + until + ", " + r.Responsible
	case r.NeededBy != "":
		return "needed by " + until
	}
	return r.Responsible
}

// wallAbove is what stands before the rows: alarms, what changed, what is undecided, out and proven.
func wallAbove(c Content) []wallBlock {
	var out []wallBlock
	if len(c.Verdict.Alarms) > 0 {
		alarms := make([]string, len(c.Verdict.Alarms))
		for i, a := range c.Verdict.Alarms {
			alarms[i] = ended(upperFirst(a))
		}
		out = append(out, wallBlock{Head: "ALARM", Lines: alarms, Alarm: true})
	}
	if head := c.Sheet.ChangesHead(); head != "" {
		line := ended(head)
		if changes := c.Sheet.ChangeLines(); len(changes) > 0 {
			line = head + ": " + ended(strings.Join(changes, "; "))
		}
		out = append(out, wallBlock{Lines: []string{line}})
	}
	if lines := QuestionLines(c.Verdict); len(lines) > 0 {
		out = append(out, wallBlock{Lines: joinChoices(lines)})
	}
	return out
}

// wallBelow is what stands behind the rows: what would clear them, who decided what, what is left out and what is not judged.
func (w *wallSheet) wallBelow(c Content) []wallBlock {
	var out []wallBlock
	if len(w.Ways) > 0 {
		ways := make([]string, len(w.Ways))
		for i, way := range w.Ways {
			ways[i] = way.Words()
		}
		out = append(out, wallBlock{Head: "To clear", Lines: ways})
	}
	if lines := wallDecided(c.Decisions); len(lines) > 0 {
		out = append(out, wallBlock{Head: "Decided", Lines: lines, Small: true})
	}
	lines := boardCautions(c.Verdict.Board)
	if left := leftOutWords(c.Verdict.LeftOut); left != "" {
		lines = append([]string{left}, lines...)
	}
	list := c.Verdict.NotJudged
	if len(list) == 0 {
		list = notJudged()
	}
	lines = append(lines, "Not judged here: "+strings.Join(list, ", ")+". This sheet speaks of shape, and of strength only where a built part states what it carries; it never says that an aircraft is safe to fly.")
	return append(out, wallBlock{Lines: lines, Small: true})
}

// wallDecided says who decided what, of the rows that stand.
func wallDecided(rows []Decided) []string {
	var out []string
	for _, d := range rows {
		if !d.counts() {
			continue
		}
		line := fmt.Sprintf("%s, %s, %s: “%s”.", d.What(), d.Who, DateWords(d.Date), d.Why)
		if d.Standing == Partial {
			line += " " + upperFirst(d.Became()) + "."
		}
		if d.State == decide.Out {
			line += " " + upperFirst(d.Holds()) + "."
		}
		out = append(out, line)
	}
	return out
}

// joinChoices puts what is undecided and decided of all choices on one line.
func joinChoices(lines []string) []string {
	var first []string
	var others []string
	for _, line := range lines {
		if strings.HasPrefix(line, "NOT DECIDED") || strings.HasPrefix(line, "Decided:") {
			first = append(first, line)
			continue
		}
		others = append(others, line)
	}
	if len(first) == 0 {
		return others
	}
	return append([]string{strings.Join(first, " ")}, others...)
}
