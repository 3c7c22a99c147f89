package reduce

import (
	"math"
	"slices"
	"sort"

	"wingproof/flightlog"
	"wingproof/flightlog/quality"
)

// grid is the recording low-passed onto instants gridStep apart. A missing sample is NaN.
type grid struct {
	start  float64
	n      int
	series map[flightlog.Quantity][]float64
	clean  map[flightlog.Quantity]flightlog.Channel // without spikes, on their own time bases
	width  float64                                  // s, of the Gaussian
}

func (g *grid) time(i int) float64 { return g.start + float64(i)*gridStep }

// get is a quantity's series; nil when the recording lacks it.
func (g *grid) get(q flightlog.Quantity) []float64 { return g.series[q] }

// newGrid low-passes every channel of two samples or more with one Gaussian over the span that the needed channels
// share. Spikes are left out.
func newGrid(rec *flightlog.Recording, needed []flightlog.Quantity) *grid {
	width := lowPass
	start, end := math.Inf(-1), math.Inf(1)
	for _, q := range needed {
		c := rec.Channels[q]
		width = math.Max(width, perSample*c.Step())
		start, end = math.Max(start, c.Time[0]), math.Min(end, c.Time[len(c.Time)-1])
	}
	g := &grid{start: start, series: map[flightlog.Quantity][]float64{}, clean: map[flightlog.Quantity]flightlog.Channel{}, width: width}
	if end > start {
		g.n = int((end-start)/gridStep) + 1
	}
	var smooth []flightlog.Quantity
	for _, q := range flightlog.Quantities() {
		c, ok := rec.Channels[q]
		if !ok || len(c.Time) < 2 {
			continue
		}
		c = c.Without(quality.Spikes(q, c))
		g.clean[q] = c
		switch q {
		case flightlog.AirTemperature:
			g.series[q] = g.interpolate(c)
		default:
			smooth = append(smooth, q)
		}
	}
	g.smoothTogether(smooth)
	return g
}

// smoothTogether smooths clean channels, those at once that have the same times.
func (g *grid) smoothTogether(quantities []flightlog.Quantity) {
	for len(quantities) > 0 {
		first := g.clean[quantities[0]]
		time, alike, values := first.Time, quantities[:1:1], [][]float64{first.Value}
		var others []flightlog.Quantity
		for _, q := range quantities[1:] {
			if c := g.clean[q]; slices.Equal(c.Time, time) {
				alike, values = append(alike, q), append(values, c.Value)
			} else {
				others = append(others, q)
			}
		}
		for k, series := range g.smoothAt(time, values, g.width, 0, g.n) {
			g.series[alike[k]] = series
		}
		quantities = others
	}
}

// smoothOver is a locally straight fit under a Gaussian weight at the instants of the grid from one index up to another: it follows a ramp
// without lag, takes any time base as it is, and is NaN where no sample lies within two widths.
func (g *grid) smoothOver(c flightlog.Channel, width float64, from, to int) []float64 {
	return g.smoothAt(c.Time, [][]float64{c.Value}, width, from, to)[0]
}

// smoothAt is the same for channels that share their times, and with them the weights.
func (g *grid) smoothAt(times []float64, values [][]float64, width float64, from, to int) [][]float64 {
	out := make([][]float64, len(values))
	for c := range out {
		out[c] = make([]float64, to-from)
	}
	var f localFit
	first := 0
	for i := range to - from {
		t := g.time(from + i)
		for first < len(times) && times[first] < t-3*width {
			first++
		}
		f.weigh(times[first:], t, width)
		for c, v := range values {
			out[c][i] = f.at(v[first:])
		}
	}
	return out
}

// interpolate is for temperature, which changes slowly and may be logged once in many seconds.
func (g *grid) interpolate(c flightlog.Channel) []float64 {
	out := make([]float64, g.n)
	for i := range out {
		t := g.time(i)
		k := sort.SearchFloat64s(c.Time, t)
		switch {
		case k == 0:
			out[i] = c.Value[0]
		case k == len(c.Time):
			out[i] = c.Value[k-1]
		default:
			a, b := c.Time[k-1], c.Time[k]
			out[i] = c.Value[k-1] + (c.Value[k]-c.Value[k-1])*(t-a)/(b-a)
		}
	}
	return out
}
