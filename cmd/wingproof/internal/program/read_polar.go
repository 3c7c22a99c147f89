package program

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"wingproof/aero/aerofoil"
)

// polarColumns are the columns of a section's polar.
type polarColumns struct{ reynolds, flap, state, maxLift, drag, source column }

func polarStates() []string { return []string{aerofoil.Clean, aerofoil.Contaminated} }

// Bounds of a polar: they catch a slipped digit or an exchanged column, not a strange section.
func (t *table) polarColumns() polarColumns {
	lift, drag := number("max_lift", 0, 6).required(), number("profile_drag", 0, 1)
	lift.open, drag.open = true, true
	return polarColumns{
		reynolds: t.measured(number("reynolds", 1e3, 1e9).required()),
		flap:     t.measured(angle("flap", -60, 60).required()),
		state:    t.text("state", true),
		maxLift:  t.measured(lift),
		drag:     t.measured(drag),
		source:   t.text("source", true),
	}
}

// readPolar reads the table behind polar = "...": one row for each Reynolds number, flap angle and state.
func (l *loader) readPolar(s *scope, at spot, file string) (path string, rows []PolarRow) {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return "", nil
	}
	t := l.readTable(path, raw)
	if t == nil {
		return path, nil
	}
	before := len(l.mistakes)
	c := t.polarColumns()
	t.done()
	var placed []PolarRow
	for _, r := range t.rows {
		p, whole := t.polarRow(r, c)
		if first := slices.IndexFunc(placed, p.samePlace); whole && first >= 0 {
			t.wrong(r, c.reynolds, fmt.Sprintf("this row repeats row %d: the same reynolds, flap and state", placed[first].Row), "keep one of the two")
		} else if whole {
			placed = append(placed, p)
		}
		rows = append(rows, p)
	}
	if len(t.rows) == 0 {
		l.wrong(path, t.headSpot, "", "the polar has no rows", "add a row for each Reynolds number, flap angle and state, with its source")
	}
	if len(l.mistakes) == before && !t.cut && t.onGrid(rows) {
		t.checkPolar(AerofoilData{Polar: rows}.Rows())
	}
	return path, rows
}

// samePlace tells whether two rows differ by rounding only in Reynolds number and flap, at one state.
func (p PolarRow) samePlace(other PolarRow) bool {
	return p.State == other.State && math.Abs(p.Reynolds-other.Reynolds) <= 1e-9*p.Reynolds && math.Abs(p.Flap-other.Flap) <= 1e-6
}

// mostGaps is how many pairs without a row are told one by one.
const mostGaps = 6

// onGrid reports rows that stand anywhere but on a grid of Reynolds numbers and flap angles, so that telling
// every pair without a row would help nobody.
func (t *table) onGrid(rows []PolarRow) bool {
	sound := true
	for _, state := range polarStates() {
		var reynolds, flaps []float64
		for _, r := range rows {
			if r.State == state {
				reynolds, flaps = append(reynolds, r.Reynolds), append(flaps, r.Flap)
			}
		}
		count := len(reynolds)
		n := distinct(reynolds, func(a, b float64) bool { return math.Abs(b-a) <= 1e-9*a })
		m := distinct(flaps, func(a, b float64) bool { return math.Abs(b-a) <= 1e-6 })
		if n*m-count > mostGaps {
			t.l.wrong(t.file, t.headSpot, "", fmt.Sprintf("the %d rows that are %s hold %d Reynolds numbers and %d flap angles, which make %d pairs", count, state, n, m, n*m),
				"give a row for every pair, so that values between can be interpolated")
			sound = false
		}
	}
	return sound
}

// distinct counts the values that differ.
func distinct(values []float64, same func(a, b float64) bool) int {
	slices.Sort(values)
	return len(slices.CompactFunc(values, same))
}

// checkPolar reports what would keep the rows from being interpolated: a pair of Reynolds number and flap
// without a row. A drag that is not stated is no mistake.
func (t *table) checkPolar(rows []aerofoil.PolarRow) {
	for i := range rows {
		if rows[i].ProfileDrag == 0 {
			rows[i].ProfileDrag = 1
		}
	}
	_, err := aerofoil.NewPolar(rows)
	var many interface{ Unwrap() []error }
	if !errors.As(err, &many) {
		return
	}
	for _, one := range many.Unwrap() {
		var mistake *aerofoil.TableError
		if errors.As(one, &mistake) {
			t.l.wrong(t.file, t.headSpot, "", mistake.What, mistake.Right)
		} else {
			t.l.wrong(t.file, t.headSpot, "", one.Error(), "")
		}
	}
}

// polarRow reads one row; whole tells whether Reynolds number, flap and state could be read.
func (t *table) polarRow(r row, c polarColumns) (p PolarRow, whole bool) {
	p.Row = r.number
	var okR, okF bool
	p.Reynolds, okR = t.needNumber(r, c.reynolds)
	p.Flap, okF = t.needNumber(r, c.flap)
	t.need(r, c.state, oneOf(polarStates()))
	p.State = t.named(r, c.state, polarStates(), "state")
	p.MaxLift, _ = t.needNumber(r, c.maxLift)
	if drag, stated := t.number(r, c.drag); stated {
		p.ProfileDrag = &drag
	}
	p.Source = t.need(r, c.source, `where the figures come from, such as "tunnel, own test of 2025" or "common practice, no source"`)
	return p, okR && okF && p.State != ""
}
