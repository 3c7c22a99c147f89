package flightlog

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// columnPlan is one column of a map made ready for one file.
type columnPlan struct {
	index    int // of the cell in a row
	head     string
	quantity Quantity
	scaling
	delay float64
	table [][2]float64
}

// scaling turns a number in a unit into SI.
type scaling struct{ factor, zero, scale, offset, sign float64 }

// straight is Sign·(Scale·(unit to SI) + Offset). Products are rounded before sums, on every processor alike.
func (s *scaling) straight(number float64) float64 {
	si := float64(number*s.factor) + s.zero
	return s.sign * (float64(s.scale*si) + s.offset)
}

// si turns a cell's number into SI: Sign·(Scale·(unit to SI) + Offset), through the calibration first
// where there is one. beyond tells that the number lies outside the calibration, which is continued
// straight from its last two points.
func (c *columnPlan) si(number float64) (value float64, beyond bool) {
	if c.table != nil {
		beyond = number < c.table[0][0] || number > c.table[len(c.table)-1][0]
		number = interpolate(c.table, number)
	}
	return c.straight(number), beyond
}

// interpolate reads a table that rises in its first numbers, straight between points and beyond the ends.
func interpolate(table [][2]float64, x float64) float64 {
	i := sort.Search(len(table), func(i int) bool { return table[i][0] > x })
	i = min(max(i, 1), len(table)-1)
	a, b := table[i-1], table[i]
	return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
}

// planColumns matches a map with the heads of a file. Every mistake is found in one go.
func planColumns(m Map, d dialect, source string) (timeIndex int, plans []columnPlan, mistakes []error) {
	missing := func(what, head string) {
		mistake := &Mistake{File: source, Line: d.headLine, What: fmt.Sprintf("no column %q, which the logger map%s names for %s", head, quoted(m.Name), what)}
		mistake.Right = "the heads are " + headList(d.heads)
		if i := nearest(d.heads, head); i >= 0 {
			mistake.Column = d.offsets[i]
			mistake.Right = fmt.Sprintf("the nearest is %q; %s", d.heads[i], mistake.Right)
		}
		mistakes = append(mistakes, mistake)
	}
	timeIndex, _ = findHead(d.heads, m.Time.Column)
	switch {
	case strings.TrimSpace(m.Time.Column) == "":
		mistakes = append(mistakes, &Mistake{File: source, Line: d.headLine, What: fmt.Sprintf("the logger map%s names no time column", quoted(m.Name)),
			Right: "name the column that holds time, with s, ms, us or iso; the heads are " + headList(d.heads)})
	case timeIndex < 0:
		missing("time", m.Time.Column)
	}
	seen := map[Quantity]string{}
	for _, c := range m.Columns {
		p, mistake := planColumn(c, m.Name, source)
		if mistake == nil {
			if other, twice := seen[c.Is]; twice {
				mistake = &Mistake{File: source, What: fmt.Sprintf("the logger map%s reads %s from both %q and %q", quoted(m.Name), c.Is, other, c.Column), Right: "name one column for each quantity"}
			}
			seen[c.Is] = c.Column
		}
		if mistake != nil {
			mistakes = append(mistakes, mistake)
			continue
		}
		if p.index, _ = findHead(d.heads, c.Column); p.index < 0 {
			missing(string(c.Is), c.Column)
			continue
		}
		plans = append(plans, p)
	}
	return timeIndex, plans, mistakes
}

// longestDelay of a sensor that is believed, in s: a larger one is a wrong unit (common practice, no source).
const longestDelay = 60

// planColumn checks one line of a map, apart from its head.
func planColumn(c Column, mapName, source string) (columnPlan, *Mistake) {
	where := fmt.Sprintf("the logger map%s, column %q: ", quoted(mapName), c.Column)
	dimension := c.Is.Dimension()
	if dimension == "" {
		return columnPlan{}, &Mistake{File: source, What: where + fmt.Sprintf("%q is no quantity", c.Is), Right: "write one of " + quantityList()}
	}
	u, ok := unit.Lookup(c.Unit, dimension)
	if !ok {
		return columnPlan{}, &Mistake{File: source, What: where + fmt.Sprintf("%q is no unit of %s", c.Unit, dimension), Right: "write one of " + strings.Join(unit.Of(dimension), ", ")}
	}
	p := columnPlan{head: c.Column, quantity: c.Is, delay: c.Delay, table: c.Calibration,
		scaling: scaling{factor: u.Factor, zero: u.Offset, scale: c.Scale, offset: c.Offset, sign: c.Sign}}
	if p.sign == 0 {
		p.sign = 1
	}
	if p.scale == 0 {
		p.scale = 1
	}
	if !statistic.Finite(p.sign) || !statistic.Finite(p.scale) || !statistic.Finite(p.offset) {
		return columnPlan{}, &Mistake{File: source, What: where + "sign, scale or offset is not a finite number", Right: "write plain numbers"}
	}
	if !(math.Abs(p.delay) <= longestDelay) {
		return columnPlan{}, &Mistake{File: source, What: where + fmt.Sprintf("a delay of %g s is none of a sensor", p.delay), Right: "write it in seconds, such as 0.2"}
	}
	if p.table != nil && !rises(p.table) {
		return columnPlan{}, &Mistake{File: source, What: where + "the calibration does not rise in its first numbers", Right: "give two points or more, sorted by what the log holds"}
	}
	return p, nil
}

func rises(table [][2]float64) bool {
	for i, p := range table {
		if !statistic.Finite(p[0]) || !statistic.Finite(p[1]) || (i > 0 && !(p[0] > table[i-1][0])) {
			return false
		}
	}
	return len(table) >= 2
}

func quoted(name string) string {
	if name == "" {
		return ""
	}
	return fmt.Sprintf(" %q", name)
}

func quantityList() string {
	var names []string
	for _, q := range Quantities() {
		names = append(names, string(q))
	}
	return strings.Join(names, ", ")
}

// headList is the heads of a file for a message.
func headList(heads []string) string {
	const most = 40
	var names []string
	for _, h := range heads[:min(len(heads), most)] {
		names = append(names, fmt.Sprintf("%q", h))
	}
	if len(heads) > most {
		names = append(names, fmt.Sprintf("and %d more", len(heads)-most))
	}
	return strings.Join(names, ", ")
}

// nearest is the head that takes the fewest changed letters to become wanted, −1 when none is near:
// when more than half of the letters would change.
func nearest(heads []string, wanted string) int {
	best, changes := -1, 0
	target := []rune(fold(wanted))
	for i, h := range heads {
		letters := []rune(fold(h))
		if len(letters) == 0 || len(letters) > 100 || len(target) > 100 {
			continue
		}
		d := editDistance(letters, target)
		if 2*d <= max(len(letters), len(target)) && (best < 0 || d < changes) {
			best, changes = i, d
		}
	}
	return best
}

// editDistance counts inserted, dropped and changed letters between two words.
func editDistance(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
