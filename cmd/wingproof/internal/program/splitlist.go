package program

import (
	"regexp"
	"strings"
)

// andWord is the word and between two names.
var andWord = regexp.MustCompile(`(?i)\s+and\s+`)

// listPiece separates the names of a list: anything but ; , + and line breaks.
var listPiece = regexp.MustCompile(`[^;,+\n]+`)

// splitList takes a cell such as "aft margin; tip-back, stall" apart. Names are separated by ; , + or
// the word and; isName protects a name that holds a separator itself, such as "0,75 m" or "+2°".
func splitList(text string, isName func(string) bool) []string {
	var out []string
	pieces := listPiece.FindAllStringIndex(text, -1)
	for i := 0; i < len(pieces); i++ {
		name, last := longestName(text, pieces[i:], isName)
		if name != "" {
			out = append(out, name)
			i += last
			continue
		}
		out = append(out, splitAtAnd(text[pieces[i][0]:pieces[i][1]])...)
	}
	return out
}

// longestName joins as many pieces as make up one name, with the separators between them; last counts the pieces behind the first.
func longestName(text string, pieces [][]int, isName func(string) bool) (name string, last int) {
	for last = len(pieces) - 1; last >= 0; last-- {
		joined := strings.TrimSpace(text[pieces[0][0]:pieces[last][1]])
		if joined != "" && isName(joined) {
			return joined, last
		}
	}
	return "", 0
}

// splitAtAnd takes "mid and tall" apart.
func splitAtAnd(piece string) []string {
	var out []string
	for _, part := range andWord.Split(strings.TrimSpace(piece), -1) {
		part = strings.TrimSpace(part)
		if rest, ok := cutWord(part, "and"); ok {
			part = rest
		}
		if part != "" {
			out = append(out, part)
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
