package program

import "wingproof/flightlog"

// DraftLogger writes a drafted logger map as program.toml holds it, one line a column, above it how sure the
// guess is and what speaks for it. Columns that are not understood stand there as comments, and so do the places of
// sensors and the delay of a channel, which no log can tell.
func DraftLogger(m flightlog.Map, guesses []flightlog.Guess) string {
	return draftMap{m, guesses}.text()
}
