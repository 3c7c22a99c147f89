package report

import (
	"fmt"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// What became of a row of the record.
const (
	Stands  = "stands"     // a settle that decides its choice, a sign-off that is not void, a reopen or void that is not void itself
	Ended   = "ended"      // a settle that a later row reopened or replaced
	Void    = "taken back" // made void by a later row
	Partial = "lapsed"     // a sign-off that no longer stands for parts which some choice shapes
)

// What is known of the evidence that a row was decided on.
const (
	SameEvidence    = "unchanged"
	ChangedEvidence = "changed"
	LostEvidence    = "lost"       // the list of its files is not in the folder any more
	NoEvidence      = "not stated" // the row names none
)

// Decided is one row of the record with what became of it and of its evidence.
type Decided struct {
	Number       int      `json:"number"`
	Event        string   `json:"event"`
	Date         string   `json:"date"`
	Choice       string   `json:"choice"`
	Level        string   `json:"level"`
	Who          string   `json:"who"`
	Why          string   `json:"why"`
	Standing     string   `json:"standing"`
	By           int      `json:"by"`       // row that ended it or took it back; 0: none
	Lapsed       []string `json:"lapsed"`   // choices for whose parts a sign-off lapsed, with the row that did it: "winglet (row 5)"
	Evidence     string   `json:"evidence"` // unchanged, changed, lost, not stated
	Inputs       string   `json:"inputs_sha256"`
	FlightsThen  []string `json:"flights_then"`   // whose logs lay in the folder and that the board uses today
	LeftOut      []string `json:"left_out_today"` // of the flights whose logs lay in the folder then
	FlightsSince []string `json:"flights_since"`  // that the board uses and whose logs came later
	FilesChanged []string `json:"files_changed"`  // since then: changed, added or gone, logs of new flights not counted
	State        string   `json:"level_state"`    // of a settle that stands: good, unproven, out; else empty
	StateWhy     string   `json:"level_why"`
}

// What says the decision: "winglet settled at mid".
func (d Decided) What() string {
	name := strings.ReplaceAll(d.Choice, "_", " ")
	switch d.Event {
	case "settle":
		return d.Choice + " settled at " + d.Level
	case "reopen":
		return d.Choice + " reopened"
	case "void":
		return "row " + d.Choice + " taken back"
	case "signoff":
		if d.Level != "" {
			return name + " signed off for the " + d.Level + " only"
		}
		return name + " signed off"
	}
	return strings.TrimSpace(d.Event + " " + d.Choice + " " + d.Level)
}

// Became says whether the row still counts: "stands", "ended by row 3", "taken back by row 4".
func (d Decided) Became() string {
	switch d.Standing {
	case Ended, Void:
		return fmt.Sprintf("%s by row %d", d.Standing, d.By)
	case Partial:
		return "lapsed for the parts shaped by the " + joinAnd(d.Lapsed) + ": they wait for a new one"
	}
	return d.Standing
}

// Basis says on which evidence it was decided and what changed since.
func (d Decided) Basis() string {
	switch d.Evidence {
	case NoEvidence:
		return "the row does not say on which evidence" + d.datedLater()
	case LostEvidence:
		return "on which files cannot be told any more (evidence/" + shortDigest(d.Inputs) + "….txt is missing or was changed)" + d.datedLater()
	}
	words := "on no flight"
	if n := len(d.FlightsThen); n > 0 {
		words = "on " + counted(n, "flight")
	}
	if len(d.LeftOut) > 0 {
		words += " (" + fewOf(d.LeftOut, "flight") + " left out today)"
	}
	if d.Evidence == SameEvidence {
		return words + "; nothing has changed since"
	}
	var since []string
	if n := len(d.FlightsSince); n > 0 {
		since = append(since, fmt.Sprintf("%s (%s)", counted(n, "more flight"), fewOf(d.FlightsSince, "flight")))
	}
	if len(d.FilesChanged) > 0 {
		since = append(since, "changed: "+fewOf(d.FilesChanged, "file"))
	}
	return words + "; since then " + strings.Join(since, "; ")
}

func (d Decided) datedLater() string {
	if len(d.FlightsSince) == 0 {
		return ""
	}
	return "; flown after that day: " + fewOf(d.FlightsSince, "flight")
}

// Holds says whether the evidence as it is now still bears a settled level out; empty for other rows.
func (d Decided) Holds() string {
	then := strings.HasPrefix(d.Why, "against the evidence (out)")
	switch {
	case d.State == decide.Good:
		return "the evidence bears it out: " + d.Level + " " + d.StateWhy
	case d.State == decide.Unproven:
		return "the evidence does not prove " + d.Level + ": " + d.StateWhy
	case d.State == decide.Out && then:
		return "the evidence rules " + d.Level + " out, as it did then: " + d.StateWhy
	case d.State == decide.Out:
		return "THE EVIDENCE NOW RULES " + strings.ToUpper(d.Level) + " OUT: " + d.StateWhy
	}
	return ""
}

// counts tells whether the row decides something today.
func (d Decided) counts() bool {
	return (d.Event == "settle" || d.Event == "signoff") && (d.Standing == Stands || d.Standing == Partial)
}

// decidedLines says what is decided today, a paragraph a row, and counts the rows that are history.
func decidedLines(rows []Decided) []string {
	var lines []string
	history := 0
	for _, d := range rows {
		if !d.counts() {
			history++
			continue
		}
		line := fmt.Sprintf("%d. %s, %s, %s: “%s”. Decided %s.", d.Number, plain(d.What()), DateWords(d.Date), plain(d.Who), plain(d.Why), plain(d.Basis()))
		if d.Standing == Partial {
			line += " " + upperFirst(plain(d.Became())) + "."
		}
		if holds := plain(d.Holds()); holds != "" {
			line += " " + upperFirst(holds) + "."
		}
		lines = append(lines, line)
	}
	if history > 0 {
		words := "Not in force any more, or taking something back: "
		if len(lines) == 0 {
			words = "nothing that is in force today. Not in force any more, or taking something back: "
		}
		lines = append(lines, words+counted(history, "row")+" of decisions.csv; 'wingproof report' lists all.")
	}
	return lines
}

// ended ends a sentence, unless a name with a stop does.
func ended(sentence string) string {
	if strings.HasSuffix(sentence, ".") {
		return sentence
	}
	return sentence + "."
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// fewOf lists names, at most six of them, and counts the others.
func fewOf(names []string, noun string) string {
	const most = 6
	if len(names) <= most {
		return joinAnd(names)
	}
	return strings.Join(names[:most-1], ", ") + " and " + counted(len(names)-most+1, "more "+noun)
}

func joinAnd(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func shortDigest(digest string) string {
	if len(digest) > 8 {
		return digest[:8]
	}
	return digest
}
