package report

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

var update = flag.Bool("update", false, "write the golden tables anew")

func printed(t *testing.T, write func(io.Writer) error) string {
	var b bytes.Buffer
	require.NoError(t, write(&b))
	return b.String()
}

func requireWidth(t *testing.T, text string, width int) {
	for line := range strings.SplitSeq(text, "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), width, line)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}
}

// One golden file holds every table of the sample, as printed at 100 columns.
func TestTablesMatchTheirGoldenFile(t *testing.T) {
	c := sample(t)
	var b bytes.Buffer
	require.NoError(t, BoardTable(&b, c.Verdict, 100))
	b.WriteString("\n")
	require.NoError(t, EstimateTable(&b, append(c.Margins, c.Estimates...), c.LengthRatio, 100))
	b.WriteString("\n")
	require.NoError(t, ScaleTable(&b, sampleScaling(t, c), 100))
	b.WriteString("\n")
	require.NoError(t, PointTable(&b, samplePoints(), c.LengthRatio, 100))
	golden := filepath.Join("..", "..", "..", "..", "testdata", "golden", "tables.txt")
	if *update {
		require.NoError(t, os.WriteFile(golden, b.Bytes(), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), b.String())
}

func TestTablesKeepTheirWidth(t *testing.T) {
	c := sample(t)
	c.Verdict.Board[0].Part = strings.Repeat("long", 40)
	c.Verdict.Board[1].Reasons[0] = strings.Repeat("a reason without an end ", 30) + strings.Repeat("x", 200)
	for _, width := range []int{0, 60, 72, 100, 140} {
		limit := width
		if width == 0 {
			limit = 100
		}
		requireWidth(t, printed(t, func(w io.Writer) error { return BoardTable(w, c.Verdict, width) }), limit)
	}
	for _, width := range []int{0, 100, 140} {
		limit := max(width, 100)
		requireWidth(t, printed(t, func(w io.Writer) error {
			return EstimateTable(w, append(c.Margins, c.Estimates...), c.LengthRatio, width)
		}), limit)
		requireWidth(t, printed(t, func(w io.Writer) error { return ScaleTable(w, sampleScaling(t, c), width) }), limit)
		requireWidth(t, printed(t, func(w io.Writer) error { return PointTable(w, samplePoints(), c.LengthRatio, width) }), limit)
	}
}

func TestBoardTablePutsDangerFirst(t *testing.T) {
	text := printed(t, func(w io.Writer) error { return BoardTable(w, sample(t).Verdict, 100) })
	at := -1
	for _, want := range []string{"ALARM: main spar", "stop and ask: do not cut", "start: mill the plug", "carry on: take the mould", "wait ", "done ", "Not judged here: flutter"} {
		next := strings.Index(text[at+1:], want)
		require.GreaterOrEqual(t, next, 0, want)
		at += 1 + next
	}
	require.Contains(t, text, "to clear: settle the winglet")
}

func TestTablesWithoutRowsSaySo(t *testing.T) {
	require.Contains(t, printed(t, func(w io.Writer) error { return BoardTable(w, decide.Verdict{}, 100) }), "no parts to judge")
	require.Contains(t, printed(t, func(w io.Writer) error { return EstimateTable(w, nil, 0, 100) }), "nothing to show")
	require.Contains(t, printed(t, func(w io.Writer) error { return PointTable(w, nil, 0, 100) }), "no flight gave test points")
}

// A name from a file must not reach a terminal as a control sequence.
func TestTablesDropControlCharacters(t *testing.T) {
	v := sample(t).Verdict
	v.Board[0].Part, v.Alarms[0] = "evil\x1b[2Jpart\u202e", "\x07ring"
	text := printed(t, func(w io.Writer) error { return BoardTable(w, v, 100) })
	require.NotContains(t, text, "\x1b")
	require.NotContains(t, text, "\x07")
	require.NotContains(t, text, "\u202e")
}

func TestTablesPassWriteErrorsOn(t *testing.T) {
	c := sample(t)
	for name, write := range map[string]func(io.Writer) error{
		"board":     func(w io.Writer) error { return BoardTable(w, c.Verdict, 100) },
		"estimates": func(w io.Writer) error { return EstimateTable(w, c.Margins, c.LengthRatio, 100) },
		"scale":     func(w io.Writer) error { return ScaleTable(w, sampleScaling(t, c), 100) },
		"points":    func(w io.Writer) error { return PointTable(w, samplePoints(), c.LengthRatio, 100) },
	} {
		require.ErrorIs(t, write(full{}), io.ErrShortWrite, name)
	}
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }
