package report

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// mostName is how long a name in a file's name may get.
const mostName = 48

// FileNames gives each of several names, such as those of flights, what stands for it in the name of a file: letters, digits and
// hyphens of ASCII only, as close to the name as they allow. No two are alike, also on a system that ignores case.
//
// Names that meet in what is left of them all get a mark that follows from the name alone, so that each has the same file in whatever order
// they come. Whoever uses the result puts a word before it: by itself it may be one that a system keeps
// for itself.
func FileNames(names []string) []string {
	out := make([]string, len(names))
	taken := map[string]int{}
	for i, name := range names {
		out[i] = letters(name)
		taken[strings.ToLower(out[i])]++
	}
	used := map[string]bool{}
	for i, name := range names {
		if out[i] == name && taken[strings.ToLower(name)] == 1 {
			used[strings.ToLower(name)] = true
		}
	}
	for i, name := range names {
		if out[i] == name && taken[strings.ToLower(name)] == 1 {
			continue
		}
		if out[i] == "" || taken[strings.ToLower(out[i])] > 1 {
			out[i] = marked(out[i], name, used)
		}
		used[strings.ToLower(out[i])] = true
	}
	return out
}

// marked puts a mark of the whole name behind what is left of it, as long as it takes to differ from the used ones.
func marked(short, name string, used map[string]bool) string {
	sum := sha256.Sum256([]byte(name))
	mark := hex.EncodeToString(sum[:])
	for length := 6; length < len(mark); length += 6 {
		if out := strings.TrimPrefix(short+"-"+mark[:length], "-"); !used[strings.ToLower(out)] {
			return out
		}
	}
	// the same name twice, or a digest that meets another: one more letter for each
	out := short + "-" + mark
	for used[strings.ToLower(out)] {
		out += "x"
	}
	return out
}

// letters is a name in ASCII letters and digits, accents taken off, with a hyphen for everything else.
func letters(name string) string {
	var b strings.Builder
	apart := false
	for _, r := range norm.NFD.String(name) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r <= unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			if apart && b.Len() > 0 {
				b.WriteByte('-')
			}
			apart = false
			b.WriteRune(r)
		default:
			apart = true
		}
		if b.Len() >= mostName {
			break
		}
	}
	return b.String()
}
