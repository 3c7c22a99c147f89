package plots

import (
	"fmt"
)

// Row is one line of judged numbers: what was measured, what theory predicts and what follows for full
// size. A nil interval is not drawn.
type Row struct {
	Group     string // rows of one group stand under one heading; may be empty
	Label     string
	Measured  *Interval
	Predicted *Interval
	Anchored  *Interval
	Sample    Sample // what measured and anchored rest on
}

func (r Row) intervals() []Interval {
	var out []Interval
	for _, i := range []*Interval{r.Measured, r.Predicted, r.Anchored} {
		if i != nil {
			out = append(out, *i)
		}
	}
	return out
}

func (r Row) check() error {
	for _, i := range r.intervals() {
		if err := i.check(); err != nil {
			return fmt.Errorf("%s, %s: %w", r.Group, r.Label, err)
		}
	}
	return nil
}

// best is the interval that a reader should judge by: anchored, else measured, else predicted.
func (r Row) best() (Interval, string, bool) {
	switch {
	case r.Anchored != nil:
		return *r.Anchored, "anchored", true
	case r.Measured != nil:
		return *r.Measured, "measured", true
	case r.Predicted != nil:
		return *r.Predicted, "predicted", true
	}
	return Interval{}, "", false
}

// marks pairs the intervals with their looks, in drawing order.
func (r Row) marks() (looks []mark, intervals []Interval) {
	add := func(m mark, i *Interval) {
		if i != nil {
			looks, intervals = append(looks, m), append(intervals, *i)
		}
	}
	add(measuredMark(), r.Measured)
	add(predictedMark(), r.Predicted)
	add(anchoredMark(), r.Anchored)
	return looks, intervals
}

// origins names the intervals of marks; what rests on flights says how many.
func (r Row) origins() (names, samples []string) {
	add := func(i *Interval, name, sample string) {
		if i != nil {
			names, samples = append(names, name), append(samples, sample)
		}
	}
	add(r.Measured, "measured", r.Sample.words())
	add(r.Predicted, "predicted", "")
	add(r.Anchored, "anchored", r.Sample.words())
	return names, samples
}
