package report

import "strings"

// Typed is a name as a command line needs it: between quotation marks where a blank or a sign would part or change it. What marks of the one
// kind would not keep stands between those of the other.
func Typed(name string) string {
	switch {
	case strings.ContainsAny(name, "\"$`\\") && !strings.Contains(name, "'"):
		return "'" + name + "'"
	case strings.ContainsAny(name, " \t&|;'\"()<>*?#~!$`"):
		return `"` + name + `"`
	}
	return name
}
