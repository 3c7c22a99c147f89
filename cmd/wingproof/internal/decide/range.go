package decide

import (
	"encoding/json"
	"math"
)

// Range is a median with 95 %. A spiral that does not grow doubles in no time, and a speed may never be reached: such a number, and a bound
// that leaves it possible, is +Inf. In a difference −Inf says that the baseline alone has no number, and NaN that neither has one. As JSON all
// of these are null.
type Range struct {
	Median float64 `json:"median"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

// Endless tells whether the middle of the range has no number.
func (r Range) Endless() bool { return math.IsInf(r.Median, 1) }

// AlwaysEndless tells whether all of the range has none.
func (r Range) AlwaysEndless() bool { return math.IsInf(r.Low, 1) }

// Width is how far the range reaches, +Inf where it has no end.
func (r Range) Width() float64 {
	if math.IsInf(r.High, 1) || math.IsInf(r.Low, -1) {
		return math.Inf(1)
	}
	return r.High - r.Low
}

// Room is how many half widths of the range its middle lies inside a bound, below zero outside it. A median without a number is infinitely
// far from either bound; a range that has no end towards the bound has no half width in it.
func (r Range) Room(bound float64, binding string) float64 {
	room, half := r.Median-bound, r.Median-r.Low
	if binding == BindsAtMost {
		room, half = bound-r.Median, r.High-r.Median
	}
	switch {
	case math.IsInf(room, 0):
		return room
	case math.IsInf(half, 1):
		return 0
	}
	return room / math.Max(half, 1e-12)
}

// MarshalJSON writes null for what is no number.
func (r Range) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Median *float64 `json:"median"`
		Low    *float64 `json:"low"`
		High   *float64 `json:"high"`
	}{numberOrNil(r.Median), numberOrNil(r.Low), numberOrNil(r.High)})
}

func numberOrNil(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// Range is what is judged.
func (l LimitVerdict) Range() Range { return Range{Median: l.Median, Low: l.Low, High: l.High} }

// MarshalJSON writes null for what is no number.
func (l LimitVerdict) MarshalJSON() ([]byte, error) {
	type plain LimitVerdict
	return json.Marshal(struct {
		plain
		Median *float64 `json:"median"`
		Low    *float64 `json:"low"`
		High   *float64 `json:"high"`
	}{plain(l), numberOrNil(l.Median), numberOrNil(l.Low), numberOrNil(l.High)})
}

// rangeOf is the range of draws, which unending has been through.
func rangeOf(values []float64) Range {
	q := newQuantiles(values)
	return Range{Median: q.at(0.5), Low: q.at(0.025), High: q.at(0.975)}
}

// unending puts +Inf in the place of what stands for an endless time [s] or a speed never reached [m/s], which draws and bounds are counted
// with. Everything that leaves this package comes through here; other units come back as they are.
func unending(values []float64, unit string) []float64 {
	if unit != "s" && unit != "m/s" {
		return values
	}
	out := make([]float64, len(values))
	for i, v := range values {
		if out[i] = v; v >= endless {
			out[i] = math.Inf(1)
		}
	}
	return out
}

// differenceOf is what draws differ from those of a baseline by; here and there are the ranges of both. Draws in which neither has a number do not differ. Where one of the medians is
// no number, that of the difference is none either, whatever single draws say.
func differenceOf(values, against []float64, here, there Range) Range {
	difference := make([]float64, len(values))
	for i, v := range values {
		if difference[i] = v - against[i]; math.IsInf(v, 1) && math.IsInf(against[i], 1) {
			difference[i] = 0
		}
	}
	out := rangeOf(difference)
	switch {
	case here.Endless() && there.Endless():
		return Range{Median: math.NaN(), Low: math.Inf(-1), High: math.Inf(1)}
	case here.Endless():
		out.Median, out.High = math.Inf(1), math.Inf(1)
	case there.Endless():
		out.Median, out.Low = math.Inf(-1), math.Inf(-1)
	}
	return out
}
