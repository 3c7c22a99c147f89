package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// sweep is a grid of sizes on one configuration.
type sweep struct {
	levels map[string]string
	ranges []sizeRange
	points []sweepPoint // the first size changes slowest
	base   subject      // the configuration as it is
	now    []float64    // its sizes
}

// sizeRange is one size from one value to another.
type sizeRange struct {
	size     program.Size
	from, to float64
	count    int
}

// sweepPoint is one airframe of a sweep.
type sweepPoint struct {
	subject
	sizes []float64
	end   bool // at an end of the first range, where the error of the grid is estimated
}

// mostPoints bounds a sweep: each point is a solved lattice.
const mostPoints = 400

// readSweep reads the --sweep flags; what is wrong goes to m.
func (o latticeOptions) readSweep(p *program.Program, levels map[string]string, m *mistakes) *sweep {
	sw := &sweep{levels: levels}
	before := len(m.lines)
	if len(o.sweeps) > 2 {
		m.add("--sweep: %d sizes; two at most, which make a grid", len(o.sweeps))
	}
	for _, text := range o.sweeps {
		if r, ok := readRange(p, text, m); ok {
			sw.ranges = append(sw.ranges, r)
		}
	}
	if len(sw.ranges) == 2 && sw.ranges[0].size.Surface == sw.ranges[1].size.Surface && sw.ranges[0].size.Name == sw.ranges[1].size.Name {
		m.add("--sweep: %s and %s are one size; sweep two different ones", sw.ranges[0].size.Key, sw.ranges[1].size.Key)
	}
	total := 1
	for _, r := range sw.ranges {
		total *= r.count
	}
	if total > mostPoints {
		m.add("--sweep: %d airframes; ask for %d at most", total, mostPoints)
	}
	if len(m.lines) > before {
		return sw
	}
	sw.build(p, m)
	return sw
}

// readRange reads SIZE=FROM:TO:COUNT.
func readRange(p *program.Program, text string, m *mistakes) (sizeRange, bool) {
	before := len(m.lines)
	key, span, ok := strings.Cut(text, "=")
	parts := strings.Split(span, ":")
	if !ok || len(parts) != 3 {
		m.add("--sweep: %q is no SIZE=FROM:TO:COUNT; write it such as winglet.height_m=0.6:1.4:9", text)
		if !ok {
			return sizeRange{}, false
		}
	}
	r := sizeRange{}
	size, err := p.EditOf(key)
	if err != nil {
		m.add("--sweep: %v", err)
	}
	r.size = size
	if len(parts) != 3 {
		return r, false
	}
	flag := "--sweep " + strings.TrimSpace(key)
	r.from = m.number(flag, parts[0], math.NaN(), math.Inf(-1), math.Inf(1), "write the first value such as 0.6")
	r.to = m.number(flag, parts[1], math.NaN(), math.Inf(-1), math.Inf(1), "write the last value such as 1.4")
	r.count, err = strconv.Atoi(strings.TrimSpace(parts[2]))
	switch {
	case err != nil:
		m.add("%s: the count %q is not a whole number; write 2 or more, such as 9", flag, parts[2])
	case r.count < 2:
		m.add("%s: a count of %d makes no sweep; write 2 or more, such as 9", flag, r.count)
	}
	if r.from == r.to {
		m.add("%s: it begins and ends at %s; give two different values", flag, short(r.from))
	}
	if r.from > r.to {
		m.add("%s: it runs from %s down to %s; write the smaller value first: %s:%s:%s", flag, short(r.from), short(r.to), short(r.to), short(r.from), parts[2])
	}
	if len(m.lines) > before {
		return r, false
	}
	for _, end := range []float64{r.from, r.to} {
		if _, err := size.Edit(end); err != nil {
			m.add("--sweep: %v", err)
		}
	}
	return r, len(m.lines) == before
}

// at is value i of the range; both ends are exact.
func (r sizeRange) at(i int) float64 {
	if i == r.count-1 {
		return r.to
	}
	step := (r.to - r.from) / float64(r.count-1)
	return rounded(r.from+float64(i)*step, step)
}

// rounded takes away what round-off adds far below a step.
func rounded(v, step float64) float64 {
	digits := 9 - math.Floor(math.Log10(math.Abs(step)))
	scale := math.Pow(10, math.Max(0, math.Min(15, digits)))
	return math.Round(v*scale) / scale
}

// build makes the airframes.
func (sw *sweep) build(p *program.Program, m *mistakes) {
	var err error
	if sw.base, err = subjectOf(p, sw.levels, nil); err != nil {
		m.add("%v", err)
		return
	}
	for _, r := range sw.ranges {
		now, ok := r.size.Now(sw.base.airframe)
		if !ok {
			now = math.NaN()
		}
		sw.now = append(sw.now, now)
	}
	indices := []int{0, 0}
	for indices[0] = range sw.ranges[0].count {
		for indices[1] = range sw.second() {
			point := sweepPoint{end: indices[0] == 0 || indices[0] == sw.ranges[0].count-1}
			var edits []program.Edit
			for k, r := range sw.ranges {
				value := r.at(indices[k])
				edit, err := r.size.Edit(value)
				if err != nil {
					m.add("--sweep: %v", err)
					return
				}
				edits = append(edits, edit)
				point.sizes = append(point.sizes, value)
			}
			if point.subject, err = subjectOf(p, sw.levels, edits); err != nil {
				m.add("--sweep %s: %v", sw.sizesOf(point.sizes), err)
				return
			}
			point.name += ", " + sw.sizesOf(point.sizes)
			sw.points = append(sw.points, point)
		}
	}
}

// second is the count of the second size, 1 without one.
func (sw *sweep) second() int {
	if len(sw.ranges) < 2 {
		return 1
	}
	return sw.ranges[1].count
}

// sizesOf writes sizes as the command line takes them.
func (sw *sweep) sizesOf(values []float64) string {
	var parts []string
	for k, v := range values {
		parts = append(parts, sw.ranges[k].size.Key+"="+short(v))
	}
	return strings.Join(parts, ", ")
}

// run solves a sweep and prints it.
func (sw *sweep) run(s streams, p *program.Program, c condition, o latticeOptions) error {
	r, err := sw.solve(p, c)
	if err != nil {
		return err
	}
	page := ""
	if o.figures != "" {
		figures, err := sweepFigures(p, c, r)
		if err != nil {
			return err
		}
		if page, err = report.WriteFigureFiles(o.figures, "sweep", p.Name+": sweep of "+strings.Join(sw.keys(), " and "), figures); err != nil {
			return err
		}
	}
	switch {
	case o.json:
		err = printJSON(s.Out, r.document(p, c))
	case o.csv:
		err = r.csv(s, p, c)
	default:
		err = r.table(p, c).Write(s.Out, r.head(p, c), tableWidth)
	}
	if err == nil && page != "" {
		fmt.Fprintln(s.Err, "figures:", page)
	}
	return err
}

func (sw *sweep) keys() []string {
	var out []string
	for _, r := range sw.ranges {
		out = append(out, r.size.Key)
	}
	return out
}

// table is the sweep as text.
func (r *sweepResult) table(p *program.Program, c condition) report.SweepTable {
	t := report.SweepTable{Configuration: r.sweep.base.name, Sizes: r.sweep.keys()}
	for _, point := range r.order() {
		row := report.SweepRow{Sizes: r.sizes(point), Baseline: r.isBase(point)}
		list := r.numbers(p, c, point)
		grid, estimated := []float64{}, r.gridOf(point) != nil
		for _, name := range sweptQuantities() {
			n := numberOf(list, name)
			if len(t.Rows) == 0 {
				t.Quantities, t.Units = append(t.Quantities, name), append(t.Units, n.Unit)
			}
			row.Values, grid = append(row.Values, n.Value), append(grid, n.Grid)
		}
		if estimated {
			row.Grid = grid
		}
		t.Rows = append(t.Rows, row)
	}
	t.Warnings = r.warnings()
	return t
}

// numberOf is the first number of a quantity, NaN without one.
func numberOf(list []predictedNumber, quantity string) predictedNumber {
	for _, n := range list {
		if n.Quantity == quantity {
			return n
		}
	}
	nan := math.NaN()
	return predictedNumber{Number: prediction.Number{Quantity: quantity, Value: nan, Grid: nan}}
}
