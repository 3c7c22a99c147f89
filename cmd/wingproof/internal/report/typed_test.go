package report

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNamesAsACommandLineNeedsThem(t *testing.T) {
	for name, want := range map[string]string{
		"winglet": "winglet", "logs/F01.csv": "logs/F01.csv", "mid-size_2": "mid-size_2",
		"Winglet Höhe": `"Winglet Höhe"`, "tab\there": "\"tab\there\"", "a|b": `"a|b"`, "T.O.'s": `"T.O.'s"`, "log (2).csv": `"log (2).csv"`,
		"$HOME": "'$HOME'", `5" plug`: `'5" plug'`, "`ls`": "'`ls`'", `a\b c`: `'a\b c'`,
	} {
		require.Equal(t, want, Typed(name))
	}
}
