package aerofoil

import (
	"fmt"
	"strings"
)

// bareDigits strips what people write around the digits of a name: blanks, "naca" in any case, a dash.
func bareDigits(name string) string {
	digits := strings.TrimSpace(strings.ToLower(name))
	digits = strings.TrimSpace(strings.TrimPrefix(digits, "naca"))
	return strings.TrimSpace(strings.TrimPrefix(digits, "-"))
}

// allDigits tells whether text is count digits and nothing else.
func allDigits(text string, count int) bool {
	if len(text) != count {
		return false
	}
	for i := range count {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return true
}

// ParseNACA reads a name of four or five digits, such as "2412", "NACA 0012" or "naca23012".
//
// Line is nil for a symmetric section. Doubt says where a five-digit name may have been meant
// as a section of the six-series. An error says what is wrong with the name.
func ParseNACA(name string) (Section, error) {
	digits := bareDigits(name)
	switch {
	case allDigits(digits, 4):
		f, err := ParseFourDigit(name)
		if err != nil || f.Camber == 0 {
			return Section{Name: f.Name(), Thickness: f.Thickness()}, err
		}
		return Section{Name: f.Name(), Line: f, Thickness: f.Thickness()}, nil
	case allDigits(digits, 5):
		f, err := ParseFiveDigit(name)
		if err != nil {
			return Section{}, err
		}
		return Section{Name: f.Name(), Line: f, Thickness: f.Thickness(), Doubt: f.doubt()}, nil
	}
	what := fmt.Sprintf("%q is not four or five digits", digits)
	switch {
	case digits == "":
		what = "there are no digits"
	case strings.ContainsAny(digits, "-_,. a"):
		what = fmt.Sprintf("%q is written like a modified or a six-series section, of which only the outline is known", digits)
	}
	return Section{}, fmt.Errorf("aerofoil %q: %s; write a name such as 2412 or 23012, or give an outline", name, what)
}
