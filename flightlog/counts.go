package flightlog

// counts are the tallies of a whole file.
type counts struct {
	rows                         int     // so far
	latest                       float64 // reading of the last row
	repeated, badTime, torn, cut total
	bad, outside                 []total // of each channel
}

// total is a tally with the readings of its first and last row. A line that is no row has the reading of the row that
// follows, or of the last one in the file.
type total struct {
	tally
	from, to         float64
	fromAhead, ahead bool // from and to are to come
}

func newCounts(channels int) counts {
	return counts{bad: make([]total, channels), outside: make([]total, channels)}
}

// add takes a block whose readings are known.
func (c *counts) add(b *block) {
	if b.rows() > 0 {
		for _, t := range []*total{&c.repeated, &c.badTime, &c.torn} {
			t.follow(b.readings[0])
		}
		c.latest = b.readings[b.rows()-1]
	}
	badTime := b.badTime
	if c.rows > 0 {
		badTime = merged(b.early, b.badTime)
	}
	c.repeated.add(b.repeated, b)
	c.badTime.add(badTime, b)
	c.torn.add(b.torn, b)
	c.cut.add(b.cut, b)
	for i := range c.bad {
		c.bad[i].add(b.bad[i], b)
		c.outside[i].add(b.outside[i], b)
	}
	c.rows += b.rows()
}

// finish tells that no row follows.
func (c *counts) finish() {
	for _, t := range []*total{&c.repeated, &c.badTime, &c.torn, &c.cut} {
		t.follow(c.latest)
	}
}

// add takes the tally of a block.
func (t *total) add(n tally, b *block) {
	if n.count == 0 {
		return
	}
	before := t.count
	if before == 0 {
		t.tally = n
		t.line += b.firstLine
		if t.fromAhead = n.first >= b.rows(); !t.fromAhead {
			t.from = b.readings[n.first]
		}
	}
	t.count = before + n.count
	if t.ahead = n.last >= b.rows(); !t.ahead {
		t.to = b.readings[n.last]
	}
}

// follow takes the reading of the row that follows.
func (t *total) follow(reading float64) {
	if t.fromAhead {
		t.from, t.fromAhead = reading, false
	}
	if t.ahead {
		t.to, t.ahead = reading, false
	}
}

// merged is the tally of two kinds of rows in one block.
func merged(a, b tally) tally {
	if a.count == 0 || (b.count > 0 && b.line < a.line) {
		a, b = b, a
	}
	a.count += b.count
	if b.count > 0 {
		a.last = max(a.last, b.last)
	}
	return a
}

// repeats counts samples at a time at which their channel already has one. Those in rows that may still be revoked
// are kept apart.
type repeats struct {
	count       int
	first, last rowRef
	open        []repeat
}

type repeat struct {
	rowRef
	count int
}

func (r *repeats) add(row rowRef, count int) { r.open = append(r.open, repeat{row, count}) }

// settle counts the repeats ahead of a row for good.
func (r *repeats) settle(row int) {
	kept := r.open[:0]
	for _, one := range r.open {
		if one.row >= row {
			kept = append(kept, one)
			continue
		}
		if r.count == 0 || one.row < r.first.row {
			r.first = one.rowRef
		}
		if r.count == 0 || one.row > r.last.row {
			r.last = one.rowRef
		}
		r.count += one.count
	}
	r.open = kept
}

// revoke forgets the repeats from a row on.
func (r *repeats) revoke(row int) {
	kept := r.open[:0]
	for _, one := range r.open {
		if one.row < row {
			kept = append(kept, one)
		}
	}
	r.open = kept
}
