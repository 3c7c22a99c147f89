package reduce

import (
	"math"
	"slices"

	"wingproof/flightlog"
)

// repeatsFor is the time [s] over which equal values in a row are taken as one reading that was written again: longer than the
// slowest airspeed tube takes. Common practice, no source.
const repeatsFor = 0.3

// readings leaves out rows that repeat the value of the row before, so that a reading is not held to its next one. Where it is
// rounding that makes them equal, what is left differs by less than the rounding.
func readings(c flightlog.Channel) flightlog.Channel {
	repeated := false
	for i := 1; i < len(c.Value) && !repeated; i++ {
		repeated = c.Value[i] == c.Value[i-1]
	}
	if !repeated {
		return c
	}
	var out flightlog.Channel
	for i, v := range c.Value {
		n := len(out.Time)
		if n == 0 || v != out.Value[n-1] || c.Time[i]-out.Time[n-1] >= repeatsFor {
			out.Time, out.Value = append(out.Time, c.Time[i]), append(out.Value, v)
		}
	}
	return out
}

// between gives the samples from one time to another; the slices are those of the channel.
func between(c flightlog.Channel, start, end float64) flightlog.Channel {
	i, _ := slices.BinarySearch(c.Time, start)
	j, _ := slices.BinarySearch(c.Time, end)
	return flightlog.Channel{Time: c.Time[i:j], Value: c.Value[i:j]}
}

// reader reads a channel of one sample or more at rising times; level beyond its ends.
type reader struct {
	flightlog.Channel
	place int // of the last sample not after the last time asked for; −1 before the first
}

// seek puts place at the last sample not after t.
func (l *reader) seek(t float64) int {
	if l.place < 0 || l.place >= len(l.Time) || l.Time[l.place] > t {
		l.place, _ = slices.BinarySearch(l.Time, t)
		l.place--
	}
	for l.place+1 < len(l.Time) && l.Time[l.place+1] <= t {
		l.place++
	}
	return l.place
}

// distance is that between the samples about t, from the nearest one beyond the ends; 0 on a sample.
func (l *reader) distance(t float64) float64 {
	const on = 1e-6 // s of rounding
	k := l.seek(t)
	switch {
	case k < 0:
		return l.Time[0] - t
	case t-l.Time[k] <= on:
		return 0
	case k+1 < len(l.Time):
		return l.Time[k+1] - l.Time[k]
	}
	return t - l.Time[k]
}

// straight is the value on the straight line between the samples about t.
func (l *reader) straight(t float64) float64 {
	k := l.seek(t)
	switch {
	case k < 0:
		return l.Value[0]
	case k+1 >= len(l.Time):
		return l.Value[len(l.Value)-1]
	}
	share := (t - l.Time[k]) / (l.Time[k+1] - l.Time[k])
	return l.Value[k] + share*(l.Value[k+1]-l.Value[k])
}

// smooth is the value at t of the cubic through the two samples on either side (Lagrange): half way between samples it keeps 99.9 % of
// a motion of an eighth of their rate, where a straight line keeps 92 %. Where samples are far from regular it is the straight line.
func (l *reader) smooth(t float64) float64 {
	const uneven = 2.5
	k := l.seek(t)
	if k < 1 || k+2 >= len(l.Time) || t == l.Time[k] {
		return l.straight(t)
	}
	x, y := l.Time[k-1:k+3], l.Value[k-1:k+3]
	inner := x[2] - x[1]
	if x[1]-x[0] > uneven*inner || x[3]-x[2] > uneven*inner || inner > uneven*math.Min(x[1]-x[0], x[3]-x[2]) {
		return l.straight(t)
	}
	sum := 0.0
	for i := range 4 {
		w := 1.0
		for j := range 4 {
			if i != j {
				w *= (t - x[j]) / (x[i] - x[j])
			}
		}
		sum += w * y[i]
	}
	return sum
}
