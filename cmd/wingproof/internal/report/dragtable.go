package report

import (
	"fmt"
	"io"
	"math"
)

// DragComparison is the drag of the lifting surfaces of every level in one flight condition, full size.
type DragComparison struct {
	Condition string
	Lift      float64
	Speed     float64 // true, m/s
	Rows      []DragRow
}

// DragRow is one level: drags over the dynamic pressure, m². Half widths bound 95 % by section data and friction; the error of
// the lattice is not in them.
type DragRow struct {
	Level       string
	Induced     float64
	Profile     float64
	ProfileHalf float64
	Baseline    bool
	MoreInduced float64 // than the baseline, as the rest
	MoreProfile float64
	Net         float64
	NetHalf     float64
	Force       float64 // Net in newtons
}

// dragTable writes what each level gains in induced drag and costs in profile drag.
func dragTable(w io.Writer, d DragComparison, width int) error {
	if _, err := fmt.Fprintln(w); err != nil {
		return err
	}
	if err := paragraph(w, d.title(), width); err != nil {
		return err
	}
	t := d.table()
	return t.write(w, width)
}

func (d DragComparison) title() string {
	return fmt.Sprintf("net drag in %s: full size, lift coefficient %s, %s m/s; drag of the lifting surfaces over the dynamic pressure in 10⁻³ m², trimmed; "+
		"± is 95 %% by section data and friction", plain(d.Condition), number(d.Lift, 3), number(d.Speed, 1))
}

func (d DragComparison) table() textTable {
	t := textTable{heads: []string{"level", "induced", "profile", "induced, difference", "profile, difference", "net", "net, N"}, most: []int{0, 10, 14, 20, 20, 14, 14}}
	const k = 1e3
	for _, r := range d.Rows {
		if r.Baseline {
			t.add(plain(r.Level), number(k*r.Induced, 1), spreadNumber(r.Profile, r.ProfileHalf, k), "baseline", "", "", "")
			continue
		}
		force := 0.0
		if r.Net != 0 {
			force = math.Abs(r.Force / r.Net)
		}
		t.add(plain(r.Level), number(k*r.Induced, 1), spreadNumber(r.Profile, r.ProfileHalf, k), signed(k*r.MoreInduced, 2), signed(k*r.MoreProfile, 2),
			plus(spreadNumber(r.Net, r.NetHalf, k), r.Net), plus(spreadNumber(r.Force, r.NetHalf*force, 1), r.Force))
	}
	return t
}

// spreadNumber writes value ± half width with the digits that it leaves.
func spreadNumber(value, half, factor float64) string { return gridNumber(value, half, factor) }

// plus puts a sign before what is above zero.
func plus(words string, value float64) string {
	if value > 0 {
		return "+" + words
	}
	return words
}
