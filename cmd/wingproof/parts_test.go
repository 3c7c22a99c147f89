package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// A part answers to its name, with both sides, and to what the board calls one side; a wrong name gets each name once.
func TestPartsAnswerToWhatTheBoardCallsThem(t *testing.T) {
	board := []decide.Row{{Part: "winglet", Side: "left"}, {Part: "winglet", Side: "right"}, {Part: "firewall", Side: "none"}}
	for name, want := range map[string][]decide.Row{"Winglet": board[:2], " winglet, right ": board[1:2], "firewall": board[2:]} {
		rows, err := rowsNamed(board, name)
		require.NoError(t, err, name)
		require.Equal(t, want, rows, name)
	}
	_, err := rowsNamed(board, "winglet, top")
	require.ErrorContains(t, err, "it lists winglet, firewall")
}
