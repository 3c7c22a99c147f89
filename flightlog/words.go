package flightlog

import (
	"strings"
	"unicode"

	"wingproof/flightlog/unit"
)

// headWords splits a head into lower-case words and the unit that stands in its brackets. Words end at blanks,
// marks, digits and a capital behind a small letter: "gyroY [deg/s]" holds gyro, y and the unit deg/s.
func headWords(head string) (words []string, bracket string) {
	if i := strings.IndexAny(head, "[({"); i >= 0 {
		if j := strings.IndexAny(head[i:], "])}"); j > 0 {
			bracket = strings.TrimSpace(head[i+1 : i+j])
			head = head[:i] + " " + head[i+j+1:]
		}
	}
	var word strings.Builder
	flush := func() {
		if word.Len() > 0 {
			words = append(words, strings.ToLower(word.String()))
			word.Reset()
		}
	}
	small := false
	for _, r := range head {
		if !unicode.IsLetter(r) {
			flush()
			small = false
			continue
		}
		if unicode.IsUpper(r) && small {
			flush()
		}
		small = unicode.IsLower(r)
		word.WriteRune(r)
	}
	flush()
	// a head without blanks or marks is a word as a whole too, whatever its capitals: AoA
	if whole := strings.TrimSpace(head); len(words) > 1 && strings.IndexFunc(whole, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 {
		words = append(words, strings.ToLower(whole))
	}
	return words, bracket
}

// suffixUnit finds a unit written as the tail of a head, as in speed_kt, wing temp C or pitch_rate_deg_s.
func suffixUnit(head string, d unit.Dimension) (unit.Unit, bool) {
	parts := strings.FieldsFunc(head, func(r rune) bool { return strings.ContainsRune(" _-./", r) })
	for n := min(3, len(parts)-1); n > 0; n-- {
		if u, ok := unit.Lookup(strings.Join(parts[len(parts)-n:], "_"), d); ok {
			return u, true
		}
	}
	// the last word of rollRateDps; single letters mean too much
	if inner := strings.FieldsFunc(camel(head), unicode.IsSpace); len(inner) > 1 && len(inner[len(inner)-1]) > 1 {
		return unit.Lookup(inner[len(inner)-1], d)
	}
	return unit.Unit{}, false
}

// camel puts a blank before each capital behind a small letter.
func camel(head string) string {
	var b strings.Builder
	small := false
	for _, r := range head {
		if unicode.IsUpper(r) && small {
			b.WriteByte(' ')
		}
		small = unicode.IsLower(r)
		b.WriteRune(r)
	}
	return b.String()
}

// isTimeHead tells whether the words of a head name time.
func isTimeHead(words []string) bool {
	for _, w := range words {
		switch w {
		case "time", "t", "timestamp", "clock", "utc", "elapsed", "seconds", "millis", "micros", "zeit", "uhrzeit", "laufzeit", "sekunden":
			return true
		}
	}
	return false
}
