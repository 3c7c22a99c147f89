package program

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
)

// link is one row of a chained table, as the next row's previous_sha256 and messages see it.
type link struct {
	number   int
	previous string // digest that the row holds of the row before it
	digest   string // of the row itself
	words    string // the row for a message: number, date, what, who
}

// digestOfCells is the SHA-256 of cells, each on a line of its own ended by a line feed, in UTF-8; white space at the ends of a
// cell is dropped and inside is one space each.
func digestOfCells(cells []string) string {
	sum := sha256.Sum256([]byte(canonical(cells)))
	return hex.EncodeToString(sum[:])
}

func canonical(cells []string) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteString(strings.Join(strings.Fields(c), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// byNumber sorts rows by their number, which is the order in which they were written, and keeps the order of equal ones.
func byNumber[T any](rows []T, number func(T) int) []T {
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b T) int { return cmp.Compare(number(a), number(b)) })
	return sorted
}

// chainAlarms compares every row with the digest that the next one holds, in the order of their numbers, and says when the
// table stands in another order. It sees rows that were changed, removed, exchanged or put between; it cannot see that the last
// rows were cut off or that the last one was changed.
func chainAlarms(file string, links []link) []string {
	var alarms []string
	for i := 1; i < len(links); i++ {
		if links[i].number < links[i-1].number {
			alarms = append(alarms, fmt.Sprintf("%s: the rows were put in another order: row %s stands before row %s. They are read by their numbers; sort the table by number",
				file, links[i-1].words, links[i].words))
			break
		}
	}
	links = byNumber(links, func(l link) int { return l.number })
	for i, l := range links {
		before, what := "the beginning of the table", brokenAtTheBeginning(l)
		if i > 0 {
			before, what = "row "+links[i-1].words, brokenBetween(links[i-1], l)
		}
		if what == "" {
			continue
		}
		alarms = append(alarms, fmt.Sprintf("%s: the chain is broken between %s and row %s: %s; ask both who signed, and restore the table from a copy", file, before, l.words, what))
	}
	return alarms
}

func brokenAtTheBeginning(first link) string {
	switch {
	case first.number != 1:
		return missing(1, first.number)
	case first.previous != "":
		return "row 1 was written behind another row, which is missing"
	}
	return ""
}

// brokenBetween says what is wrong between two rows; empty when they hold together.
func brokenBetween(a, b link) string {
	whole := strings.EqualFold(b.previous, a.digest)
	switch {
	case a.number == b.number:
		return "two rows carry the same number, so that one of them was put in"
	case b.number > a.number+1:
		return missing(a.number+1, b.number)
	case !whole:
		return fmt.Sprintf("row %d was changed, or one of the two put in, after row %d was written", a.number, b.number)
	}
	return ""
}

func missing(from, before int) string {
	if before == from+1 {
		return fmt.Sprintf("row %d is missing", from)
	}
	return fmt.Sprintf("rows %d to %d are missing", from, before-1)
}
