package report

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
)

// A spiral that does not grow, and a speed that is never reached, have no number.
func TestContrastsSayWhatIsEndless(t *testing.T) {
	end := math.Inf(1)
	for _, c := range []struct {
		unit string
		r    decide.Range
		want string
	}{
		{"s", decide.Range{Median: end, Low: end, High: end}, "endless"},
		{"s", decide.Range{Median: end, Low: 32, High: end}, "endless (above 32 s)"},
		{"s", decide.Range{Median: 20, Low: 10, High: end}, "20 (above 10) s"},
		{"s", decide.Range{Median: 20, Low: 10, High: 30}, "20 (10 to 30) s"},
		{"m/s", decide.Range{Median: end, Low: end, High: end}, "not reached"},
		{"m/s", decide.Range{Median: end, Low: 32, High: end}, "not reached (above 32 m/s)"},
		{"N", decide.Range{Median: 1000, Low: 900, High: 1100}, "1000 (900 to 1100) N"},
	} {
		require.Equal(t, c.want, contrastWords(c.r, decide.Contrast{Unit: c.unit}, false))
	}
}

// A difference to what has no number, or of it, is said in words; one whose draws sometimes have none keeps the end that it has.
func TestDifferencesToTheEndlessAreWords(t *testing.T) {
	end, none := math.Inf(1), math.NaN()
	for _, c := range []struct {
		unit        string
		value, less decide.Range
		want        string
	}{
		{"s", decide.Range{Median: end, Low: 30, High: end}, decide.Range{Median: end, Low: 4, High: end}, "becomes endless"},
		{"s", decide.Range{Median: 12, Low: 9, High: 15}, decide.Range{Median: -end, Low: -end, High: -20}, "no longer endless"},
		{"s", decide.Range{Median: end, Low: 30, High: end}, decide.Range{Median: none, Low: -end, High: end}, "endless as well"},
		{"m/s", decide.Range{Median: end, Low: end, High: end}, decide.Range{Median: end, Low: end, High: end}, "no longer reached"},
		{"m/s", decide.Range{Median: 30, Low: 29, High: 31}, decide.Range{Median: -end, Low: -end, High: -end}, "now reached"},
		{"s", decide.Range{Median: 12, Low: 9, High: end}, decide.Range{Median: 3, Low: 1, High: end}, "+3.0 (above 1.0) s"},
		{"s", decide.Range{Median: 12, Low: 9, High: 15}, decide.Range{Median: -3, Low: -end, High: -1}, "−3.0 (below −1.0) s"},
	} {
		require.Equal(t, c.want, contrastWords(c.less, decide.Contrast{Unit: c.unit, Value: c.value, Difference: &c.less}, true))
	}
}

func TestJudgedNumbersSayWhatIsEndless(t *testing.T) {
	end := math.Inf(1)
	for want, l := range map[string]decide.LimitVerdict{
		"endless":                                   {Unit: "s", Median: end, Low: end, High: end},
		"endless (above 32.0 s)":                    {Unit: "s", Median: end, Low: 32, High: end},
		"20.0 (above 10.0) s":                       {Unit: "s", Median: 20, Low: 10, High: end},
		"not reached (above 32.0 m/s)":              {Unit: "m/s", Median: end, Low: 32, High: end},
		"20.0 (10.0 to 30.0) s, worst at full fuel": {Unit: "s", Median: 20, Low: 10, High: 30, Where: "full fuel"},
	} {
		require.Equal(t, want, limitRange(l))
	}
}
