package flightlog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/unit"
)

// Whatever a table holds, a draft names columns that are there, quantities once, and units that fit them; a reader takes it, or says
// what is wrong.
func FuzzSuggestMap(f *testing.F) {
	for _, seed := range []string{
		"t,p,q,r\n0,1,2,3\n0.1,1,2,4\n", "Uhr [ms];nz;h\n0;1;2\n20;1,1;3\n", "time\talt [ft]\tT [°C]\n00:00:01\t1\t2\n00:00:02\t1\t3\n",
		"a [g],a [g],b [µs]\n1,1,1500\n2,-1,1400\n", "roll,roll rate,yaw\n0,,9\n1,5,\n2,x,1e300\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<15 {
			return
		}
		s, err := Sniff(strings.NewReader(text), "x.csv")
		if err != nil {
			require.NotEmpty(t, Mistakes(err))
			return
		}
		m, guesses := SuggestMap(s)
		require.Len(t, guesses, len(s.Heads))
		seen := map[Quantity]bool{}
		for _, c := range m.Columns {
			require.Contains(t, s.Heads, c.Column)
			require.False(t, seen[c.Is], "%s twice", c.Is)
			seen[c.Is] = true
			_, ok := unit.Lookup(c.Unit, c.Is.Dimension())
			require.True(t, ok, "%s in %q", c.Is, c.Unit)
			require.Contains(t, []float64{1, -1}, c.Sign)
			require.Positive(t, c.Scale)
		}
		for i, g := range guesses {
			require.Equal(t, s.Heads[i], g.Column)
			require.Contains(t, []string{sure, likely, guessed, unknown}, g.Sure)
			require.NotEmpty(t, g.Why)
		}
		if m.Time.Column == "" || len(m.Columns) == 0 {
			return
		}
		if _, err := Read(strings.NewReader(text), "x.csv", m); err != nil {
			require.NotEmpty(t, Mistakes(err))
		}
	})
}
