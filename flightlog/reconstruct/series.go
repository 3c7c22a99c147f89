package reconstruct

import (
	"math"
	"sort"

	"wingproof/flightlog"
)

// absurd is beyond anything that a channel of a model can hold, in whatever SI unit: pressure at sea level is a tenth of it. What exceeds
// it is no measurement, and its square would drown everything else.
const absurd = 1e6

// clean leaves out samples that are no numbers, absurd, barred, or not later than the one before.
func clean(c flightlog.Channel, s Setup, qs ...flightlog.Quantity) flightlog.Channel {
	out := flightlog.Channel{Time: make([]float64, 0, len(c.Time)), Value: make([]float64, 0, len(c.Time))}
	last := math.Inf(-1)
	barred := s.barredFor(qs)
	for i, t := range c.Time {
		if !(t > last) || math.IsInf(t, 0) {
			continue
		}
		for len(barred) > 0 && barred[0].End < t {
			barred = barred[1:]
		}
		if math.Abs(c.Value[i]) <= absurd && (len(barred) == 0 || t < barred[0].Start) {
			out.Time, out.Value = append(out.Time, t), append(out.Value, c.Value[i])
			last = t
		}
	}
	return out
}

// unwrap removes the jumps of an angle that comes round.
func unwrap(c flightlog.Channel) flightlog.Channel {
	out := flightlog.Channel{Time: c.Time, Value: make([]float64, len(c.Value))}
	for i, v := range c.Value {
		if i > 0 {
			v = out.Value[i-1] + wrap(v-out.Value[i-1])
		}
		out.Value[i] = v
	}
	return out
}

// later shifts a channel by dt [s].
func later(c flightlog.Channel, dt float64) flightlog.Channel {
	out := flightlog.Channel{Time: make([]float64, len(c.Time)), Value: c.Value}
	for i, t := range c.Time {
		out.Time[i] = t + dt
	}
	return out
}

// thinned averages neighbours so that no more than about most samples a second stay; means over equal spans do not shift in time.
func thinned(c flightlog.Channel, most float64) flightlog.Channel {
	step := c.Step()
	block := int(math.Ceil(1/(most*step) - 0.1))
	if !(step > 0) || block < 2 {
		return c
	}
	var out flightlog.Channel
	for i := 0; i+block <= len(c.Time); {
		if c.Time[i+block-1]-c.Time[i] > 2*float64(block)*step { // no mean across a gap
			i++
			continue
		}
		var t, v float64
		for k := i; k < i+block; k++ {
			t += c.Time[k] / float64(block)
			v += c.Value[k] / float64(block)
		}
		out.Time, out.Value = append(out.Time, t), append(out.Value, v)
		i += block
	}
	return out
}

// line reads a channel as straight between its samples and level beyond its ends. Times asked for should rise: it remembers
// its place.
type line struct {
	flightlog.Channel
	area  []float64 // integral from the first sample to each; nil until asked for
	place int
	run   struct { // samples from first to last are no further apart than span
		first, last int
		span        float64
	}
}

func newLine(c flightlog.Channel) *line { return &line{Channel: c} }

// seek puts place at the last sample not after t; −1 before the first.
func (l *line) seek(t float64) int {
	n := len(l.Time)
	switch {
	case l.place < n && l.place >= 0 && l.Time[l.place] <= t && (l.place+1 == n || t < l.Time[l.place+1]):
	case l.place+2 < n && l.place >= -1 && l.Time[l.place+1] <= t && t < l.Time[l.place+2]:
		l.place++
	default:
		l.place = l.gallop(t)
	}
	return l.place
}

// gallop finds what seek does, with strides that double from where it stands: what is asked for next is mostly near.
func (l *line) gallop(t float64) int {
	n := len(l.Time)
	low, high := max(min(l.place, n-1), 0), n // the answer lies in [low−1, high)
	if low < n && l.Time[low] > t {
		low, high = 0, low
		for stride := 1; high-stride > 0; stride *= 2 {
			if l.Time[high-stride] <= t {
				low = high - stride
				break
			}
			high -= stride
		}
	} else {
		for stride := 1; low+stride < n; stride *= 2 {
			if l.Time[low+stride] > t {
				high = low + stride
				break
			}
			low += stride
		}
	}
	return low + sort.Search(high-low, func(i int) bool { return l.Time[low+i] > t }) - 1
}

// at is the value at t.
func (l *line) at(t float64) float64 { return l.read(l.seek(t), t) }

// read is the value at t behind the sample i.
func (l *line) read(i int, t float64) float64 {
	switch {
	case i < 0:
		return l.Value[0]
	case i+1 >= len(l.Time):
		return l.Value[len(l.Value)-1]
	}
	share := (t - l.Time[i]) / (l.Time[i+1] - l.Time[i])
	return l.Value[i] + share*(l.Value[i+1]-l.Value[i])
}

// near tells whether t lies between samples no further apart than span, or on one.
func (l *line) near(t, span float64) bool {
	i := l.seek(t)
	if i < 0 || i+1 >= len(l.Time) {
		return i >= 0 && i < len(l.Time) && t-l.Time[i] <= 1e-9
	}
	return l.Time[i+1]-l.Time[i] <= span || t == l.Time[i]
}

// whole tells whether no two samples about a stretch are further apart than span.
func (l *line) whole(start, end, span float64) bool {
	i := l.seek(start)
	return i >= 0 && l.Time[l.unbroken(i, span)] > end
}

// unbroken is the last sample up to which none is further than span from the one before, from a sample on. It remembers what it found, since what is
// asked for next mostly lies in the same stretch.
func (l *line) unbroken(i int, span float64) int {
	r := &l.run
	if r.span == span && r.first <= i && i <= r.last {
		return r.last
	}
	r.span, r.first, r.last = span, i, i
	for r.last+1 < len(l.Time) && !(l.Time[r.last+1]-l.Time[r.last] > span) {
		r.last++
	}
	return r.last
}

// integral is that of the line from its first sample to t.
func (l *line) integral(t float64) float64 { return l.integralBehind(l.seek(t), t) }

// integralBehind is the integral to t behind the sample i.
func (l *line) integralBehind(i int, t float64) float64 {
	if l.area == nil {
		l.area = make([]float64, len(l.Time))
		for i := 1; i < len(l.Time); i++ {
			l.area[i] = l.area[i-1] + (l.Time[i]-l.Time[i-1])*(l.Value[i]+l.Value[i-1])/2
		}
	}
	if i < 0 {
		return (t - l.Time[0]) * l.Value[0]
	}
	return l.area[i] + (t-l.Time[i])*(l.Value[i]+l.read(i, t))/2
}

// derivative is the slope of a parabola fitted by least squares over a span to either side of each sample: smooth, without lag.
func derivative(c flightlog.Channel, reach float64) flightlog.Channel {
	out := flightlog.Channel{Time: c.Time, Value: make([]float64, len(c.Time))}
	low, high := 0, 0
	for i, t := range c.Time {
		for c.Time[low] < t-reach {
			low++
		}
		for high < len(c.Time) && c.Time[high] <= t+reach {
			high++
		}
		out.Value[i] = parabolaSlope(c.Time[low:high], c.Value[low:high], t, reach)
	}
	return out
}

// parabolaSlope is b of v = a + b·(τ−t) + c·(τ−t)² by least squares; zero where there are fewer than three samples.
func parabolaSlope(time, value []float64, t, reach float64) float64 {
	var s [5]float64
	var y [3]float64
	for i := range time {
		d := (time[i] - t) / reach
		power := 1.0
		for k := range 5 {
			s[k] += power
			if k < 3 {
				y[k] += power * value[i]
			}
			power *= d
		}
	}
	minor := func(a, b, c, d float64) float64 { return a*d - b*c }
	det := s[0]*minor(s[2], s[3], s[3], s[4]) - s[1]*minor(s[1], s[3], s[2], s[4]) + s[2]*minor(s[1], s[2], s[2], s[3])
	if !(math.Abs(det) > 1e-9) {
		return 0
	}
	// Cramer's rule for b
	b := s[0]*minor(y[1], s[3], y[2], s[4]) - y[0]*minor(s[1], s[3], s[2], s[4]) + s[2]*minor(s[1], y[1], s[2], y[2])
	return b / det / reach
}
