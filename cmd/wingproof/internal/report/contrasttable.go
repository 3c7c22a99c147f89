package report

import (
	"fmt"
	"io"
	"math"

	"wingproof/cmd/wingproof/internal/decide"
)

// LevelVerdicts is what decides between the sizes of a choice at full size: limits and built parts with their surety, and each size's
// difference to the baseline.
type LevelVerdicts struct {
	Levels    []decide.LevelVerdict // of the choice
	Contrasts []decide.Contrast     // of the same sizes
	Baseline  string
}

// write writes what limits and built parts say of each size, then the verdict on each. Beliefs stand in the table of evidence.
func (v LevelVerdicts) write(w io.Writer, width int) error {
	if len(v.Contrasts) == 0 {
		return nil
	}
	if err := paragraph(w, "what decides, at full size: anchored on the flights, with the errors of the step that no model flight shrinks; 95 % in brackets", width); err != nil {
		return err
	}
	t := v.table()
	if err := t.write(w, width); err != nil {
		return err
	}
	for _, line := range v.lines() {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w)
	return err
}

// lines say where each size stands, and why.
func (v LevelVerdicts) lines() []string {
	var out []string
	for _, l := range v.Levels {
		out = append(out, fmt.Sprintf("%s %s is %s: %s.", plain(l.Choice), plain(l.Level), l.State, plain(l.Why)))
	}
	return out
}

// table is what limits and built parts say of each size.
func (v LevelVerdicts) table() textTable {
	t := textTable{heads: []string{"limit", "level", "full size", "against " + plain(v.Baseline), "holds"}, most: []int{24, 10, 0, 0, 14}, least: 22}
	name := ""
	for _, x := range v.byLimit() {
		first := ""
		if x.Limit != name {
			name = x.Limit
			first = plain(x.Limit)
			if x.Quantity == "bending_ratio" {
				first = "load on the " + first
			}
		}
		difference := "baseline"
		if x.Difference != nil {
			difference = contrastWords(*x.Difference, x, true)
		}
		t.add(first, plain(x.Level), contrastWords(x.Value, x, false), difference, sureCell(x.Probability))
	}
	return t
}

// byLimit orders contrasts limit by limit, sizes in their order; beliefs are left out.
func (v LevelVerdicts) byLimit() []decide.Contrast {
	var names []string
	groups := map[string][]decide.Contrast{}
	for _, x := range v.Contrasts {
		if x.Limit == "" {
			continue
		}
		if groups[x.Limit] == nil {
			names = append(names, x.Limit)
		}
		groups[x.Limit] = append(groups[x.Limit], x)
	}
	var out []decide.Contrast
	for _, name := range names {
		out = append(out, groups[name]...)
	}
	return out
}

// contrastWords writes a range in the unit that people read.
func contrastWords(r decide.Range, x decide.Contrast, difference bool) string {
	unit, k := shown(x.Unit)
	if x.Quantity == "bending_ratio" {
		unit, k = "%", 100
	}
	if unit != "" && unit != "°" {
		unit = " " + unit
	}
	if words := x.EndlessDifference(); difference && words != "" {
		return words
	}
	decimals := decimalsFor(k * endsWidth(r))
	write := func(v float64) string { return number(v*k, decimals) }
	median := write(r.Median)
	if difference {
		median = signed(r.Median*k, decimals)
	}
	switch low, high := !math.IsInf(r.Low, 0), !math.IsInf(r.High, 0); {
	case r.AlwaysEndless():
		return decide.EndlessWords(x.Unit)
	case r.Endless():
		return fmt.Sprintf("%s (above %s%s)", decide.EndlessWords(x.Unit), write(r.Low), unit)
	case low && !high:
		return fmt.Sprintf("%s (above %s)%s", median, write(r.Low), unit)
	case high && !low:
		return fmt.Sprintf("%s (below %s)%s", median, write(r.High), unit)
	case !low && !high:
		return fmt.Sprintf("%s (no bounds)%s", median, unit)
	case r.High == r.Low:
		return number(r.Median*k, 2) + unit
	}
	return fmt.Sprintf("%s (%s to %s)%s", median, write(r.Low), write(r.High), unit)
}

// endsWidth is the width of a range; of one that has an end on one side only, twice the distance to it; of one without a middle the end that
// it has.
func endsWidth(r decide.Range) float64 {
	low, high := !math.IsInf(r.Low, 0), !math.IsInf(r.High, 0)
	switch {
	case low && high:
		return r.High - r.Low
	case r.Endless():
		return math.Abs(r.Low)
	case low:
		return 2 * (r.Median - r.Low)
	case high:
		return 2 * (r.High - r.Median)
	}
	return math.Abs(r.Median)
}

// decimalsFor shows a range of that width to about a tenth of its half.
func decimalsFor(width float64) int {
	decimals := 0
	for w := width / 2; w < 5 && decimals < 4; w *= 10 {
		decimals++
	}
	return decimals
}

// sureCell is a probability as the board says it.
func sureCell(p *float64) string {
	if p == nil {
		return ""
	}
	return decide.Surety(*p)
}
