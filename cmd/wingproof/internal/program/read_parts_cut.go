package program

import (
	"fmt"
	"strings"
)

// cutPasses reports a limit that stands in a column behind must_pass: in a table that separates cells by semicolons, a list written
// with semicolons and no quotation marks is cut apart, and all of it but the first would be lost without a word.
func (l *loader) cutPasses(t *table, r row, behind ...column) {
	if t.dialect.separator != ';' {
		return
	}
	for _, c := range behind {
		text := r.cell(c).text
		_, isLimit := known(text, l.limitNames())
		if !isLimit && !strings.HasPrefix(strings.ToLower(text), signoff) {
			continue
		}
		t.wrong(r, c, fmt.Sprintf("%s belongs into must_pass, which was cut at a semicolon", quoted(text)),
			"put commas between the limits, or the whole list between quotation marks, since semicolons separate the cells of this table")
	}
}
