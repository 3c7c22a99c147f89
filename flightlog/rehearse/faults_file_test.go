package rehearse

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Faults of files, in two dialects: every line that the fault does not name is there as it was.
func TestFaultsOfFiles(t *testing.T) {
	for _, d := range []Dialect{{}, {Separator: ';', DecimalComma: true, Milliseconds: true, Blank: "NaN"}} {
		file := []byte(written(t, clean(t), d))
		kept := bytes.Clone(file)
		lines := strings.SplitAfter(string(file), "\n")
		for _, kind := range FileFaultKinds() {
			for seed := range uint64(10) {
				spoiled, f, err := SpoilFile(file, d, kind, seeded(seed))
				require.NoError(t, err)
				require.Equal(t, kind, f.Kind)
				require.True(t, f.Start > 5 && f.Start <= f.End && f.End <= 400, "%+v", f)
				text := string(spoiled)
				switch kind {
				case DuplicatedRows:
					now := strings.SplitAfter(text, "\n")
					n := len(now) - len(lines)
					require.True(t, n >= 1 && n <= 20)
					require.InDelta(t, float64(n-1)/25, f.End-f.Start, 1e-6)
					require.ElementsMatch(t, lines, unique(now))
				case TornRows:
					require.Equal(t, strings.Count(string(file), "\n")-len(f.Times), strings.Count(text, "\n"))
					require.LessOrEqual(t, len(missing(lines, text)), 2*len(f.Times))
				case NotNumbers:
					require.Len(t, missing(lines, text), len(f.Times))
					require.NotEmpty(t, f.Channel)
					require.Equal(t, strings.Count(string(file), string(d.separator())), strings.Count(text, string(d.separator())))
				case TruncatedFile:
					require.True(t, bytes.HasPrefix(file, spoiled))
					require.NotEqual(t, byte('\n'), spoiled[len(spoiled)-1])
					require.InDelta(t, 0.55, float64(len(spoiled))/float64(len(file)), 0.36)
				case ZeroedTail:
					body := bytes.TrimRight(spoiled, "\x00")
					require.True(t, bytes.HasPrefix(file, body))
					zeros := len(spoiled) - len(body)
					require.True(t, zeros >= 1024 && zeros <= 64*1024)
				}
			}
		}
		require.Equal(t, kept, file)
	}
}

// missing lists the lines that a text no longer has.
func missing(lines []string, text string) (out []string) {
	have := map[string]bool{}
	for _, l := range strings.SplitAfter(text, "\n") {
		have[l] = true
	}
	for _, l := range lines {
		if !have[l] {
			out = append(out, l)
		}
	}
	return out
}

// unique drops lines that stand twice.
func unique(lines []string) (out []string) {
	have := map[string]bool{}
	for _, l := range lines {
		if !have[l] {
			have[l] = true
			out = append(out, l)
		}
	}
	return out
}
