package flightlog

// assembly puts blocks together in the order of the file. Time that only rises, the usual case, passes whole blocks
// to the channels at once; where it does not, rows are placed in runs, and wait for the few rows behind them
// that decide.
type assembly struct {
	*layout
	counter  counter
	time     timeline
	columns  columns
	counts   counts
	waiting  []*block // with rows that are not placed yet
	rows     int      // of all blocks so far
	lines    int
	previous rowRef // the row decided last
}

func newAssembly(l *layout, expected estimate) *assembly {
	return &assembly{layout: l, time: newTimeline(), columns: newColumns(l, expected),
		counts: newCounts(len(l.plans)), lines: l.headLine}
}

// add takes the block that follows and gives back those that it needs no longer.
func (a *assembly) add(b *block) (used []*block) {
	for _, s := range b.stamps {
		b.readings = append(b.readings, a.counter.reading(s, a.iso))
	}
	b.firstRow, b.firstLine = a.rows, a.lines
	a.rows += b.rows()
	a.lines += b.lines
	a.counts.add(b)
	a.columns.begin(b)
	a.waiting = append(a.waiting, b)
	return a.settle(false)
}

// settle places rows in the order of the file, as far as it shows which of them to keep. all tells that no block follows.
func (a *assembly) settle(all bool) (used []*block) {
	for ; len(a.waiting) > 0; a.waiting = a.waiting[1:] {
		b := a.waiting[0]
		for b.next < b.rows() {
			if n := a.rising(b); n > 0 {
				a.place(b, b.next+n)
				continue
			}
			stray := a.time.stray(b.readings[b.next])
			below, known := a.below(stray+1, all)
			switch {
			case stray > mostStray || (known && below <= stray):
				a.leave(b)
			case known:
				first := a.time.revoke(stray, a.previous)
				a.columns.revoke(first.row)
			default:
				return used
			}
		}
		used = append(used, b)
	}
	return used
}

// rising counts the rows of a block, from the next one on, that do not run backward.
func (a *assembly) rising(b *block) int {
	last := a.time.last()
	for n, reading := range b.readings[b.next:] {
		if reading < last {
			return n
		}
		last = reading
	}
	return b.rows() - b.next
}

// below counts the rows, from the next one on, that lie below the last one kept, up to a number that suffices. known
// is false when rows that are not read yet may add to it.
func (a *assembly) below(suffices int, all bool) (n int, known bool) {
	last := a.time.last()
	for _, b := range a.waiting {
		for _, reading := range b.readings[b.next:] {
			if reading >= last || n == suffices {
				return n, true
			}
			n++
		}
	}
	return n, all || n == suffices
}

func (a *assembly) place(b *block, to int) {
	from := b.next
	a.time.keepAll(b, from, to)
	a.columns.place(b, from, to, a.time.zero)
	a.columns.settle(a.time.tail[0].row)
	a.previous = b.ref(to - 1)
	b.next = to
}

func (a *assembly) leave(b *block) {
	a.previous = b.ref(b.next)
	a.time.leave(a.previous)
	b.next++
	a.columns.skip(b, b.next)
}

// recording is what the file holds, once all blocks are added.
func (a *assembly) recording(source string) *Recording {
	a.settle(true)
	a.time.fold(a.time.dropped)
	a.columns.settle(a.rows)
	rec := &Recording{Source: source, Channels: map[Quantity]Channel{}, Rows: a.time.kept}
	for _, base := range a.columns.bases {
		for _, i := range base.channels {
			rec.Channels[a.plans[i].quantity] = a.columns.channel(base, i)
		}
	}
	rec.Findings = a.findings()
	return rec
}
