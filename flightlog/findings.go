package flightlog

import (
	"fmt"
	"sort"
)

// findings tells what was left out, in the order of the file.
func (a *assembly) findings() []Finding {
	a.counts.finish()
	c, repeats := &a.counts, a.columns.repeats
	list := findingList{assembly: a}
	list.backward()
	if repeats.count > 0 {
		list.out = append(list.out, Finding{Severity: Loss, Start: a.seconds(repeats.first.reading), End: a.seconds(repeats.last.reading), Line: repeats.first.line,
			What: fmt.Sprintf("%d samples repeat a time at which their channel already has one", repeats.count), Consequence: repeatAdvice(repeats.count, a.columns.samples())})
	}
	list.add(Note, "", 0, c.repeated, fmt.Sprintf("the heads come again %s", times(c.repeated.count)), "these lines are skipped")
	list.add(Loss, "", 0, c.badTime, fmt.Sprintf("%d rows hold no time that can be read, such as %q", c.badTime.count, c.badTime.text), "these rows are left out")
	list.add(Loss, "", 0, c.torn, fmt.Sprintf("%d rows are torn: the first has %s cells where the heads have %d", c.torn.count, c.torn.text, len(a.heads)), a.tornAdvice(c.torn.count, a.rows))
	list.add(Note, "", 0, c.cut, CutLine, "its last cell may be cut and is left out")
	for i := range a.plans {
		list.channel(i)
	}
	sort.SliceStable(list.out, func(i, j int) bool { return list.out[i].Line < list.out[j].Line })
	return list.out
}

// seconds is the time of a reading.
func (a *assembly) seconds(reading float64) float64 { return (reading - a.time.zero) * a.factor }

type findingList struct {
	*assembly
	out []Finding
}

// add tells about a total, if there is anything in it, on the time of a channel of that delay.
func (l *findingList) add(s Severity, q Quantity, delay float64, t total, what, consequence string) {
	if t.count > 0 {
		l.out = append(l.out, Finding{Severity: s, Channel: q, Start: l.seconds(t.from) - delay, End: l.seconds(t.to) - delay,
			What: what, Consequence: consequence, Line: t.line})
	}
}

// channel tells what was wrong with the cells of one channel.
func (l *findingList) channel(i int) {
	p, bad, outside := l.plans[i], l.counts.bad[i], l.counts.outside[i]
	l.add(Loss, p.quantity, p.delay, bad, fmt.Sprintf("%d cells of column %q hold no number, such as %q", bad.count, p.head, bad.text), l.cellAdvice(bad.text))
	if p.table != nil {
		l.add(Note, p.quantity, p.delay, outside, fmt.Sprintf("%d cells of column %q lie outside the calibration from %g to %g, the first at %s",
			outside.count, p.head, p.table[0][0], p.table[len(p.table)-1][0], outside.text),
			"the calibration is continued straight beyond its ends; calibrate over the whole travel")
	}
	if !l.columns.seen[i] && bad.count == 0 {
		l.out = append(l.out, Finding{Severity: Loss, Channel: p.quantity, What: fmt.Sprintf("column %q is blank in every row", p.head),
			Consequence: "the channel holds no samples", Line: l.headLine})
	}
}

// backward gives one finding for each run of rows that were dropped because time stepped back; the last one
// sums up what is left when there are many.
func (l *findingList) backward() {
	for i, s := range l.time.runs {
		f := Finding{Severity: Loss, Start: l.seconds(s.from.reading), End: l.seconds(s.to.reading), Line: s.from.line,
			What: fmt.Sprintf("time runs backward: %d rows from line %d to %d", s.to.row-s.from.row+1, s.from.line, s.to.line), Consequence: "these rows are left out"}
		if l.time.many && i == mostRuns-1 {
			f.What = fmt.Sprintf("time runs backward again and again from line %d to %d", s.from.line, s.to.line)
		}
		l.out = append(l.out, f)
	}
}

// nothing is the error of a table without a single usable row.
func (a *assembly) nothing(source string) error {
	if t := a.counts.badTime; t.count > 0 {
		return &Mistake{File: source, Line: t.line, Column: t.column,
			What:  fmt.Sprintf("column %q holds %q, which is no time in %s", a.heads[a.timeIndex], t.text, a.timeFormat.unit),
			Right: timeAdvice(t.text)}
	}
	return &Mistake{File: source, Line: a.headLine, What: "there is no row of samples below the heads", Right: "give a log with samples"}
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
