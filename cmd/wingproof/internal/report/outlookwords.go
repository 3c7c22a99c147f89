package report

import (
	"fmt"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// outlookWords are what could be done next as people read it, on a terminal and on the page. Every number in them is a forecast.
type outlookWords struct {
	Head  []string      // what waits, and what a decision alone would clear
	Steps []outlookStep // the most hours first, those that clear or narrow something
	After []string      // what the other steps do, what two do together, what no flight clears, cautions
}

// outlookStep is one step.
type outlookStep struct {
	Hours, Do, Why string
	Clears         []string // the parts with the chance that they come free, the most hours first
	Narrows        string
}

const clearsNothing = "nothing by itself"

// outlookWordsOf writes a forecast; board is where the reader finds the board: "'wingproof parts'".
func outlookWordsOf(o decide.Outlook, board string) outlookWords {
	switch {
	case o.Parts > 0 && o.Waiting == 0:
		return outlookWords{Head: []string{"Parts wait, but parts.csv states no hours_left for them, and hours are what steps are ranked by: write how many hours of work each part still takes."}}
	case o.Parts == 0:
		return outlookWords{Head: []string{"No part waits for a flight or a measurement: what is left are decisions, sign-offs and gaps in parts.csv. " + upperFirst(board) + " names them."}}
	}
	out := outlookWords{Head: []string{waitingWords(o)}}
	var idle []string
	for _, p := range o.Prospects {
		if p.Hours < 0.5 && !narrows(p.Narrows) {
			idle = append(idle, sizesWords(plain(p.Candidate.Say)))
			continue
		}
		out.Steps = append(out.Steps, outlookStep{hoursCell(p), sizesWords(plain(p.Candidate.Say)), plain(p.Candidate.Why), clearedWords(p.Parts), narrowsCell(p.Narrows)})
	}
	if len(idle) > 0 {
		out.After = append(out.After, "These clear nothing by themselves and hardly narrow what is open: "+strings.Join(idle, "; ")+".")
	}
	out.After = append(out.After, outlookLines(o)...)
	return out
}

// waitingWords say how much waits, and how much of it waits for a decision alone.
func waitingWords(o decide.Outlook) string {
	head := fmt.Sprintf("FORECAST, nothing here was measured yet. Parts with %s shop hours wait for more than a decision or a sign-off; "+
		"hours are those that each step can be expected to clear, once what it proves is settled. "+
		"They are counted over %d drawn outcomes a step: enough to rank the steps by, rough as numbers.", number(o.Waiting, 0), decide.Outcomes)
	if o.Settle.Hours > 0 {
		head += fmt.Sprintf(" Without any measurement: %s, since %s: %s hours.", plain(o.Settle.Candidate.Say), plain(o.Settle.Candidate.Why), number(o.Settle.Hours, 0))
	}
	return head
}

func hoursCell(p decide.Prospect) string {
	if p.Hours < 0.5 {
		return "–"
	}
	return number(p.Hours, 0)
}

// clearedWords name parts with the chance that they come free.
func clearedWords(parts []decide.PartProspect) []string {
	var words []string
	for _, part := range parts {
		name := plain(part.Part)
		if side := plain(part.Side); side == "left" || side == "right" {
			name += ", " + side
		}
		words = append(words, fmt.Sprintf("%s (%s)", name, chanceWords(part.Chance)))
	}
	return words
}

// chanceWords says a chance no more closely than ten outcomes tell it.
func chanceWords(p float64) string {
	switch {
	case p > 0.9:
		return "nearly sure"
	case p > 0.65:
		return "likely"
	case p > 0.35:
		return "even"
	default:
		return "unlikely"
	}
}

// worthwhile is the share of its width that a range must lose for a step to be worth a line: common practice, no source.
const worthwhile = 0.05

// narrows tells whether a step narrows something open by as much as is worth saying.
func narrows(n decide.Narrowing) bool { return n.Limit != "" && n.After < (1-worthwhile)*n.Now }

func narrowsCell(n decide.Narrowing) string {
	if !narrows(n) {
		return "nothing that is open"
	}
	return fmt.Sprintf("%s with %s: the 95 %% range shrinks to %s %% of what it is now", plain(n.Limit), sizesWords(plain(n.Configuration)), number(100*n.After/n.Now, 0))
}

// outlookLines say what two steps do together, and what no flight clears.
func outlookLines(o decide.Outlook) []string {
	var lines []string
	if len(o.Together) > 0 && len(o.Prospects) > 0 {
		pair := o.Together[0]
		if pair.Hours > o.Prospects[0].Hours+0.5 {
			lines = append(lines, fmt.Sprintf("Two together: %s: %s hours.", sizesWords(plain(pair.Candidate.Say)), number(pair.Hours, 0)))
		}
	}
	switch left := o.Waiting - o.Endless.Hours; {
	case o.Endless.Hours < 0.5:
		lines = append(lines, "More flights of the model alone cannot clear any of these parts, however many: what is left is not what flights measure.")
	case left > 0.05*o.Waiting:
		lines = append(lines, fmt.Sprintf("Any number of flights would clear about %s of these %s hours; the rest waits for the other rows, or for another shape.", number(o.Endless.Hours, 0), number(o.Waiting, 0)))
	}
	return append(lines, "Fly within local rules, away from people, and move the centre of gravity aft in small steps.")
}
