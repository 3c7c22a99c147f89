package program

import "wingproof/flightlog"

// DraftLogger writes a drafted logger map as program.toml holds it, one line a column with how sure the
// guess is and what speaks for it. Columns that are not understood stand there as comments.
func DraftLogger(m flightlog.Map, guesses []flightlog.Guess) string {
	return draftMap{m, guesses}.text()
}
