package flightlog

import "math"

// mostStray is how many rows ahead of a step back in time may be the ones in error.
const mostStray = 3

// timeline tells which rows to keep so that time never runs backward. Where it does, the rows behind
// decide: when up to mostStray rows jumped ahead, and more rows than those follow below them, the ones that
// jumped are dropped; otherwise the rows that lie back in time are. A row that mostStray kept rows once
// stood behind is settled and never dropped, so that the timeline needs to know the last few rows only.
type timeline struct {
	kept    int
	zero    float64           // reading of the first kept row
	settled float64           // reading of the latest settled row
	tail    [mostStray]rowRef // kept rows that are not settled, rising
	loose   int               // how many
	dropped []span            // runs of rows left out that may still change
	runs    []span            // those that stay
	many    bool              // the last of them sums up several
}

// rowRef is a row of the file.
type rowRef struct {
	row, line int
	reading   float64 // of the clock
}

// span is a run of rows.
type span struct{ from, to rowRef }

// mostRuns is how many runs of rows that lie back in time are told one by one.
const mostRuns = 20

func newTimeline() timeline { return timeline{settled: math.Inf(-1)} }

// last is the reading of the latest kept row.
func (t *timeline) last() float64 {
	if t.loose > 0 {
		return t.tail[t.loose-1].reading
	}
	return t.settled
}

// keepAll takes rows that do not run backward, from at to to−1 of a block.
func (t *timeline) keepAll(b *block, at, to int) {
	if t.kept == 0 {
		t.zero = b.readings[at]
	}
	settled := max(to-at-mostStray-1, 0) // all but the rows that leave a mark
	t.kept += settled
	for at += settled; at < to; at++ {
		t.keep(b.ref(at))
	}
}

func (t *timeline) keep(r rowRef) {
	t.kept++
	if t.loose == mostStray {
		t.settled = t.tail[0].reading
		copy(t.tail[:], t.tail[1:])
		t.loose--
		t.settleRuns()
	}
	t.tail[t.loose] = r
	t.loose++
}

// stray counts the kept rows that lie ahead of a reading; more than mostStray stands for any number when
// settled rows are among them.
func (t *timeline) stray(reading float64) int {
	n := 0
	for n < t.loose && t.tail[t.loose-1-n].reading > reading {
		n++
	}
	if n == t.loose && t.settled > reading {
		return mostStray + 1
	}
	return n
}

// leave drops a row that lies back in time.
func (t *timeline) leave(r rowRef) {
	if n := len(t.dropped); n > 0 && t.dropped[n-1].to.row == r.row-1 {
		t.dropped[n-1].to = r
		return
	}
	t.dropped = append(t.dropped, span{r, r})
}

// revoke drops the last n kept rows, and with them all up to the row ahead of the one that shows their error.
func (t *timeline) revoke(n int, upTo rowRef) (first rowRef) {
	t.loose -= n
	t.kept -= n
	first = t.tail[t.loose]
	runs := t.dropped
	for len(runs) > 0 && runs[len(runs)-1].from.row > first.row {
		runs = runs[:len(runs)-1]
	}
	if k := len(runs); k > 0 && runs[k-1].to.row == first.row-1 {
		runs[k-1].to = upTo
	} else {
		runs = append(runs, span{first, upTo})
	}
	t.dropped = runs
	return first
}

// settleRuns puts the runs that end ahead of the kept rows in question where they stay.
func (t *timeline) settleRuns() {
	n := 0
	for n < len(t.dropped) && t.dropped[n].to.row < t.tail[0].row-1 {
		n++
	}
	t.fold(t.dropped[:n])
	t.dropped = append(t.dropped[:0], t.dropped[n:]...)
}

// fold keeps the first runs apart and sums up the others in the last one.
func (t *timeline) fold(runs []span) {
	for _, s := range runs {
		s.from.reading, s.to.reading = min(s.from.reading, s.to.reading), max(s.from.reading, s.to.reading)
		if len(t.runs) < mostRuns {
			t.runs = append(t.runs, s)
			continue
		}
		sum := &t.runs[mostRuns-1]
		sum.from.reading, sum.to.reading = min(sum.from.reading, s.from.reading), max(sum.to.reading, s.to.reading)
		sum.to.line = s.to.line
		t.many = true
	}
}
