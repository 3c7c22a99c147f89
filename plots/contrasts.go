package plots

import (
	"fmt"
	"math"

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
	Words    string // says the baseline where it has no number, which leaves no room to take shares of; Baseline is then not looked at
	Holds    string // how surely the baseline keeps it, in words; may be empty
	Levels   []ContrastLevel
}

// ContrastLevel is one level. Difference is level less baseline, in the unit of the limit, with the interval of the difference itself.
type ContrastLevel struct {
	Level      string
	Difference Interval
	Words      string // says the level where it or the baseline has no number, in the place of a bar; Difference is then not looked at
	Holds      string // how surely the level keeps the limit; may be empty
}

// Contrasts draws the differences of each level to the baseline, limit by limit, in percent of the room that the baseline has to the limit: to
// the right of the line of no difference what gains room, to the left what costs room, and at −100 % all of it is gone. The numbers beside
// stand in the limit's own unit. What has no number stands in words.
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
	if !finite(l.Baseline) && l.Words == "" || !finite(l.Bound.Value) {
		return fmt.Errorf("baseline %g, limit %g; want finite numbers", l.Baseline, l.Bound.Value)
	}
	for _, level := range l.Levels {
		if level.inWords(l) {
			continue
		}
		if err := level.Difference.check(); err != nil {
			return fmt.Errorf("%s: %w", level.Level, err)
		}
	}
	return nil
}

// inWords tells whether a level stands in words. Against a baseline without a number no other can.
func (level ContrastLevel) inWords(l ContrastLimit) bool { return level.Words != "" || l.Words != "" }

// bars are the differences that are drawn.
func (l ContrastLimit) bars() []Interval {
	var out []Interval
	for _, level := range l.Levels {
		if !level.inWords(l) {
			out = append(out, level.Difference)
		}
	}
	return out
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
	for _, bar := range l.bars() {
		if finite(bar.Value) {
			most = math.Max(most, math.Abs(bar.Value))
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
		if l.Words != "" {
			continue
		}
		s.add(1.06 * l.atLimit())
		for _, bar := range l.bars() {
			i := l.share(bar)
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

func (l ContrastLimit) decimals() int { return decimalsFor(l.bars()) }
