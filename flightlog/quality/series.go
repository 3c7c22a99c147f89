package quality

import (
	"math"

	"wingproof/flightlog"
)

// cell is the step [s] of the time base on which channels are compared: a third of the quickest motion that a comparison
// needs (a roll-in of a third of a second), and as long as a usual air data sample.
const cell = 0.1

// series holds every channel as means over cells of one time base; a cell without samples is bridged when the channel is
// merely slow, NaN otherwise. Angles that close a circle run on without jumps.
type series struct {
	start  float64
	n      int
	values map[flightlog.Quantity][]float64
	flying []bool
}

// newSeries brings a recording onto cells. Samples at the places in skip, which rise, are left out.
func newSeries(rec *flightlog.Recording, scans map[flightlog.Quantity]scan, skip map[flightlog.Quantity][]int) *series {
	start, end := math.Inf(1), math.Inf(-1)
	for _, q := range flightlog.Quantities() {
		if c := rec.Channels[q]; len(c.Time) > 0 {
			start, end = math.Min(start, c.Time[0]), math.Max(end, c.Time[len(c.Time)-1])
		}
	}
	s := &series{start: start, values: map[flightlog.Quantity][]float64{}}
	if end > start {
		s.n = int((end-start)/cell) + 1
	}
	for _, q := range flightlog.Quantities() {
		if c := rec.Channels[q]; len(c.Time) > 1 && s.n > 0 {
			s.values[q] = s.cells(c, circles(q), scans[q].step, skip[q])
		}
	}
	return s
}

// circles tells whether an angle closes a circle in flight.
func circles(q flightlog.Quantity) bool {
	return q == flightlog.Heading || q == flightlog.GroundTrack || q == flightlog.RollAngle
}

// time is the middle of a cell.
func (s *series) time(i int) float64 { return s.start + (float64(i)+0.5)*cell }

// cells brings one channel onto the time base: averages of a fast one, straight lines between samples of a slow one.
func (s *series) cells(c flightlog.Channel, circle bool, step float64, skip []int) []float64 {
	c = c.Without(skip)
	value := c.Value
	if circle {
		value = unrolled(value)
	}
	if step > 0.8*cell {
		return s.between(c.Time, value, math.Max(0.3, 2.5*step))
	}
	sum, count := make([]float64, s.n), make([]int32, s.n)
	for i, v := range value {
		k := int((c.Time[i] - s.start) / cell)
		sum[k] += v
		count[k]++
	}
	for k := range sum {
		sum[k] /= float64(count[k]) // 0/0 is NaN: no sample
	}
	bridge(sum, int(math.Ceil(0.3/cell)))
	return sum
}

// between reads a slow channel at the middle of each cell, NaN in pauses that are longer than most.
func (s *series) between(time, value []float64, most float64) []float64 {
	out := missing(s.n)
	i := 0
	for k := range out {
		t := s.time(k)
		for i+1 < len(time) && time[i+1] <= t {
			i++
		}
		if i+1 < len(time) && time[i] <= t && time[i+1]-time[i] <= most {
			out[k] = value[i] + (value[i+1]-value[i])*(t-time[i])/(time[i+1]-time[i])
		}
	}
	return out
}

// bridge fills pauses of up to most cells with a straight line: a few samples lost are no gap.
func bridge(v []float64, most int) {
	last := -1
	for i := range v {
		if math.IsNaN(v[i]) {
			continue
		}
		if n := i - last; last >= 0 && n > 1 && n <= most {
			for k := last + 1; k < i; k++ {
				v[k] = v[last] + (v[i]-v[last])*float64(k-last)/float64(n)
			}
		}
		last = i
	}
}

// has tells whether a recording holds enough of the quantities to compare them.
func (s *series) has(qs ...flightlog.Quantity) bool {
	for _, q := range qs {
		if s.values[q] == nil {
			return false
		}
	}
	return true
}

// at is one cell of a quantity; NaN where it is missing.
func (s *series) at(q flightlog.Quantity, i int) float64 {
	if v := s.values[q]; v != nil {
		return v[i]
	}
	return math.NaN()
}

// blank takes the cells of a time range out.
func (s *series) blank(q flightlog.Quantity, from, to float64) {
	v := s.values[q]
	for i := max(0, int((from-s.start)/cell)); i < len(v) && s.start+float64(i)*cell <= to; i++ {
		v[i] = math.NaN()
	}
}

// scale multiplies a channel, to go on with what it should have been.
func (s *series) scale(q flightlog.Quantity, by float64) {
	for i := range s.values[q] {
		s.values[q][i] *= by
	}
}

// means are averages over blocks of k cells, NaN where half of the cells are missing.
func means(v []float64, k int) []float64 {
	out := make([]float64, len(v)/k)
	for b := range out {
		sum, n := 0.0, 0
		for _, x := range v[b*k : (b+1)*k] {
			if !math.IsNaN(x) {
				sum += x
				n++
			}
		}
		out[b] = math.NaN()
		if 2*n > k {
			out[b] = sum / float64(n)
		}
	}
	return out
}

// slopes is how fast block means change, from the blocks on either side; NaN at the ends.
func slopes(blocks []float64, k int) []float64 {
	out := make([]float64, len(blocks))
	for b := range out {
		out[b] = math.NaN()
		if b > 0 && b+1 < len(blocks) {
			out[b] = (blocks[b+1] - blocks[b-1]) / (2 * float64(k) * cell)
		}
	}
	return out
}

// softened weighs block means 1:2:1, as slopes sees the rate behind an angle.
func softened(blocks []float64) []float64 {
	out := make([]float64, len(blocks))
	for b := range out {
		out[b] = math.NaN()
		if b > 0 && b+1 < len(blocks) {
			out[b] = (blocks[b-1] + 2*blocks[b] + blocks[b+1]) / 4
		}
	}
	return out
}

// overall is the time range of a channel.
func overall(c flightlog.Channel) (start, end float64) {
	if len(c.Time) == 0 {
		return 0, 0
	}
	return c.Time[0], c.Time[len(c.Time)-1]
}

// missing is a channel without samples.
func missing(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.NaN()
	}
	return out
}
