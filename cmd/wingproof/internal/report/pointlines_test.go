package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

// Points stand in tenths of a unit, each with one line of text.
func TestPointLines(t *testing.T) {
	require.Equal(t, "12.3 40 aft margin: 5 %\n0.1 7 none", pointLines([]plots.Point{{X: 12.3456, Y: 39.96, Text: "aft\n margin: 5 %"}, {X: 0.1 + 1e-17, Y: 7, Text: "none"}}))
}
