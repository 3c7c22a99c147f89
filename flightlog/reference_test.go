package flightlog

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"sort"
	"strings"
)

// referenceRead does what Read does, line after line on the slow road, with everything in memory and each rule written
// down as plainly as it can be. Tests hold the chunks, the fast road and the order of placing against it.
func referenceRead(text, source string, m Map) (*Recording, error) {
	t, err := openText(strings.NewReader(text), source)
	if err != nil {
		return nil, err
	}
	l, err := findLayout(t, source, m)
	if err != nil {
		return nil, err
	}
	r := reference{layout: l, counter: counter{}, samples: make([][]refSample, len(l.plans)), bad: make([]refTally, len(l.plans)), outside: make([]refTally, len(l.plans))}
	for {
		line, whole, err := t.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		if t.line > l.headLine {
			r.take(line, t.line, whole)
		}
	}
	if len(r.times) == 0 {
		if f := r.badTime; f.count > 0 {
			return nil, &Mistake{File: source, Line: f.line, Column: f.column,
				What:  fmt.Sprintf("column %q holds %q, which is no time in %s", l.heads[l.timeIndex], f.text, l.timeFormat.unit),
				Right: timeAdvice(f.text)}
		}
		return nil, &Mistake{File: source, Line: l.headLine, What: "there is no row of samples below the heads", Right: "give a log with samples"}
	}
	rec := r.recording(source)
	rec.Sensors, rec.Delays = m.Sensors, m.delays()
	return rec, nil
}

type reference struct {
	*layout
	counter
	times   []float64 // readings
	lines   []int
	samples [][]refSample

	repeated, badTime, torn, cut refTally
	bad, outside                 []refTally
}

type refSample struct {
	row   int
	value float64
}

type refTally struct {
	count, line, column, first, last int
	text                             string
}

func (t *refTally) add(line, column, row int, text string) {
	if t.count++; t.count == 1 {
		t.line, t.column, t.first, t.text = line, column, row, text
	}
	t.last = row
}

func (r *reference) take(line []byte, number int, whole bool) {
	row := len(r.times)
	if len(trimBlanks(line)) == 0 {
		return
	}
	if _, remark := comment(line); remark && line[0] != '\t' && line[0] != '\r' {
		return
	}
	cells := splitCells(line, r.separator, nil)
	if whole && len(cells) < r.fewest || len(cells) > len(r.heads) && usedCells(cells) > len(r.heads) && whole {
		if usedCells(cells) > 0 {
			r.torn.add(number, 0, row, fmt.Sprint(len(cells)))
		}
		return
	}
	if !whole {
		last := len(cells) - 1
		if len(cells) < len(r.heads) || r.timeIndex == last || slices.ContainsFunc(r.plans, func(p columnPlan) bool { return p.index == last }) {
			r.cut.add(number, 0, row, "")
		}
		cells = cells[:last]
	}
	if r.timeIndex >= len(cells) {
		return
	}
	stamp, ok := r.stamp(cells[r.timeIndex].text, r.decimal)
	switch {
	case ok:
	case usedCells(cells) == 0 || len(r.times) == 0 && r.units != nil && !anyNumeric(cells) && !sameHeads(cells, r.heads):
		return
	case sameHeads(cells, r.heads):
		r.repeated.add(number, 0, row, "")
		return
	default:
		r.badTime.add(number, cells[r.timeIndex].offset+1, row, readable(cells[r.timeIndex].text))
		return
	}
	r.times = append(r.times, r.reading(stamp, r.iso))
	r.lines = append(r.lines, number)
	for i, p := range r.plans {
		if p.index < len(cells) {
			r.cell(i, cells[p.index].text, row, number)
		}
	}
}

func (r *reference) cell(i int, text []byte, row, line int) {
	number, ok := parseLong(text, r.decimal)
	value, beyond := r.plans[i].si(number)
	switch {
	case !ok && noSample(text):
	case !ok || math.IsInf(value, 0) || math.IsNaN(value):
		r.bad[i].add(line, 0, row, readable(text))
	default:
		if beyond {
			r.outside[i].add(line, 0, row, readable(text))
		}
		r.samples[i] = append(r.samples[i], refSample{row, value})
	}
}

// keep is the rule of timeline: a step back drops the row, or up to mostStray rows ahead of it that are not settled.
func (r *reference) keep() (keep []bool) {
	keep = make([]bool, len(r.times))
	var kept []int
	settled := 0
	for i, t := range r.times {
		if n := len(kept); n > 0 && t < r.times[kept[n-1]] {
			stray := 0
			for stray < n && r.times[kept[n-1-stray]] > t {
				stray++
			}
			last, below := r.times[kept[n-1]], 0
			for i+below < len(r.times) && below <= stray && r.times[i+below] < last {
				below++
			}
			if n-stray < settled || below <= stray {
				continue
			}
			for _, j := range kept[n-stray:] {
				keep[j] = false
			}
			kept = kept[:n-stray]
		}
		keep[i] = true
		kept = append(kept, i)
		settled = max(settled, len(kept)-mostStray)
	}
	return keep
}

func (r *reference) recording(source string) *Recording {
	keep := r.keep()
	rec := &Recording{Source: source, Channels: map[Quantity]Channel{}}
	zero := r.times[slices.Index(keep, true)]
	seconds := func(row int) float64 { return (r.times[min(row, len(r.times)-1)] - zero) * r.factor }
	for _, k := range keep {
		if k {
			rec.Rows++
		}
	}
	var repeats []int
	for i, p := range r.plans {
		c := Channel{Time: []float64{}, Value: []float64{}}
		for _, s := range r.samples[i] {
			t := seconds(s.row) - p.delay
			switch n := len(c.Time); {
			case !keep[s.row]:
			case n > 0 && t <= c.Time[n-1]:
				repeats = append(repeats, s.row)
			default:
				c.Time, c.Value = append(c.Time, t), append(c.Value, s.value)
			}
		}
		rec.Channels[p.quantity] = c
	}
	samples := 0
	for _, c := range rec.Channels {
		samples += len(c.Value)
	}
	rec.Findings = r.findings(keep, seconds, repeats, samples)
	return rec
}

func (r *reference) findings(keep []bool, seconds func(int) float64, repeats []int, kept int) []Finding {
	out := r.backward(keep, seconds)
	add := func(s Severity, q Quantity, delay float64, t refTally, what, consequence string) {
		if t.count > 0 {
			out = append(out, Finding{s, q, seconds(t.first) - delay, seconds(t.last) - delay, what, consequence, t.line})
		}
	}
	if n := len(repeats); n > 0 {
		first, last := slices.Min(repeats), slices.Max(repeats)
		add(Loss, "", 0, refTally{count: n, line: r.lines[first], first: first, last: last}, fmt.Sprintf("%d samples repeat a time at which their channel already has one", n), repeatAdvice(n, kept))
	}
	add(Note, "", 0, r.repeated, fmt.Sprintf("the heads come again %s", times(r.repeated.count)), "these lines are skipped")
	add(Loss, "", 0, r.badTime, fmt.Sprintf("%d rows hold no time that can be read, such as %q", r.badTime.count, r.badTime.text), "these rows are left out")
	add(Loss, "", 0, r.torn, fmt.Sprintf("%d rows are torn: the first has %s cells where the heads have %d", r.torn.count, r.torn.text, len(r.heads)), r.tornAdvice(r.torn.count, len(r.times)))
	add(Note, "", 0, r.cut, "the last line has no end", "its last cell may be cut and is left out")
	for i, p := range r.plans {
		bad, outside := r.bad[i], r.outside[i]
		add(Loss, p.quantity, p.delay, bad, fmt.Sprintf("%d cells of column %q hold no number, such as %q", bad.count, p.head, bad.text), r.cellAdvice(bad.text))
		if p.table != nil {
			add(Note, p.quantity, p.delay, outside, fmt.Sprintf("%d cells of column %q lie outside the calibration from %g to %g, the first at %s", outside.count, p.head, p.table[0][0], p.table[len(p.table)-1][0], outside.text),
				"the calibration is continued straight beyond its ends; calibrate over the whole travel")
		}
		if len(r.samples[i]) == 0 && bad.count == 0 {
			out = append(out, Finding{Severity: Loss, Channel: p.quantity, What: fmt.Sprintf("column %q is blank in every row", p.head), Consequence: "the channel holds no samples", Line: r.headLine})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Line < out[j].Line })
	return out
}

func (r *reference) backward(keep []bool, seconds func(int) float64) []Finding {
	var out []Finding
	for i := 0; i < len(keep); i++ {
		if keep[i] {
			continue
		}
		from := i
		for i+1 < len(keep) && !keep[i+1] {
			i++
		}
		f := Finding{Severity: Loss, Start: min(seconds(from), seconds(i)), End: max(seconds(from), seconds(i)), Line: r.lines[from],
			What: fmt.Sprintf("time runs backward: %d rows from line %d to %d", i-from+1, r.lines[from], r.lines[i]), Consequence: "these rows are left out"}
		if len(out) < 20 {
			out = append(out, f)
			continue
		}
		last := &out[19]
		last.Start, last.End = min(last.Start, f.Start), max(last.End, f.End)
		last.What = fmt.Sprintf("time runs backward again and again from line %d to %d", last.Line, r.lines[i])
	}
	return out
}
