package manoeuvre_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
)

// tally counts one kind over all flights.
type tally struct{ flown, never, found, between, false int }

// overlaps tells whether two stretches share at least half of the shorter one.
func overlaps(a, b, c, d float64) bool {
	return math.Min(b, d)-math.Max(a, c) >= 0.5*math.Min(b-a, d-c)
}

func sameControl(m manoeuvre.Manoeuvre, c rehearse.Card) bool {
	if m.Kind != manoeuvre.Doublet && m.Kind != manoeuvre.Multistep {
		return true
	}
	return string(m.Control) == c.Control || m.Control == flightlog.RudderLeft && c.Control == "rudder"
}

// judge compares what was found in a flight with its cards.
//
// A card counts as flown when it came to its essential part. It is found when a manoeuvre of its kind, on its control, shares
// half of the shorter of the two essential parts. A manoeuvre that no card excuses is false, except that one of level, climb,
// glide and turn is none where the model really did that by truth: those are "between" cards. A card
// excuses one manoeuvre of input, deceleration, sideslip and circle; further ones in the same card are false.
func judge(t *testing.T, number uint64, log *rehearse.Log, found []manoeuvre.Manoeuvre, table tallies) {
	used := make([]bool, len(found))
	for _, s := range log.Stretches {
		kind := manoeuvre.Kind(s.Card.Kind)
		if s.To <= s.From {
			table[kind].never++
			continue
		}
		table[kind].flown++
		hit := false
		for i, m := range found {
			if m.Kind == kind && sameControl(m, s.Card) && !used[i] && overlaps(m.Start, m.End, s.From, s.To) {
				used[i], hit = true, true
				break
			}
		}
		if hit {
			table[kind].found++
			continue
		}
		t.Logf("flight %d: %s %s %.1f–%.1f s missed", number, s.Card.Kind, s.Card.Control, s.From, s.To)
	}
	for i, m := range found {
		switch {
		case used[i]:
		case truly(m, log):
			table[m.Kind].between++
		default:
			table[m.Kind].false++
			t.Logf("flight %d: false %.1f–%.1f s %s", number, m.Start, m.End, m.Detail)
		}
	}
}

// truly tells whether the model did by truth what a manoeuvre says, whatever card it was on.
func truly(m manoeuvre.Manoeuvre, log *rehearse.Log) bool {
	var n, idle, banked, path, rolled float64
	side, throttle := math.Copysign(1, m.Bank), column(log, flightlog.Throttle)
	for i, at := range log.Time {
		if at < m.Start || at > m.End {
			continue
		}
		n++
		if throttle[i] < 0.05 {
			idle++
		}
		if side*log.Truth.Roll[i] > 8*degree {
			banked++
		}
		rolled += log.Truth.Roll[i]
		j := min(len(log.Time)-1, i+1)
		if dt := log.Time[j] - at; dt > 0 {
			path += (log.Truth.Height[j] - log.Truth.Height[i]) / dt / log.Truth.Airspeed[i]
		}
	}
	path, rolled = path/n, rolled/n
	switch m.Kind {
	case manoeuvre.Glide:
		return idle >= 0.9*n && path < 0
	case manoeuvre.Level:
		return idle <= 0.1*n && math.Abs(path) < 3*degree && math.Abs(rolled) < 12*degree
	case manoeuvre.Climb:
		return idle <= 0.1*n && path > 2.5*degree
	case manoeuvre.Turn:
		return banked >= 0.9*n && math.Abs(path) < 6*degree
	}
	return false
}

// tallies counts every kind.
type tallies map[manoeuvre.Kind]*tally

func newTallies() tallies {
	out := tallies{}
	for _, k := range manoeuvre.Kinds() {
		out[k] = &tally{}
	}
	return out
}

// all adds up the kinds.
func (c tallies) all() tally {
	var sum tally
	for _, k := range manoeuvre.Kinds() {
		one := c[k]
		sum.flown, sum.never, sum.found, sum.between, sum.false = sum.flown+one.flown, sum.never+one.never, sum.found+one.found, sum.between+one.between, sum.false+one.false
	}
	return sum
}

func (c tallies) String() string {
	var text strings.Builder
	line := func(name string, n tally) {
		fmt.Fprintf(&text, "%-13s %6d %6d %6d %8d %10d\n", name, n.flown, n.found, n.false, n.between, n.never)
	}
	fmt.Fprintf(&text, "\n%-13s %6s %6s %6s %8s %10s\n", "kind", "flown", "found", "false", "between", "not flown")
	for _, k := range manoeuvre.Kinds() {
		line(string(k), *c[k])
	}
	line("all", c.all())
	return text.String()
}

// requireAccepted asks for what the crew was promised: 95 % found, 2 % false.
func (c tallies) requireAccepted(t *testing.T) {
	all := c.all()
	require.GreaterOrEqual(t, float64(all.found), 0.95*float64(all.flown))
	require.LessOrEqual(t, float64(all.false), 0.02*float64(all.found+all.false))
}

func TestSloppyFlights(t *testing.T) {
	count, from := 50, 1
	if testing.Short() {
		count = 12
	}
	table := newTallies()
	for i, log := range flights(t, from, count) {
		rec := log.Recording("rehearsed")
		judge(t, uint64(from+i), &log, manoeuvre.Find(&rec), table)
	}
	t.Log(table)
	table.requireAccepted(t)
}
