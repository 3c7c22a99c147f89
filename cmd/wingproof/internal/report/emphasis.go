package report

import (
	"io"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
)

// dangerWords begin a sentence that a reader must not miss.
func dangerWords() []string { return []string{"ALARM", "DANGER", "CAUTION"} }

// emphasised marks the word that an alarm, a danger or a caution begins with.
func emphasised(w io.Writer, line string) string {
	for _, word := range dangerWords() {
		if rest, found := strings.CutPrefix(line, word); found {
			return Alarm(w, word) + rest
		}
	}
	return line
}

// actionMarked marks the word on the board that a line begins with: bold, and red where work must stop.
func actionMarked(w io.Writer, line string) string {
	for _, words := range actions() {
		action := words.action
		rest, found := strings.CutPrefix(line, action)
		switch {
		case !found || rest != "" && !strings.ContainsAny(rest[:1], " :"):
		case action == decide.StopAndAsk:
			return Alarm(w, action) + rest
		default:
			return Bold(w, action) + rest
		}
	}
	return line
}

// headed marks the lines of a laid out table: its heads, which end at the rule, bold.
func (t *textTable) headed(w io.Writer, lines []string) []string {
	rule := 0
	for rule < len(lines) && (lines[rule] == "" || strings.Trim(lines[rule], "-") != "") {
		rule++
	}
	out := make([]string, len(lines))
	for i, line := range lines {
		line = strings.TrimRight(line, " ")
		switch {
		case i < rule && rule < len(lines):
			line = Bold(w, line)
		case t.mark != nil:
			line = t.mark(w, line)
		}
		out[i] = line
	}
	return out
}
