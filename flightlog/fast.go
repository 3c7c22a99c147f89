package flightlog

// mostEnds bounds the cells of a row on the fast road, with room for a batch more.
const mostEnds = 1024 + batch

// fastRow takes a line as most are: whole, without quotes, with a time. It finds the ends of all cells first, many at
// once, and converts those that are wanted, which can then be done side by side. It returns false, and has taken nothing,
// where the line is for slowRow; what it takes is what slowRow would.
func (p *parser) fastRow(line []byte, number int) bool {
	if len(line) == 0 || len(line) >= 1<<16-1 || (line[0] <= ' ' && line[0] != p.separator) || mayBeRemark(line[0]) {
		return false
	}
	row := line[:len(line)+linePad]
	p.ends[0] = beforeRow
	cells := cellEnds(row, len(line), p.separators, p.ends[1:])
	if cells < p.least || (cells > len(p.heads) && !blankBehind(line, cells-len(p.heads), p.separator)) {
		return false
	}
	when, ok := p.stamp(trimBlanks(row[p.ends[p.timeIndex]+1:p.ends[p.timeIndex+1]]), p.decimal)
	if !ok {
		return false
	}
	p.fastCells(row, p.block.begin(when, number), number)
	return true
}

// beforeRow is where a cell ahead of a row would end: one byte on, the row begins.
const beforeRow = 1<<16 - 1

// fastCells takes the wanted cells of a row whose ends are known.
func (p *parser) fastCells(row []byte, number, line int) {
	samples, stops, decimals := p.block.samples, p.stops, p.decimals
	for s := range stops {
		stop := &stops[s]
		from, end := int(p.ends[stop.index]+1), int(p.ends[stop.index+1])
		if from == end {
			continue
		}
		var value float64
		var ok bool
		if n := end - from; n <= wordSize {
			value, ok = parseWord(word(row, from), uint(n), decimals)
		} else {
			value, ok = parseWords(row, from, end, decimals)
		}
		si := stop.straight(value)
		if !stop.plain || !ok || si-si != 0 { // the last tells what is not finite
			p.oddCell(stop, value, ok, trimBlanks(row[from:end]), number, line)
			continue
		}
		samples[stop.channel].put(number, si)
	}
}

// oddCell takes a cell that several channels want, or that needs more than scaling, or that is no usual number.
func (p *parser) oddCell(s *stop, value float64, ok bool, text []byte, row, line int) {
	for _, i := range s.channels {
		if ok {
			p.store(i, value, text, row, line)
		} else {
			p.take(i, text, row, line)
		}
	}
}

// blankBehind tells whether the last n cells of a line hold nothing.
func blankBehind(line []byte, n int, separator byte) bool {
	for i := len(line) - 1; i >= 0 && n > 0; i-- {
		switch line[i] {
		case separator:
			n--
		case ' ', '\t', '\r':
		default:
			return false
		}
	}
	return true
}
