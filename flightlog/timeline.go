package flightlog

import (
	"fmt"
	"sort"
)

// mostStray is how many rows ahead of a step back in time may be the ones in error.
const mostStray = 3

// timeline tells which rows to keep so that time never runs backward. Where it does, the rows behind
// decide: when up to mostStray rows jumped ahead, and more rows than those follow below them, the ones that
// jumped are dropped; otherwise the rows that lie back in time are.
func timeline(times []float64) (keep []bool) {
	keep = make([]bool, len(times))
	var kept []int
	for i, t := range times {
		if n := len(kept); n > 0 && t < times[kept[n-1]] {
			stray := 0
			for stray < n && stray <= mostStray && times[kept[n-1-stray]] > t {
				stray++
			}
			if stray > mostStray || below(times[i:], times[kept[n-1]], stray+1) <= stray {
				continue
			}
			for _, j := range kept[n-stray:] {
				keep[j] = false
			}
			kept = kept[:n-stray]
		}
		keep[i] = true
		kept = append(kept, i)
	}
	return keep
}

// below counts the rows at the start of times that lie below a time, up to a number that suffices.
func below(times []float64, limit float64, suffices int) int {
	n := 0
	for n < len(times) && n < suffices && times[n] < limit {
		n++
	}
	return n
}

// recording builds the channels on their own time bases, and the findings.
func (r *rowReader) recording(source string) *Recording {
	keep := timeline(r.times)
	rec := &Recording{Source: source, Channels: map[Quantity]Channel{}}
	zero := 0.0
	for i, k := range keep {
		if k {
			if rec.Rows == 0 {
				zero = r.times[i]
			}
			rec.Rows++
		}
	}
	seconds := func(row int) float64 {
		return (r.times[min(max(row, 0), len(r.times)-1)] - zero) * r.clock.factor
	}
	var repeats tally
	for i, p := range r.plans {
		rec.Channels[p.quantity] = buildChannel(r.samples[i], keep, seconds, func(row int) { repeats.add(r.lines[row], row, "") })
	}
	rec.Findings = r.findings(keep, seconds, repeats)
	return rec
}

// buildChannel puts the samples of kept rows on a time base that rises strictly.
func buildChannel(samples []sample, keep []bool, seconds func(int) float64, repeated func(row int)) Channel {
	c := Channel{Time: make([]float64, 0, len(samples)), Value: make([]float64, 0, len(samples))}
	for _, s := range samples {
		if !keep[s.row] {
			continue
		}
		t := seconds(s.row)
		if n := len(c.Time); n > 0 && t <= c.Time[n-1] {
			repeated(s.row)
			continue
		}
		c.Time = append(c.Time, t)
		c.Value = append(c.Value, s.value)
	}
	return c
}

// findings tells what was left out, in the order of the file.
func (r *rowReader) findings(keep []bool, seconds func(int) float64, repeats tally) []Finding {
	var out []Finding
	add := func(s Severity, q Quantity, t tally, what, consequence string) {
		if t.count > 0 {
			out = append(out, Finding{Severity: s, Channel: q, Start: seconds(t.first), End: seconds(t.last), What: what, Consequence: consequence, Line: t.line})
		}
	}
	out = append(out, r.backward(keep, seconds)...)
	add(Loss, "", repeats, fmt.Sprintf("%d samples repeat a time at which their channel already has one", repeats.count), "the first sample of each instant is used, the others are left out")
	add(Note, "", r.repeated, fmt.Sprintf("the heads come again %s", times(r.repeated.count)), "these lines are skipped")
	add(Loss, "", r.badTime, fmt.Sprintf("%d rows hold no time that can be read, such as %q", r.badTime.count, r.badTime.text), "these rows are left out")
	add(Loss, "", r.torn, fmt.Sprintf("%d rows are torn: the first has %s cells where the heads have %d", r.torn.count, r.torn.text, len(r.heads)), "these rows are left out")
	add(Note, "", r.cut, "the last line has no end", "its last cell may be cut and is left out")
	for i, p := range r.plans {
		bad, outside := r.badCells[i], r.outside[i]
		add(Loss, p.quantity, bad, fmt.Sprintf("%d cells of column %q hold no number, such as %q", bad.count, p.head, bad.text), "these samples are left out")
		if p.table != nil {
			add(Note, p.quantity, outside, fmt.Sprintf("%d cells of column %q lie outside the calibration from %g to %g, the first at %s", outside.count, p.head, p.table[0][0], p.table[len(p.table)-1][0], outside.text),
				"the calibration is continued straight beyond its ends; calibrate over the whole travel")
		}
		if len(r.samples[i]) == 0 && bad.count == 0 {
			out = append(out, Finding{Severity: Loss, Channel: p.quantity, What: fmt.Sprintf("column %q is blank in every row", p.head), Consequence: "the channel holds no samples", Line: r.headLine})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Line < out[j].Line })
	return out
}

// backward gives one finding for each run of rows that were dropped because time stepped back; the last one
// sums up what is left when there are many.
func (r *rowReader) backward(keep []bool, seconds func(int) float64) []Finding {
	const most = 20
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
		if len(out) < most {
			out = append(out, f)
			continue
		}
		last := &out[most-1]
		last.Start, last.End = min(last.Start, f.Start), max(last.End, f.End)
		last.What = fmt.Sprintf("time runs backward again and again from line %d to %d", last.Line, r.lines[i])
	}
	return out
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
