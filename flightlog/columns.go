package flightlog

import (
	"slices"
)

// columns are the channels of a recording as far as they are placed.
type columns struct {
	*layout
	room
	values  [][]float64 // of each channel
	seen    []bool      // channels with samples anywhere, kept or not
	bases   []*timeBase
	seconds []shifted // for each delay
	repeats repeats
}

// timeBase is the time of channels that have had samples in exactly the same rows, and have one delay.
type timeBase struct {
	channels []int
	delay    int // place in seconds
	time     []float64
	latest   []int // rows of the last samples, as many as may be revoked
}

// shifted is the time in s of the rows that are being placed, for channels of one delay.
type shifted struct {
	delay  float64
	time   []float64
	strict bool // each later than the one before
}

func newColumns(l *layout, expected estimate) columns {
	n := len(l.plans)
	c := columns{layout: l, room: room{estimate: expected, taken: make([]int, n)}, values: make([][]float64, n), seen: make([]bool, n)}
	for i, p := range l.plans {
		delay := slices.IndexFunc(c.seconds, func(s shifted) bool { return s.delay == p.delay })
		if delay < 0 {
			delay = len(c.seconds)
			c.seconds = append(c.seconds, shifted{delay: p.delay})
			c.bases = append(c.bases, &timeBase{delay: delay})
		}
		c.bases[delay].channels = append(c.bases[delay].channels, i)
	}
	return c
}

// begin looks at a block before any of its rows is placed: channels that part in it get time bases of their own.
func (c *columns) begin(b *block) {
	c.room.begin(b)
	for i := range b.samples {
		c.seen[i] = c.seen[i] || b.samples[i].n > 0
	}
	for _, base := range c.bases {
		all := base.channels
		if !slices.ContainsFunc(all, func(i int) bool { return b.same[i] != b.same[all[0]] }) {
			continue
		}
		base.channels = nil
		parts := map[int]*timeBase{b.same[all[0]]: base}
		for _, i := range all {
			part := parts[b.same[i]]
			if part == nil {
				part = &timeBase{delay: base.delay, latest: slices.Clone(base.latest)}
				part.time = append(c.make(cap(base.time)), base.time...)
				parts[b.same[i]] = part
				c.bases = append(c.bases, part)
			}
			part.channels = append(part.channels, i)
		}
	}
}

// place adds the samples of rows from from to to−1 of a block, which are kept. zero is the reading from which time counts.
func (c *columns) place(b *block, from, to int, zero float64) {
	for i := range c.seconds {
		c.seconds[i].count(b.readings[from:to], zero, c.factor)
	}
	for _, base := range c.bases {
		lead := &b.samples[base.channels[0]]
		first, end := lead.next, lead.before(to, b.rows())
		if first == end {
			continue
		}
		rows, s := lead.row[first:end], &c.seconds[base.delay]
		base.time = c.reserve(base.time, len(rows), base.channels[0])
		for _, i := range base.channels {
			c.values[i] = c.reserve(c.values[i], len(rows), i)
		}
		if n := len(base.time); s.strict && (n == 0 || s.time[int(rows[0])-from] > base.time[n-1]) {
			c.placeAll(base, b, first, end, from)
		} else {
			c.placeEach(base, b, first, end, from)
		}
		for _, i := range base.channels {
			b.samples[i].next = end
		}
	}
}

// placeAll adds samples whose time rises.
func (c *columns) placeAll(base *timeBase, b *block, first, end, from int) {
	rows, seconds := b.samples[base.channels[0]].row[first:end], c.seconds[base.delay].time
	n := len(base.time)
	base.time = base.time[:n+len(rows)]
	added := base.time[n:]
	for k, row := range rows {
		added[k] = seconds[int(row)-from]
	}
	for _, i := range base.channels {
		c.values[i] = append(c.values[i], b.samples[i].value[first:end]...)
	}
	for _, row := range rows[max(len(rows)-mostStray, 0):] {
		base.note(b.firstRow + int(row))
	}
}

// placeEach adds samples one by one and leaves those out that repeat a time.
func (c *columns) placeEach(base *timeBase, b *block, first, end, from int) {
	lead, seconds := &b.samples[base.channels[0]], c.seconds[base.delay].time
	for k := first; k < end; k++ {
		row := int(lead.row[k])
		t := seconds[row-from]
		if n := len(base.time); n > 0 && t <= base.time[n-1] {
			c.repeats.add(b.ref(row), len(base.channels))
			continue
		}
		base.time = append(base.time, t)
		for _, i := range base.channels {
			c.values[i] = append(c.values[i], b.samples[i].value[k])
		}
		base.note(b.firstRow + row)
	}
}

// skip passes over the samples of rows ahead of to, which are not kept.
func (c *columns) skip(b *block, to int) {
	for i := range b.samples {
		b.samples[i].next = b.samples[i].before(to, b.rows())
	}
}

// revoke takes back the samples of a row and of those behind it.
func (c *columns) revoke(row int) {
	c.repeats.revoke(row)
	for _, base := range c.bases {
		n := len(base.time)
		for k := len(base.latest); k > 0 && base.latest[k-1] >= row; k-- {
			base.latest = base.latest[:k-1]
			n--
		}
		base.time = base.time[:n]
		for _, i := range base.channels {
			c.values[i] = c.values[i][:n]
		}
	}
}

// settle tells that rows ahead of one are never revoked.
func (c *columns) settle(row int) { c.repeats.settle(row) }

// samples counts what the channels hold.
func (c *columns) samples() (n int) {
	for _, base := range c.bases {
		n += len(base.time) * len(base.channels)
	}
	return n
}

func (c *columns) channel(base *timeBase, i int) Channel {
	n := len(base.time)
	if n == 0 {
		return Channel{Time: []float64{}, Value: []float64{}}
	}
	return Channel{Time: base.time[:n:n], Value: c.values[i][:n:n]}
}

// note keeps the row of a sample in mind.
func (t *timeBase) note(row int) {
	if len(t.latest) == mostStray {
		copy(t.latest, t.latest[1:])
		t.latest = t.latest[:mostStray-1]
	}
	t.latest = append(t.latest, row)
}

// count turns readings into seconds.
func (s *shifted) count(readings []float64, zero, factor float64) {
	s.time, s.strict = s.time[:0], true
	for _, r := range readings {
		t := float64((r-zero)*factor) - s.delay
		if n := len(s.time); n > 0 && t <= s.time[n-1] {
			s.strict = false
		}
		s.time = append(s.time, t)
	}
}
