package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ContrastsData is what each level of a choice costs and gains at every limit, against the baseline.
type ContrastsData struct {
	Title    string // empty: "CHOICE at full size: what each size costs and gains"
	Note     string
	Choice   string
	Baseline string // level
	Limits   []ContrastLimit
}

// ContrastLimit is one limit: the baseline's number, and the difference that each other level makes to it.
type ContrastLimit struct {
	Name     string
	Unit     string // "-" and "" are pure numbers
	Bound    Limit  // its name is not used
	Baseline float64
	Holds    string // how surely the baseline keeps it, in words; may be empty
	Levels   []ContrastLevel
}

// ContrastLevel is one level. Difference is level less baseline, in the unit of the limit, with the interval of the difference itself.
type ContrastLevel struct {
	Level      string
	Difference Interval
	Holds      string // how surely the level keeps the limit; may be empty
}

// Contrasts draws the differences of each level to the baseline, limit by limit, in percent of the room that the baseline has to the limit: to
// the right of the line of no difference what gains room, to the left what costs room, and at −100 % all of it is gone. The numbers beside
// stand in the limit's own unit.
//
// It returns ErrNoData without limits or with a limit that has no levels.
func Contrasts(d ContrastsData) (Figure, error) {
	title := or(d.Title, capital(or(d.Choice, "the choice"))+" at full size: what each size costs and gains")
	if len(d.Limits) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	for _, l := range d.Limits {
		if err := l.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, l.Name, err)
		}
	}
	head := header{title: title, note: d.Note, key: []keyEntry{intervalKey("difference to "+or(d.Baseline, "the baseline")+", 95 % interval", anchoredMark()), limitKey("limit, hatched side not allowed")}}
	return compose(title, d.words(), func(width vg.Length) (vg.Length, func(draw.Canvas)) {
		height, paintHead := head.place(width)
		paints, starts := []func(draw.Canvas, vg.Length){paintHead}, []vg.Length{0}
		for i, l := range d.Limits {
			b := newContrastBlock(d, l, width)
			b.first, b.last = i == 0, i == len(d.Limits)-1
			paints, starts = append(paints, b.paint), append(starts, height)
			height += b.height()
		}
		return height + edge, func(c draw.Canvas) {
			for i, paint := range paints {
				paint(c, c.Max.Y-starts[i])
			}
		}
	})
}

func (l ContrastLimit) check() error {
	if len(l.Levels) == 0 {
		return ErrNoData
	}
	if !finite(l.Baseline) || !finite(l.Bound.Value) {
		return fmt.Errorf("baseline %g, limit %g; want finite numbers", l.Baseline, l.Bound.Value)
	}
	for _, level := range l.Levels {
		if err := level.Difference.check(); err != nil {
			return fmt.Errorf("%s: %w", level.Level, err)
		}
	}
	return nil
}

// gains turns a difference into the room that it gains: a number that may not fall gains by rising.
func (l ContrastLimit) gains(i Interval) Interval {
	if l.Bound.AtLeast {
		return i
	}
	return Interval{Value: -i.Value, Low: -i.High, High: -i.Low}
}

// room is how far the baseline lies inside the limit; negative outside.
func (l ContrastLimit) room() float64 {
	if l.Bound.AtLeast {
		return l.Baseline - l.Bound.Value
	}
	return l.Bound.Value - l.Baseline
}

// share is a difference as a part of the baseline's room, gains above zero; of a baseline outside its limit, as a part of how far it lies
// outside. Where the baseline stands on its limit, a ten-thousandth of the largest difference stands for the room.
func (l ContrastLimit) share(i Interval) Interval {
	return l.gains(i).scaled(100 / l.measure())
}

func (l ContrastLimit) measure() float64 {
	most := 1e-9
	for _, level := range l.Levels {
		if v := level.Difference.Value; finite(v) {
			most = math.Max(most, math.Abs(v))
		}
	}
	return math.Max(math.Abs(l.room()), 1e-4*most)
}

// atLimit is where the limit stands among the shares, percent.
func (l ContrastLimit) atLimit() float64 { return -100 * l.room() / l.measure() }

// axis holds the limit, and the shares of all levels as far as three times the room to either side; what lies beyond is an arrow.
func (d ContrastsData) axis(width vg.Length) axis {
	const far = 300
	s := span{-110, 60}
	for _, l := range d.Limits {
		s.add(1.06 * l.atLimit())
		for _, level := range l.Levels {
			i := l.share(level.Difference)
			for _, v := range []float64{i.Low, i.Value, i.High} {
				if finite(v) {
					s.add(math.Max(-far, math.Min(far, 1.03*v)))
				}
			}
		}
	}
	a := niceAxis("difference in % of the room that "+or(d.Baseline, "the baseline")+" has to the limit", s, max(3, int(width/55)))
	for i := range a.ticks {
		a.ticks[i].Label = signed(a.ticks[i].Value, a.decimals)
	}
	return exact(a, s)
}

func (l ContrastLimit) decimals() int {
	var all []Interval
	for _, level := range l.Levels {
		all = append(all, level.Difference)
	}
	return decimalsFor(all)
}

// heading says the baseline's number and how much room it leaves.
func (l ContrastLimit) heading(baseline string) string {
	decimals, unit := l.decimals(), unitAfter(l.Unit)
	s := fmt.Sprintf("%s: %s%s", or(baseline, "baseline"), number(l.Baseline, decimals), unit)
	if room := l.room(); room >= 0 {
		s += fmt.Sprintf(", room %s to the limit, %s", number(room, decimals), l.Bound.bound())
	} else {
		s += fmt.Sprintf(", %s beyond the limit, %s", number(-room, decimals), l.Bound.bound())
	}
	if l.Holds != "" {
		s += "; " + l.Holds
	}
	return s
}

// say is the number of a level as it is printed.
func (l ContrastLimit) say(level ContrastLevel) string {
	s := level.Difference.signedWords(l.decimals())
	if level.Holds != "" {
		s += "; " + level.Holds
	}
	return s
}

// words says which level costs most, and then every difference.
func (d ContrastsData) words() string {
	var b strings.Builder
	worst, cost, at := "", 0.0, ""
	for _, l := range d.Limits {
		for _, level := range l.Levels {
			if share := -l.gains(level.Difference).Value / math.Max(l.room(), 1e-12); l.room() > 0 && share > cost {
				worst, cost, at = level.Level, share, l.Name
			}
		}
	}
	if worst != "" {
		fmt.Fprintf(&b, "%s costs most at %s: %s %% of the room that %s has. ", capital(worst), at, number(100*cost, 0), or(d.Baseline, "the baseline"))
	}
	b.WriteString(sentenceOf(d.Note))
	for _, l := range d.Limits {
		fmt.Fprintf(&b, "%s, %s. ", capital(l.Name), l.heading(d.Baseline))
		for _, level := range l.Levels {
			fmt.Fprintf(&b, "%s: %s%s, %s", level.Level, level.Difference.signedWords(l.decimals()), unitAfter(l.Unit), l.side(level.Difference))
			if level.Holds != "" {
				b.WriteString("; limit kept " + level.Holds)
			}
			b.WriteString(". ")
		}
	}
	return strings.TrimSpace(b.String())
}

// side tells what a whole interval does to the room.
func (l ContrastLimit) side(i Interval) string {
	switch g := l.gains(i); {
	case !i.determined():
		return "no comparison"
	case g.Low > 0:
		return "gains room"
	case g.High < 0:
		return "costs room"
	}
	return "no difference shown"
}
