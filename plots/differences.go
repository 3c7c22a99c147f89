package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// LevelDifferencesData is what changes, quantity by quantity, when a choice takes other levels than its baseline.
type LevelDifferencesData struct {
	Title      string // empty: "CHOICE: what changes against BASELINE", with the level where there is one only
	Choice     string
	Baseline   string // the level that all others are compared with
	Condition  string // the flight condition in words; may be empty
	Quantities []QuantityDifference
}

// QuantityDifference is the change of one quantity; Row.Label is the level, Row.Group is not used. Each interval
// is that of the difference itself: errors that both levels share have dropped out of it.
type QuantityDifference struct {
	Quantity string // plain words, such as "induced drag at cruise"
	Unit     string // of the difference: "%" of the baseline's value, or such as "points of % chord"; units get an axis each
	Rows     []Row
}

// LevelDifferences draws a row for each quantity and level about a line of no difference; quantities of one unit
// share an axis.
//
// It returns ErrNoData without quantities or with a quantity that has no rows.
func LevelDifferences(d LevelDifferencesData) (Figure, error) {
	title := or(d.Title, capital(strings.TrimSpace(d.Choice+" "+d.single()))+": what changes against "+or(d.Baseline, "the baseline"))
	if len(d.Quantities) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	var all []Row
	for _, q := range d.Quantities {
		if err := checkRows(title+": "+q.Quantity, q.Rows, nil); err != nil {
			return Figure{}, err
		}
		all = append(all, q.Rows...)
	}
	head := header{title: title, key: standardKey(all, false),
		note: capital(sentenceOf(d.Condition)) + "Bars are 95 % intervals of the difference itself; one that holds zero shows no difference."}
	blocks := d.blocks()
	return compose(title, sentenceOf(d.Condition)+d.words(), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		height, paintHead := head.place(width)
		paints := []func(draw.Canvas, vg.Length){paintHead}
		starts := []vg.Length{0}
		for _, b := range blocks {
			f := newForest(b.rows, nil, "difference, "+or(b.unit, "pure number"), width-2*edge, d.zero(b))
			f.unit = b.unit
			paints = append(paints, func(c draw.Canvas, y vg.Length) { f.paint(c, edge, y) })
			starts = append(starts, height)
			height += f.height() + edge
		}
		return height, func(c draw.Canvas) {
			for i, paint := range paints {
				paint(c, c.Max.Y-starts[i])
			}
		}
	})
}

func (d LevelDifferencesData) zero(b differenceBlock) *zeroLine {
	base := or(d.Baseline, "the baseline")
	return &zeroLine{less: "less than " + base, more: "more than " + base, say: func(r Row, i Interval) string {
		return i.signedWords(b.decimals[r.Group+"\n"+r.Label])
	}}
}

// differenceBlock is the rows that share a unit and therefore an axis.
type differenceBlock struct {
	unit     string
	rows     []Row
	decimals map[string]int // by group and label: each quantity has its own
}

// blocks sorts the rows by unit, units in order of appearance. Where every quantity has one row only, its name
// stands beside the row; else it heads the levels.
func (d LevelDifferencesData) blocks() []differenceBlock {
	single := d.single() != ""
	var out []differenceBlock
	at := map[string]int{}
	for _, q := range d.Quantities {
		unit := unitWords(q.Unit)
		if _, seen := at[unit]; !seen {
			at[unit] = len(out)
			out = append(out, differenceBlock{unit: unit, decimals: map[string]int{}})
		}
		b := &out[at[unit]]
		for _, r := range q.Rows {
			r.Group = capital(q.Quantity)
			if single {
				r.Group, r.Label = "", q.Quantity
			}
			b.rows = append(b.rows, r)
			b.decimals[r.Group+"\n"+r.Label] = q.decimals()
		}
	}
	return out
}

// single is the level that all rows show when there is only one, else empty.
func (d LevelDifferencesData) single() string {
	level := ""
	for _, q := range d.Quantities {
		if len(q.Rows) != 1 || (level != "" && q.Rows[0].Label != level) {
			return ""
		}
		level = q.Rows[0].Label
	}
	return level
}

// words says every difference and whether its interval holds zero.
func (d LevelDifferencesData) words() string {
	var b strings.Builder
	for _, q := range d.Quantities {
		for _, r := range q.Rows {
			i, origin, found := r.best()
			name := strings.Trim(q.Quantity+", "+r.Label, ", ")
			if !found {
				fmt.Fprintf(&b, "%s: no data. ", name)
				continue
			}
			fmt.Fprintf(&b, "%s: %s %s%s, %s. ", name, origin, i.signedWords(q.decimals()), unitAfter(q.Unit), d.side(i))
		}
	}
	return strings.TrimSpace(b.String())
}

// decimals are those that the narrowest interval of the quantity needs.
func (q QuantityDifference) decimals() int {
	var all []Interval
	for _, r := range q.Rows {
		all = append(all, r.intervals()...)
	}
	return decimalsFor(all)
}

// side tells on which side of the baseline a whole interval lies.
func (d LevelDifferencesData) side(i Interval) string {
	base := or(d.Baseline, "the baseline")
	switch {
	case !i.determined():
		return "no comparison"
	case i.Low > 0:
		return "more than " + base
	case i.High < 0:
		return "less than " + base
	}
	return "no difference shown"
}
