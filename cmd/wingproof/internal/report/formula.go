package report

import (
	"html/template"
	"strings"
)

// formula writes a line of mathematics as HTML: _x and _{xyz} go down, ^x and ^{xyz} go up, all else stays text.
func formula(s string) template.HTML {
	var b strings.Builder
	runes := []rune(s)
	for i := 0; i < len(runes); i++ {
		tag := map[rune]string{'_': "sub", '^': "sup"}[runes[i]]
		if tag == "" || i+1 == len(runes) {
			b.WriteString(template.HTMLEscapeString(string(runes[i])))
			continue
		}
		inner := string(runes[i+1])
		i++
		if inner == "{" {
			end := i + 1
			for end < len(runes) && runes[end] != '}' {
				end++
			}
			inner = string(runes[i+1 : end])
			i = end
		}
		b.WriteString("<" + tag + ">" + template.HTMLEscapeString(inner) + "</" + tag + ">")
	}
	return template.HTML(b.String())
}
