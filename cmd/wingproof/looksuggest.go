package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
)

// suggestDocument is what look --suggest --json prints.
type suggestDocument struct {
	Log       string      `json:"log"`
	Logger    string      `json:"logger"`
	Encoding  string      `json:"encoding"`
	Separator string      `json:"separator"`
	Decimal   string      `json:"decimal_mark"`
	HeadLine  int         `json:"head_line"`
	Draft     string      `json:"draft"`
	Lines     []lookGuess `json:"lines"`
	Reads     string      `json:"reads"` // empty when the draft reads the log, else why it does not
}

// lookGuess is one column of a drafted map.
type lookGuess struct {
	Column string `json:"column"`
	Is     string `json:"is"`
	Unit   string `json:"unit"`
	Sure   string `json:"sure"` // sure, likely, guess, unknown
	Mapped bool   `json:"mapped"`
	Why    string `json:"why"`
}

func guessRows(guesses []flightlog.Guess) []lookGuess {
	out := []lookGuess{}
	for _, g := range guesses {
		out = append(out, lookGuess{g.Column, string(g.Is), g.Unit, g.Sure, g.Mapped, g.Why})
	}
	return out
}

// sniff looks at heads and first rows of a log.
func sniff(path string) (flightlog.Sniffed, error) {
	f, err := os.Open(path)
	if err != nil {
		return flightlog.Sniffed{}, usagef("look: the log %s cannot be opened: %v", path, reason(err))
	}
	defer f.Close()
	sniffed, err := flightlog.Sniff(f, path)
	if err != nil {
		return flightlog.Sniffed{}, usageError{oneMistake(err)}
	}
	return sniffed, nil
}

// runSuggest drafts the logger map of a log. A draft that cannot read it is still shown, with what to correct.
func runSuggest(s streams, o lookOptions, path string) error {
	sniffed, err := sniff(path)
	if err != nil {
		return err
	}
	m, guesses := flightlog.SuggestMap(sniffed)
	if m.Name = o.logger; m.Name == "" {
		m.Name = "my-logger"
	}
	doc := suggestDocument{Log: path, Logger: m.Name, Encoding: sniffed.Encoding, Separator: sniffed.Separator, Decimal: sniffed.Decimal,
		HeadLine: sniffed.HeadLine, Draft: program.DraftLogger(m, guesses), Lines: guessRows(guesses), Reads: whyUnread(path, m)}
	if o.json {
		return printJSON(s.Out, doc)
	}
	fmt.Fprintf(s.Out, "# A draft of the logger map for %s. Copy it into program.toml and go through every line.\n", path)
	fmt.Fprintf(s.Out, "# %s: %s.\n%s", "How sure", countWords(guesses), doc.Draft)
	if doc.Reads != "" {
		fmt.Fprintln(s.Out, "# The draft does not read the log yet:", doc.Reads)
	}
	return nil
}

// whyUnread says why a draft does not read its log; empty when it does.
func whyUnread(path string, m flightlog.Map) string {
	if m.Time.Column == "" {
		return "no column shows that it is time; write its head and its unit into time = { column = \"...\", unit = \"s\" }"
	}
	if len(m.Columns) == 0 {
		return "no column was understood; write the lines yourself"
	}
	_, err := flightlog.ReadFile(path, m)
	if err == nil {
		return ""
	}
	return oneMistake(errors.Join(err)).Error()
}

// countWords counts the lines of a draft by how sure they are.
func countWords(guesses []flightlog.Guess) string {
	count := map[string]int{}
	for _, g := range guesses {
		count[g.Sure]++
	}
	var words []string
	for _, k := range []struct{ sure, one, many string }{{"sure", "line sure", "lines sure"}, {"likely", "likely", "likely"}, {"guess", "a guess", "guesses"}, {"unknown", "not understood", "not understood"}} {
		switch n := count[k.sure]; n {
		case 0:
		case 1:
			words = append(words, "1 "+strings.TrimPrefix(k.one, "a "))
		default:
			words = append(words, fmt.Sprintf("%d %s", n, k.many))
		}
	}
	return strings.Join(words, ", ")
}
