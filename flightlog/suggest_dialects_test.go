package flightlog_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/unit"
)

// verdictOn says what is wrong with a guess; empty when it is right or not mapped.
func (c cellOf) verdictOn(g flightlog.Guess, m flightlog.Map) string {
	for _, column := range m.Columns {
		if column.Column != c.head {
			continue
		}
		switch {
		case column.Is != c.is:
			return fmt.Sprintf("is %s and not %s", c.is, column.Is)
		case c.unit == "pulse":
			return "" // a throttle with the usual ends
		}
		want, _ := unit.Lookup(c.unit, c.is.Dimension())
		got, _ := unit.Lookup(column.Unit, c.is.Dimension())
		times := c.times
		if times == 0 {
			times = 1
		}
		if math.Abs(got.Factor*column.Scale*times/want.Factor-1) > 1e-9 {
			return fmt.Sprintf("is in %s and not %s", c.unit, column.Unit)
		}
		if column.Sign*c.sign < 0 || c.sign == 0 && column.Sign < 0 {
			return "has the other sign"
		}
	}
	return ""
}

// count is how a dialect's lines came out.
type count struct{ sure, likely, guess, unknown, wrongSure, wrongLikely, wrongGuess int }

func (k *count) add(how, wrong string) {
	switch how {
	case "sure":
		k.sure++
	case "likely":
		k.likely++
	case "guess":
		k.guess++
	default:
		k.unknown++
	}
	switch {
	case wrong == "":
	case how == "sure":
		k.wrongSure++
	case how == "likely":
		k.wrongLikely++
	default:
		k.wrongGuess++
	}
}

// draftOf counts the lines of one drafted map.
func draftOf(t *testing.T, d dialect, log rehearse.Log, rows int) (k count) {
	t.Helper()
	s, err := flightlog.Sniff(strings.NewReader(d.write(log, rows)), d.name)
	require.NoError(t, err)
	m, guesses := flightlog.SuggestMap(s)
	require.Equal(t, flightlog.TimeColumn{Column: d.time, Unit: d.timeUnit}, m.Time, d.name)
	for i, c := range d.columns {
		g := guesses[i+1]
		wrong := c.verdictOn(g, m)
		k.add(g.Sure, wrong)
		t.Logf("%-8s %-34s %-22s %-6s %+g %s | %s", g.Sure, c.head, g.Is, g.Unit, g.Sign, wrong, g.Why)
	}
	return k
}

// Every line of a draft is right, or says that it is a guess; a line that is sure is never wrong.
func TestSuggestNeverSureAndWrong(t *testing.T) {
	var all count
	for _, sheet := range []int{-1, 0, 1, 2} {
		log := flown(t, sheet, uint64(sheet+11))
		for _, d := range append(dialects(), strangers()...) {
			t.Run(fmt.Sprintf("%s, sheet %d", d.name, sheet), func(t *testing.T) {
				k := draftOf(t, d, log, math.MaxInt)
				t.Logf("%+v", k)
				require.Zero(t, k.wrongSure)
				require.Zero(t, k.wrongLikely)
				all.sure += k.sure
				all.likely += k.likely
				all.guess += k.guess
				all.unknown += k.unknown
				all.wrongGuess += k.wrongGuess
			})
		}
	}
	t.Logf("all lines: %+v", all)
}
