package flightlog

import "sort"

// block is what one chunk of a file holds, before its place in the file is known: rows and lines count from the
// chunk's own start. Blocks are used again and again.
type block struct {
	order   int // of the chunk in the file, from 0
	bytes   int
	lines   int
	stamps  []stamp   // of each row
	line    []int32   // of each row, from 1
	samples []samples // of each channel
	same    []int     // for each channel the first one that has samples in exactly the same rows

	repeated tally // heads that come again
	badTime  tally // rows without a time that can be read
	early    tally // those of them that are a row of units, unless a row of samples stands ahead of the chunk
	torn     tally // rows with too few or too many cells
	cut      tally // last line without an end
	bad      []tally
	outside  []tally // beyond a calibration

	// what shows once the chunks before are known
	readings  []float64 // of each row
	firstRow  int       // rows and lines ahead of the chunk
	firstLine int
	next      int // first row that is not placed yet
}

// samples are those of one channel: values and the rows in which they stand. Both slices are longer than n.
type samples struct {
	value []float64
	row   []int32
	n     int
	next  int // first sample that is not placed yet
}

// put adds a sample. There is room for one a row.
func (s *samples) put(row int, value float64) {
	n := s.n
	s.value[n], s.row[n] = value, int32(row)
	s.n = n + 1
}

// before is the place of the first sample in or behind a row, among those that are not placed yet.
func (s *samples) before(row, rows int) int {
	if row == rows {
		return s.n
	}
	return s.next + sort.Search(s.n-s.next, func(k int) bool { return int(s.row[s.next+k]) >= row })
}

// tally counts rows of one kind and keeps where the first and the last of them stand.
type tally struct {
	count        int
	line, column int    // of the first
	text         string // of the first
	first, last  int    // number of rows read before it
}

// add takes a row or a cell. Only the first is written out, since a file may hold millions.
func (t *tally) add(line, row, offset int, text []byte) {
	if t.count == 0 {
		t.line, t.column, t.first, t.text = line, offset+1, row, readable(text)
	}
	t.count++
	t.last = row
}

func newBlock(channels int) *block {
	return &block{samples: make([]samples, channels), same: make([]int, channels), bad: make([]tally, channels), outside: make([]tally, channels)}
}

// clear empties the block and keeps its space.
func (b *block) clear() {
	b.bytes, b.lines, b.next = 0, 0, 0
	b.stamps, b.line, b.readings = b.stamps[:0], b.line[:0], b.readings[:0]
	b.repeated, b.badTime, b.early, b.torn, b.cut = tally{}, tally{}, tally{}, tally{}, tally{}
	clear(b.bad)
	clear(b.outside)
	for i := range b.samples {
		b.samples[i].n, b.samples[i].next = 0, 0
	}
}

func (b *block) rows() int { return len(b.stamps) }

// ref is a row in the numbers of the file.
func (b *block) ref(row int) rowRef {
	return rowRef{b.firstRow + row, b.firstLine + int(b.line[row]), b.readings[row]}
}

// begin adds a row and sees to it that every channel has room for its sample.
func (b *block) begin(s stamp, line int) (row int) {
	row = len(b.stamps)
	if row == cap(b.stamps) {
		b.grow(max(64, row+row/2))
	}
	b.stamps = append(b.stamps, s)
	b.line = append(b.line, int32(line))
	return row
}

func (b *block) grow(rows int) {
	b.stamps = append(make([]stamp, 0, rows), b.stamps...)
	b.line = append(make([]int32, 0, rows), b.line...)
	for i := range b.samples {
		c := &b.samples[i]
		value, row := make([]float64, rows), make([]int32, rows)
		copy(value, c.value[:c.n])
		copy(row, c.row[:c.n])
		c.value, c.row = value, row
	}
}

// compare finds the channels that have samples in the same rows.
func (b *block) compare() {
	for i := range b.samples {
		b.same[i] = i
		for j := range i {
			if b.same[j] == j && b.sameRows(i, j) {
				b.same[i] = j
				break
			}
		}
	}
}

func (b *block) sameRows(i, j int) bool {
	a, c := &b.samples[i], &b.samples[j]
	if a.n != c.n {
		return false
	}
	if a.n == b.rows() {
		return true
	}
	rows := c.row[:a.n]
	for k, row := range a.row[:a.n] {
		if row != rows[k] {
			return false
		}
	}
	return true
}
