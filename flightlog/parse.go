package flightlog

import (
	"bytes"
	"strconv"

	"wingproof/flightlog/statistic"
)

// parser turns chunks of whole lines into blocks. It keeps nothing from one chunk to the next, so that any
// number of them can work on a file.
type parser struct {
	*layout
	cells []cell               // of a line on the slow road
	ends  [1 + mostEnds]uint16 // of the cells of a line on the fast road, behind that of a cell ahead of it
	block *block
}

// layout is what all chunks of a file share: its dialect, and which cells of a row are wanted.
type layout struct {
	dialect
	timeFormat
	timeIndex int
	plans     []columnPlan
	stops     []stop
	least     int // cells of a row that the fast road takes

	separators, decimals uint64 // a mark in all eight places of a word
}

// stop is a cell of a row that is wanted.
type stop struct {
	index    int   // of the cell
	channels []int // places in plans
	channel  int   // the first of them
	plain    bool  // it is the only one, and has no calibration
	scaling        // of the first
}

func newLayout(d dialect, timeIndex int, plans []columnPlan, f timeFormat) *layout {
	l := &layout{dialect: d, timeFormat: f, timeIndex: timeIndex, plans: plans, least: max(d.fewest, timeIndex+1),
		separators: everyByte * uint64(d.separator), decimals: everyByte * uint64(d.decimal)}
	for index := range d.heads {
		var channels []int
		for i := range plans {
			if plans[i].index == index {
				channels = append(channels, i)
			}
		}
		if channels != nil {
			plan := &plans[channels[0]]
			l.stops = append(l.stops, stop{index, channels, channels[0], len(channels) == 1 && plan.table == nil, plan.scaling})
			l.least = max(l.least, index+1)
		}
	}
	return l
}

// parse reads a chunk into b. last tells that the file ends with it, perhaps in the middle of a line. The chunk
// must have linePad bytes of capacity behind it.
func (p *parser) parse(chunk []byte, last bool, b *block) {
	p.block = b
	b.clear()
	b.bytes = len(chunk)
	quotes := bytes.IndexByte(chunk, '"') >= 0
	for len(chunk) > 0 {
		end := bytes.IndexByte(chunk, '\n')
		if end < 0 {
			b.lines++
			p.slowRow(chunk, b.lines, !last)
			break
		}
		line := chunk[:end]
		chunk = chunk[end+1:]
		if end > 0 && line[end-1] == '\r' {
			line = line[:end-1]
		}
		b.lines++
		if (quotes && bytes.IndexByte(line, '"') >= 0) || !p.fastRow(line, b.lines) {
			p.slowRow(line, b.lines, true)
		}
	}
	b.compare()
}

// slowRow takes any line below the heads. A line that the file does not end is used up to its last cell,
// which may be cut in the middle of a number.
func (p *parser) slowRow(line []byte, number int, whole bool) {
	if len(line) == 0 || (line[0] <= ' ' && len(trimBlanks(line)) == 0) {
		return
	}
	if mayBeRemark(line[0]) {
		if _, remark := comment(line); remark {
			return
		}
	}
	p.cells = splitCells(line, p.separator, p.cells)
	cells, row := p.cells, p.block.rows()
	if !whole {
		cells = p.cutLast(cells, number)
	} else if len(cells) < p.fewest || (len(cells) > len(p.heads) && usedCells(cells) > len(p.heads)) {
		if usedCells(cells) > 0 {
			p.block.torn.add(number, row, 0, []byte(strconv.Itoa(len(cells))))
		}
		return
	}
	if p.timeIndex >= len(cells) {
		return
	}
	when, ok := p.stamp(cells[p.timeIndex].text, p.decimal)
	if !ok {
		p.noTime(cells, number)
		return
	}
	row = p.block.begin(when, number)
	for i := range p.plans {
		if index := p.plans[i].index; index < len(cells) {
			p.take(i, cells[index].text, row, number)
		}
	}
}

// mayBeRemark tells whether a line that begins with c may be a remark.
func mayBeRemark(c byte) bool { return c == '#' || c == '%' || c == '/' || c == ' ' }

// cutLast drops the last cell of a line without an end, and notes it where it would have been used.
func (p *parser) cutLast(cells []cell, number int) []cell {
	last := len(cells) - 1
	used := len(cells) < len(p.heads) || p.timeIndex == last
	for i := range p.plans {
		used = used || p.plans[i].index == last
	}
	if used {
		p.block.cut.add(number, p.block.rows(), 0, nil)
	}
	return cells[:last]
}

// noTime sorts rows without a time: repeated heads and the row of units are expected, others are not.
func (p *parser) noTime(cells []cell, number int) {
	b, c := p.block, cells[p.timeIndex]
	switch {
	case usedCells(cells) == 0:
	case sameHeads(cells, p.heads):
		b.repeated.add(number, b.rows(), 0, nil)
	case b.rows() == 0 && p.units != nil && !anyNumeric(cells):
		b.early.add(number, b.rows(), c.offset, c.text)
	default:
		b.badTime.add(number, b.rows(), c.offset, c.text)
	}
}

// take reads one cell of a channel.
func (p *parser) take(i int, text []byte, row, line int) {
	number, ok := parseNumber(text, p.decimal)
	switch {
	case ok:
		p.store(i, number, text, row, line)
	case !noSample(text):
		p.block.bad[i].add(line, row, 0, text)
	}
}

// store adds the sample that a number in a cell makes.
func (p *parser) store(i int, number float64, text []byte, row, line int) {
	value, beyond := p.plans[i].si(number)
	if !statistic.Finite(value) {
		p.block.bad[i].add(line, row, 0, text)
		return
	}
	if beyond {
		p.block.outside[i].add(line, row, 0, text)
	}
	p.block.samples[i].put(row, value)
}
