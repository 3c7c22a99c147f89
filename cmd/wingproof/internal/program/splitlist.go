package program

import (
	"regexp"
	"strings"
)

// andWord is the word and between two names.
var andWord = regexp.MustCompile(`(?i)\s+and\s+`)

// splitList takes a cell such as "aft margin; tip-back, stall" apart. Names are separated by ; , + or
// the word and; isName protects a name that holds the word itself.
func splitList(text string, isName func(string) bool) []string {
	var out []string
	for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(";,+\n", r) }) {
		piece = strings.TrimSpace(piece)
		switch {
		case piece == "":
		case isName(piece):
			out = append(out, piece)
		default:
			for _, part := range andWord.Split(piece, -1) {
				part = strings.TrimSpace(part)
				if rest, ok := cutWord(part, "and"); ok {
					part = rest
				}
				if part != "" {
					out = append(out, part)
				}
			}
		}
	}
	return out
}

// cutWord takes a word and the space behind it off the front: "and tall" in "mid, and tall".
func cutWord(text, word string) (rest string, ok bool) {
	if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) && text[len(word)] == ' ' {
		return strings.TrimSpace(text[len(word):]), true
	}
	return text, false
}
