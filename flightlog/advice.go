package flightlog

import (
	"regexp"
	"strings"
)

// cutTime is how a spreadsheet writes a time of day back once it has cut the hours off: 17:23,4.
var cutTime = regexp.MustCompile(`^\d{1,2}:\d{2}([.,]\d+)?$`)

// timeAdvice says what to do about a cell of the time column that holds no time.
func timeAdvice(text string) string {
	if cutTime.MatchString(text) {
		return "it looks like minutes and seconds, as a spreadsheet leaves them when it saves a log: take the file that the logger wrote"
	}
	return "name another column or another unit of time in the logger map: s, ms, us or iso"
}

// repeatAdvice says what follows from samples at a time that is taken, by how many of them were kept. Where most repeat, the
// clock is coarser than the recording.
func repeatAdvice(repeated, kept int) string {
	if repeated > kept {
		return "only the first sample of each instant is used; the times hold too few digits for the recording, as when a spreadsheet has saved it: take the file that the logger wrote"
	}
	return "the first sample of each instant is used, the others are left out"
}

// tornAdvice says what follows from torn rows, by how many rows could be used.
func (d dialect) tornAdvice(torn, used int) string {
	if d.separator == ',' && torn > used {
		return "these rows are left out; where cells hold decimal commas, commas cannot part the cells too: let the logger write semicolons, or decimal points"
	}
	return "these rows are left out"
}

// cellAdvice says what follows from cells that hold no number, of which one is given.
func (d dialect) cellAdvice(text string) string {
	if d.decimal != ',' && strings.Contains(text, ",") {
		if _, ok := parseNumber([]byte(strings.Replace(text, ",", ".", 1)), '.'); ok {
			return "these samples are left out; a decimal comma needs semicolons or tabs between the cells: save the log so, or with decimal points"
		}
	}
	return "these samples are left out"
}
