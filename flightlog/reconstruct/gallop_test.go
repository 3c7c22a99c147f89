package reconstruct

import (
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/flightlog"
)

// Whatever was asked for before, a line finds the sample that a search over all of them finds.
func TestSeekFindsWhatASearchOverAllDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps := rapid.SliceOfN(rapid.IntRange(0, 3), 0, 80).Draw(t, "steps") // equal times too
		var c flightlog.Channel
		at := 0
		for _, s := range steps {
			at += s
			c.Time, c.Value = append(c.Time, float64(at)), append(c.Value, 0)
		}
		l := newLine(c)
		for _, ask := range rapid.SliceOf(rapid.Float64Range(-5, 250)).Draw(t, "asked") {
			want := sort.Search(len(c.Time), func(i int) bool { return c.Time[i] > ask }) - 1
			require.Equal(t, want, l.seek(ask))
		}
		for _, ask := range c.Time {
			require.Equal(t, sort.Search(len(c.Time), func(i int) bool { return c.Time[i] > ask })-1, l.seek(ask))
		}
	})
}
