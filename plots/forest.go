package plots

import (
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
)

// forest is a block of rows over one axis, with the numbers printed at the right.
type forest struct {
	rows     []Row
	limits   []Limit
	axis     axis
	decimals int
	width    vg.Length
	gutter   vg.Length // room at the left, for labels where they stand beside their rows
	above    bool      // labels stand above their rows
	numbers  vg.Length // room for the numbers at the right
	zero     *zeroLine // nil: zero is a number like others
	quantity string    // what the points of the rows name first; may be empty
	unit     string    // of the numbers, for the points
}

const (
	markLine  vg.Length = 13
	sampled   vg.Length = 26 // at least, of a row with its sample below its label
	rowGap    vg.Length = 7
	groupLine vg.Length = 19
	labelLine vg.Length = 14
	limitLine vg.Length = 14
)

// newForest measures labels and numbers and lays the axis; zero nil draws no line of no difference.
func newForest(rows []Row, limits []Limit, label string, width vg.Length, zero *zeroLine) forest {
	f := forest{rows: rows, limits: limits, width: width, zero: zero, unit: strings.TrimSpace(label[strings.LastIndex(label, ",")+1:])}
	var intervals []Interval
	for _, r := range rows {
		intervals = append(intervals, r.intervals()...)
	}
	f.decimals = decimalsFor(intervals)
	small, body := newPen(smallSize, false, ink), newPen(bodySize, false, ink)
	longest := vg.Length(0)
	for _, r := range rows {
		longest = max(longest, body.width(clean(r.Label)), small.width(f.sampleOf(r)))
		for _, i := range r.intervals() {
			f.numbers = max(f.numbers, small.width(f.say(r, i))+10)
		}
	}
	f.gutter, f.above = longest+10, false
	if f.gutter > width*0.28 || width-f.numbers-f.gutter < 160 {
		f.gutter, f.above = 12, true
	}
	room := width - f.gutter - f.numbers
	f.axis = niceAxis(label, f.reach(intervals), max(2, int(room/45)))
	return f
}

// say writes an interval of a row at the right.
func (f forest) say(r Row, i Interval) string {
	if f.zero != nil {
		return f.zero.say(r, i)
	}
	return i.words(f.decimals)
}

// reach is what the axis must hold: values, limits and as much of the intervals as leaves the others legible.
func (f forest) reach(intervals []Interval) span {
	s := emptySpan()
	for _, i := range intervals {
		s.add(i.Value)
	}
	for _, l := range f.limits {
		s.add(l.Value)
	}
	if f.zero != nil {
		s.add(0)
	}
	if s.empty() {
		for _, i := range intervals {
			s.add(i.Low, i.High)
		}
	}
	s.reach(intervals)
	for _, l := range f.limits {
		s.add(l.Value-0.02*s.length(), l.Value+0.02*s.length()) // a limit never stands on the frame
	}
	if f.zero != nil {
		s = f.zero.room(s)
	}
	return s
}

// zeroHeight is the strip of words about the zero line.
func (f forest) zeroHeight() vg.Length {
	if f.zero == nil {
		return 0
	}
	return zeroStrip
}

// height of the block with its axis and the strip of limit names.
func (f forest) height() vg.Length {
	return vg.Length(len(f.limits))*limitLine + axisHeight + 4 + f.zeroHeight() + f.upperAxis() + f.rowsHeight()
}

func (f forest) rowsHeight() vg.Length {
	h, group := vg.Length(0), ""
	for _, r := range f.rows {
		h += f.rowHeight(r, &group)
	}
	return h
}

// upperAxis is the strip that repeats the numbers of the axis above rows so high that the axis is out of sight.
func (f forest) upperAxis() vg.Length {
	if f.rowsHeight() < 420 {
		return 0
	}
	return 13
}

func (f forest) rowHeight(r Row, group *string) vg.Length {
	h := f.block(r) + rowGap
	if r.Group != *group {
		h += groupLine
		*group = r.Group
	}
	if f.above && r.Label != "" {
		h += labelLine
	}
	return h
}

// block is the height of the marks of a row, or of its label and sample where they are higher.
func (f forest) block(r Row) vg.Length {
	h := markLine * vg.Length(max(1, len(r.intervals())))
	if !f.above && f.sampleOf(r) != "" {
		h = max(h, sampled)
	}
	return h
}

// sampleOf is what stands with the label of a row: nothing where the heading says it for the whole group.
func (f forest) sampleOf(r Row) string {
	if r.Group != "" && f.groupSample(r.Group) != "" {
		return ""
	}
	return f.rests(r)
}

// rests says what a row rests on; where others rest on flights, one that does not was not flown.
func (f forest) rests(r Row) string {
	words := r.Sample.words()
	if words == "" && r.Measured == nil && slices.ContainsFunc(f.rows, func(other Row) bool { return other.Sample.Flights > 0 }) {
		return "not flown"
	}
	return words
}

// groupSample is what all rows of a group rest on, if it is the same.
func (f forest) groupSample(group string) string {
	words := ""
	for _, r := range f.rows {
		if r.Group != group {
			continue
		}
		own := f.rests(r)
		if own == "" || words != "" && words != own {
			return ""
		}
		words = own
	}
	return words
}
