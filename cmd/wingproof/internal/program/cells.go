package program

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// looksDecimalComma sees a number such as 0,31. A table that holds one writes decimal commas throughout.
func looksDecimalComma(text string) bool {
	whole, part, ok := strings.Cut(strings.TrimLeft(text, "+-−"), ",")
	return ok && whole != "" && part != "" && digits(whole) && digits(part)
}

func digits(text string) bool {
	for _, r := range text {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

// parseNumber reads a number as a table of this dialect writes it.
func (t *table) parseNumber(text string) (value float64, right string) {
	plain := strings.ReplaceAll(text, "−", "-")
	decimalComma := t.dialect.separator != ','
	switch {
	case strings.Contains(plain, ",") && !decimalComma:
		return 0, "this table separates cells by commas; write a decimal point, such as 0.31"
	case strings.Contains(plain, ",") && strings.Contains(plain, "."):
		return 0, "write it without marks between the thousands"
	case decimalComma && t.commas && looksThousands(plain):
		return 0, "the other numbers of this table have decimal commas, so that this may mean thousands; write " +
			strings.ReplaceAll(plain, ".", "") + " or " + strings.Replace(plain, ".", ",", 1)
	case decimalComma:
		plain = strings.Replace(plain, ",", ".", 1)
	}
	if strings.ContainsAny(plain, "xXpP_iInN") {
		return 0, "write digits, such as 310 or 0.31"
	}
	value, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, "write digits, such as 310 or 0.31"
	}
	return value, ""
}

// looksThousands sees a number such as 1.250 whose point may stand between thousands.
func looksThousands(text string) bool {
	groups := strings.Split(strings.TrimLeft(text, "+-"), ".")
	if len(groups) < 2 || len(groups[0]) == 0 || len(groups[0]) > 3 || groups[0] == "0" {
		return false
	}
	for i, g := range groups {
		if !digits(g) || i > 0 && len(g) != 3 {
			return false
		}
	}
	return true
}

// number reads a cell in SI; stated is false when it is empty or wrong.
func (t *table) number(r row, c column) (si float64, stated bool) {
	text := r.cell(c).text
	if text == "" {
		return c.fallback, false
	}
	written, right := t.parseNumber(text)
	if right != "" {
		t.wrong(r, c, fmt.Sprintf("%s %s is not a number", c.name(), quoted(text)), right)
		return c.fallback, false
	}
	si, what, right := c.convert(written, c.unit, t.heads[c.index].text)
	if what != "" {
		t.wrong(r, c, what, right)
		return c.fallback, false
	}
	return si, true
}

// needNumber reads a cell that must hold a number.
func (t *table) needNumber(r row, c column) (si float64, stated bool) {
	if t.need(r, c, "a number") == "" {
		return c.fallback, false
	}
	return t.number(r, c)
}

// The ways to write a date. Only the third needs to be told which number is the day.
var (
	yearFirst = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
	points    = regexp.MustCompile(`^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$`)
	slashes   = regexp.MustCompile(`^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$`)
)

// parseDate reads 2026-03-14, 14.3.2026 and, where the program states date_order, 14/3/2026 or
// 3/14/2026. It returns the ISO form, or what would be right.
func parseDate(text, order string) (iso, right string) {
	day := strings.TrimSpace(text)
	for _, midnight := range []string{" 00:00:00", " 00:00", "T00:00:00"} {
		day = strings.TrimSuffix(day, midnight)
	}
	var y, m, d string
	switch {
	case yearFirst.MatchString(day):
		g := yearFirst.FindStringSubmatch(day)
		y, m, d = g[1], g[2], g[3]
	case points.MatchString(day):
		g := points.FindStringSubmatch(day)
		y, m, d = g[3], g[2], g[1]
	case slashes.MatchString(day):
		g := slashes.FindStringSubmatch(day)
		switch order {
		case "day_first":
			y, m, d = g[3], g[2], g[1]
		case "month_first":
			y, m, d = g[3], g[1], g[2]
		default:
			return "", `write 2026-03-14, or say in program.toml whether the day or the month stands first: date_order = "day_first" or "month_first"`
		}
	default:
		return "", "write 2026-03-14"
	}
	iso = fmt.Sprintf("%s-%02s-%02s", y, m, d)
	if _, err := time.Parse(time.DateOnly, iso); err != nil {
		return "", "there is no such day in the calendar; write year-month-day such as 2026-03-14"
	}
	return iso, ""
}

// date reads a cell that may hold a date.
func (t *table) date(r row, c column) string {
	text := r.cell(c).text
	if text == "" {
		return ""
	}
	iso, right := parseDate(text, t.l.p.DateOrder)
	if right != "" {
		t.wrong(r, c, quoted(text)+" is not a date", right)
	}
	return iso
}

// named reads a cell that must hold one name of a list; an empty cell stays empty.
func (t *table) named(r row, c column, list []string, what string) string {
	text := r.cell(c).text
	if text == "" {
		return ""
	}
	name, ok := known(text, list)
	if !ok {
		t.wrong(r, c, fmt.Sprintf("%s %s is not known", what, quoted(text)), suggest(text, list, what))
	}
	return name
}

// path reads a cell that holds the path of a file inside the program folder.
func (t *table) path(r row, c column) string {
	text := r.cell(c).text
	if text == "" {
		return ""
	}
	path, right := cleanPath(text)
	if right != "" {
		t.wrong(r, c, "the path "+quoted(text)+" leads out of the program folder", right)
	}
	return path
}
