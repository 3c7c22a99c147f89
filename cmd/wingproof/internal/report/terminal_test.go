package report

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func uncoloured(s string) string {
	return strings.NewReplacer(sgrBold, "", sgrAlarm, "", sgrPlain, "").Replace(s)
}

// Colour adds nothing and takes nothing away: without it the words are the same, at every width of a terminal, and no line is longer.
func TestTablesOnATerminal(t *testing.T) {
	c := sample(t)
	for _, width := range []int{80, 100, 120} {
		for name, write := range map[string]func(io.Writer) error{
			"board":     func(w io.Writer) error { return BoardTable(w, c.Verdict, 0) },
			"estimates": func(w io.Writer) error { return EstimateTable(w, append(c.Margins, c.Estimates...), c.LengthRatio, 0) },
			"scale":     func(w io.Writer) error { return ScaleTable(w, sampleScaling(t, c), 0) },
			"points":    func(w io.Writer) error { return PointTable(w, samplePoints(), c.LengthRatio, 0) },
		} {
			var plain, coloured bytes.Buffer
			require.NoError(t, write(Terminal{Writer: &plain, Width: width}))
			require.NoError(t, write(Terminal{Writer: &coloured, Width: width, Colour: true}))
			require.NotContains(t, plain.String(), "\x1b", name)
			require.Equal(t, plain.String(), uncoloured(coloured.String()), name)
			require.Contains(t, coloured.String(), sgrBold, name)
			requireWidth(t, plain.String(), width)
		}
	}
}

// The word on the board is bold, a stop and an alarm are red; what only begins like such a word is left alone.
func TestWhatIsMarkedOnABoard(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, BoardTable(Terminal{Writer: &b, Colour: true}, sample(t).Verdict, 0))
	for _, want := range []string{"\n" + sgrAlarm + "stop and ask" + sgrPlain + ": ", "\n" + sgrBold + "start" + sgrPlain + ": ", "\n" + sgrBold + "wait" + sgrPlain, sgrAlarm + "ALARM" + sgrPlain + ": "} {
		require.Contains(t, b.String(), want)
	}
	w := Terminal{Colour: true}
	require.Equal(t, "started long ago", actionMarked(w, "started long ago"))
	require.Equal(t, "donex", actionMarked(w, "donex"))
	require.Equal(t, "no ALARM here", emphasised(w, "no ALARM here"))
}

// A sentence is broken where the width is known, with its indent kept, and is whole elsewhere.
func TestTellBreaksForATerminalOnly(t *testing.T) {
	long := "    · " + strings.Repeat("eight words of this are longer than that ", 4)
	var whole, broken bytes.Buffer
	require.NoError(t, Tell(&whole, long+"\n"))
	require.Equal(t, long+"\n", whole.String())
	require.NoError(t, Tell(Terminal{Writer: &broken, Width: 80}, long))
	requireWidth(t, broken.String(), 80)
	lines := strings.Split(strings.TrimSuffix(broken.String(), "\n"), "\n")
	require.Greater(t, len(lines), 2)
	require.True(t, strings.HasPrefix(lines[0], "    · eight"))
	require.True(t, strings.HasPrefix(lines[1], "      "))
	require.Equal(t, strings.Fields(long), strings.Fields(broken.String()))
}
