package reconstruct

import (
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// How held cells are told from samples. Common practice, no source; runs of a rounded channel that moves by itself have all lengths, so
// that many are short against the usual one.
const (
	heldFewest  = 20   // runs of equal values below which nothing is said: a channel that never moves is no held one
	heldUsual   = 0.25 // quantile of the lengths of runs that is taken for the time from sample to sample: equal samples make longer runs
	heldShort   = 0.6  // of the usual length
	heldShortly = 0.05 // share of runs that may be shorter than that
	heldAlike   = 0.8  // share of changes of one size above which it is rounding that makes the runs
)

// heldRows gives the rows that hold a new sample, of channels that share their rows and get their samples together. A logger that writes a
// slow sensor into every row repeats its last value: the runs of equal values are then of nearly one length, and each is one sample, at the time of its
// first row. Where a run is longer, samples were equal, at rest above all, and rows at the usual distance stand for them.
// It gives nil when every row is a sample of its own.
func heldRows(channels ...flightlog.Channel) []int {
	time := channels[0].Time
	// three runs in four of two rows or more leave at most 4/7 of the rows as changes: most channels need no closer look
	many := countChanges(channels)
	if many < heldFewest || 7*many > 4*len(time)+7 {
		return nil
	}
	changes := changedRows(channels, many)
	if rounded(channels, changes) {
		return nil
	}
	lengths := make([]float64, len(changes)-1)
	for i := range lengths {
		lengths[i] = time[changes[i+1]] - time[changes[i]]
	}
	usual, step := statistic.Quantile(lengths, heldUsual), channels[0].Step()
	if usual < 1.5*step {
		return nil
	}
	short, period, regular := 0, 0.0, 0
	for _, l := range lengths {
		switch {
		case l < heldShort*usual:
			short++
		case l < (2-heldShort)*usual:
			period += l
			regular++
		}
	}
	if float64(short) > heldShortly*float64(len(lengths)) {
		return nil
	}
	return everyPeriod(time, changes, period/float64(regular), step)
}

// countChanges counts the first row and those in which any channel differs from the row before.
func countChanges(channels []flightlog.Channel) int {
	n := 0
	for i := range channels[0].Time {
		if changesAt(channels, i) {
			n++
		}
	}
	return n
}

// changedRows are the same rows, of which the number is known.
func changedRows(channels []flightlog.Channel, many int) []int {
	out := make([]int, 0, many)
	for i := range channels[0].Time {
		if changesAt(channels, i) {
			out = append(out, i)
		}
	}
	return out
}

// changesAt tells whether a row is the first, or any channel differs there from the row before.
func changesAt(channels []flightlog.Channel, i int) bool {
	for k := range channels {
		v := channels[k].Value
		if i == 0 || v[i] != v[i-1] {
			return true
		}
	}
	return false
}

// rounded tells whether all channels change by one step of their resolution again and again: slow motion that is rounded, whose runs of equal values
// are no repeats.
func rounded(channels []flightlog.Channel, changes []int) bool {
	for _, c := range channels {
		var sizes []float64
		for _, i := range changes[1:] {
			if d := math.Abs(c.Value[i] - c.Value[i-1]); d > 0 {
				sizes = append(sizes, d)
			}
		}
		usual, alike := statistic.Median(sizes), 0
		for _, d := range sizes {
			if math.Abs(d-usual) <= 1e-6*usual {
				alike++
			}
		}
		if float64(alike) < heldAlike*float64(len(sizes)) {
			return false
		}
	}
	return true
}

// everyPeriod adds to the changes the rows that stand for equal samples.
func everyPeriod(time []float64, changes []int, period, step float64) []int {
	var out []int
	for i, from := range changes {
		to := len(time)
		if i+1 < len(changes) {
			to = changes[i+1]
		}
		out = append(out, from)
		next := time[from] + period
		for k := from + 1; k < to && next < time[to-1]+step-period/2; k++ {
			if time[k] >= next-step/2 {
				out = append(out, k)
				next = math.Max(next+period, time[k]+period/2) // a gap in time does not make the rows after it crowd
			}
		}
	}
	return out
}

// pick gives a channel of some rows; of all of them when rows is nil.
func pick(c flightlog.Channel, rows []int) flightlog.Channel {
	if rows == nil {
		return c
	}
	out := flightlog.Channel{Time: make([]float64, len(rows)), Value: make([]float64, len(rows))}
	for i, k := range rows {
		out.Time[i], out.Value[i] = c.Time[k], c.Value[k]
	}
	return out
}

// taken is a channel of a recording as it is used: clean, and without repeated rows.
func taken(rec *flightlog.Recording, s Setup, q flightlog.Quantity) flightlog.Channel {
	c := clean(rec.Channels[q], s, q)
	if len(c.Time) == 0 {
		return c
	}
	return pick(c, heldRows(c))
}

// taker gives the channels of a recording as they are used.
type taker func(flightlog.Quantity) flightlog.Channel

// newTaker prepares every channel once, however often it is asked for.
func newTaker(rec *flightlog.Recording, s Setup) taker {
	known := map[flightlog.Quantity]flightlog.Channel{}
	return func(q flightlog.Quantity) flightlog.Channel {
		c, ok := known[q]
		if !ok {
			c = taken(rec, s, q)
			known[q] = c
		}
		return c
	}
}

// takenTogether is the same as taken for two channels of one receiver: what is barred of one is barred of both, and a row is a new sample
// when either changes.
func takenTogether(rec *flightlog.Recording, s Setup, one, two flightlog.Quantity) (a, b flightlog.Channel) {
	a, b = clean(rec.Channels[one], s, one, two), clean(rec.Channels[two], s, one, two)
	if len(a.Time) == 0 || len(b.Time) == 0 {
		return a, b
	}
	if slices.Equal(a.Time, b.Time) {
		rows := heldRows(a, b)
		return pick(a, rows), pick(b, rows)
	}
	return pick(a, heldRows(a)), pick(b, heldRows(b))
}
