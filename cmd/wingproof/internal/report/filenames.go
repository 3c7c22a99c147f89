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
// Of names that meet in what is left of them one that stays as it is keeps its file, the first in the order of bytes where they differ in
// case alone. All others get a mark that follows from the name alone, so that each has the same file in whatever order they come. Whoever
// uses the result puts a word before it: by itself it may be one that a system keeps for itself.
func FileNames(names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = letters(name)
	}
	keeps := keepers(names, out)
	used := map[string]bool{}
	for key := range keeps {
		used[key] = true
	}
	for i, name := range names {
		if keeper, kept := keeps[strings.ToLower(out[i])]; !kept || keeper != i {
			out[i] = marked(out[i], name, used)
			used[strings.ToLower(out[i])] = true
		}
	}
	return out
}

// keepers tells which of the names has each of the short ones, in lower case, to itself; none has where several meet that all had to
// change.
func keepers(names, short []string) map[string]int {
	meet := map[string][]int{}
	for i, s := range short {
		if s != "" {
			meet[strings.ToLower(s)] = append(meet[strings.ToLower(s)], i)
		}
	}
	out := map[string]int{}
	for key, all := range meet {
		if len(all) == 1 {
			out[key] = all[0]
		}
		for _, i := range all {
			if first, kept := out[key]; short[i] == names[i] && (!kept || names[i] < names[first]) {
				out[key] = i
			}
		}
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
