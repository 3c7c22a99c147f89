package flightlog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The sample ends by numbers and not by rows where most cells are blank, and somewhere in any case.
func TestSniffTakesEnoughOfEachColumn(t *testing.T) {
	write := func(columns, rows int) string {
		var b strings.Builder
		b.WriteString("t")
		for k := range columns {
			fmt.Fprintf(&b, ",speed %c", 'a'+k)
		}
		b.WriteString("\n")
		for i := range rows {
			fmt.Fprintf(&b, "%d%s1%s\n", i, strings.Repeat(",", 1+i%columns), strings.Repeat(",", columns-1-i%columns))
		}
		return b.String()
	}
	for _, c := range []struct{ columns, rows, want int }{{1, 50_000, sniffRows}, {10, 80_000, 59_991}, {10, 30_000, 30_000}, {20, 110_000, 110_000}, {20, 210_000, 119_990}} {
		s, err := Sniff(strings.NewReader(write(c.columns, c.rows)), "x.csv")
		require.NoError(t, err)
		require.InDelta(t, c.want, len(s.Rows), 10, "%d columns", c.columns)
	}
	require.True(t, sample{5, 0}.enough(sniffMost))
	require.False(t, sample{sniffMost, 5, 5, 5}.enough(sniffMost-1))
	require.False(t, sample{sniffRows}.enough(sniffRows-1))
}
