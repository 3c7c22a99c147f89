package plots

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ErrNoData is returned, wrapped, when a figure would have nothing to show.
var ErrNoData = errors.New("no data to draw")

// Interval is a value with the bounds of its 95 % interval, in the unit that the figure states.
//
// Value NaN means "not determined"; Low −Inf or High +Inf means that the interval has no end there.
type Interval struct{ Value, Low, High float64 }

// NotDetermined is the interval that knows nothing.
func NotDetermined() Interval {
	return Interval{Value: math.NaN(), Low: math.Inf(-1), High: math.Inf(1)}
}

// Bounded tells whether both ends are finite.
func (i Interval) Bounded() bool { return finite(i.Low) && finite(i.High) }

func (i Interval) determined() bool { return !math.IsNaN(i.Value) }

func (i Interval) scaled(k float64) Interval {
	return Interval{Value: k * i.Value, Low: k * i.Low, High: k * i.High}
}

func (i Interval) check() error {
	switch {
	case math.IsInf(i.Value, 0):
		return fmt.Errorf("value %g; want a number, or NaN for not determined", i.Value)
	case math.IsNaN(i.Low) || math.IsNaN(i.High):
		return errors.New("a bound is NaN; want a number, or an infinity for no end")
	case i.Low > i.High:
		return fmt.Errorf("low %g lies above high %g; want low ≤ high", i.Low, i.High)
	case i.determined() && (i.Value < i.Low || i.Value > i.High):
		return fmt.Errorf("value %g lies outside %g to %g; want it inside its own interval", i.Value, i.Low, i.High)
	}
	return nil
}

// words writes the interval as "7.2 (5.9 to 8.6)". A value that is its own interval has no stated error.
func (i Interval) words(decimals int) string {
	return i.wordsBy(func(x float64) string { return number(x, decimals) })
}

// signedWords is words with a sign before every number, for differences.
func (i Interval) signedWords(decimals int) string {
	return i.wordsBy(func(x float64) string { return signed(x, decimals) })
}

func (i Interval) wordsBy(write func(float64) string) string {
	if !i.determined() {
		return "not determined"
	}
	value := write(i.Value)
	switch low, high := finite(i.Low), finite(i.High); {
	case low && high && i.Low == i.High:
		return value + " (no error stated)"
	case low && high:
		return fmt.Sprintf("%s (%s to %s)", value, write(i.Low), write(i.High))
	case low:
		return fmt.Sprintf("%s (above %s)", value, write(i.Low))
	case high:
		return fmt.Sprintf("%s (below %s)", value, write(i.High))
	}
	return value + " (no bounds)"
}

// Limit is a requirement: a value must not lie below it (AtLeast) or not above it.
type Limit struct {
	Name    string
	Value   float64
	AtLeast bool
}

func (l Limit) words(decimals int) string {
	relation := "at most "
	if l.AtLeast {
		relation = "at least "
	}
	return strings.TrimSpace(l.Name + ": " + relation + number(l.Value, decimals))
}

// outcome is what a limit makes of a whole interval.
type outcome int

const (
	keeps outcome = iota
	crosses
	breaks
)

// of compares a whole interval with the limit.
func (l Limit) of(i Interval) outcome {
	low, high := i.Low-l.Value, i.High-l.Value
	if !l.AtLeast {
		low, high = l.Value-i.High, l.Value-i.Low
	}
	switch {
	case low >= 0:
		return keeps
	case high < 0:
		return breaks
	}
	return crosses
}

// worstVerdict is the worst that any of the limits makes of an interval.
func worstVerdict(i Interval, limits []Limit) outcome {
	worst := keeps
	for _, l := range limits {
		worst = max(worst, l.of(i))
	}
	return worst
}

// verdict says in words what the limit makes of an interval.
func (l Limit) verdict(i Interval) string {
	if !i.determined() {
		return "not determined"
	}
	return []string{"the whole interval keeps the limit", "the interval crosses the limit", "the whole interval breaks the limit"}[l.of(i)]
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// number writes x with a true minus sign and no negative zero.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// signed is number with a plus before what is above zero as written.
func signed(x float64, decimals int) string {
	s := number(x, decimals)
	if strings.HasPrefix(s, "−") || strings.Trim(s, "0.") == "" {
		return s
	}
	return "+" + s
}

// decimalsFor picks the decimals that show the narrowest bounded interval to about two figures, or bare
// values to about three.
func decimalsFor(intervals []Interval) int {
	narrowest := math.Inf(1)
	for _, i := range intervals {
		if width := i.High - i.Low; finite(width) && width > 0 {
			narrowest = math.Min(narrowest, width)
		}
	}
	if math.IsInf(narrowest, 1) {
		return decimalsForBare(intervals)
	}
	return int(math.Max(0, math.Min(6, math.Ceil(0.99-math.Log10(narrowest)))))
}

func decimalsForBare(intervals []Interval) int {
	largest := 0.0
	for _, i := range intervals {
		if finite(i.Value) {
			largest = math.Max(largest, math.Abs(i.Value))
		}
	}
	if largest == 0 {
		return 2
	}
	return int(math.Max(0, math.Min(6, math.Ceil(1.99-math.Log10(largest)))))
}

// checkSeries makes sure that slices share one length and hold finite numbers.
func checkSeries(what string, series ...[]float64) error {
	for _, s := range series {
		if len(s) != len(series[0]) {
			return fmt.Errorf("%s: slices of length %d and %d; want one length", what, len(series[0]), len(s))
		}
		for i, v := range s {
			if !finite(v) {
				return fmt.Errorf("%s: number %d is %g; want a finite number", what, i+1, v)
			}
		}
	}
	return nil
}

// Curve is a fitted or computed line with its 95 % band; Low and High nil draw the line alone.
type Curve struct{ X, Y, Low, High []float64 }

func (c Curve) check(what string) error {
	if c.Low == nil && c.High == nil {
		return checkSeries(what, c.X, c.Y)
	}
	if err := checkSeries(what, c.X, c.Y); err != nil {
		return err
	}
	if len(c.Low) != len(c.X) || len(c.High) != len(c.X) {
		return fmt.Errorf("%s: band of length %d and %d; want %d", what, len(c.Low), len(c.High), len(c.X))
	}
	for i := range c.Low {
		if math.IsNaN(c.Low[i]) || math.IsNaN(c.High[i]) || c.Low[i] > c.High[i] {
			return fmt.Errorf("%s: band at number %d runs from %g to %g; want low ≤ high", what, i+1, c.Low[i], c.High[i])
		}
	}
	return nil
}

// at is point i with its band; a line without band has no stated error.
func (c Curve) at(i int) Interval {
	if c.Low == nil {
		return Interval{c.Y[i], c.Y[i], c.Y[i]}
	}
	return Interval{c.Y[i], c.Low[i], c.High[i]}
}

func (c Curve) scaled(kx, ky float64) Curve {
	return Curve{X: times(c.X, kx), Y: times(c.Y, ky), Low: times(c.Low, ky), High: times(c.High, ky)}
}

func times(s []float64, k float64) []float64 {
	if s == nil {
		return nil
	}
	out := make([]float64, len(s))
	for i, v := range s {
		out[i] = k * v
	}
	return out
}
