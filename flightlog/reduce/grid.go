package reduce

import (
	"math"
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
			g.series[q] = g.smooth(c, width)
		}
	}
	return g
}

// smooth is a locally straight fit under a Gaussian weight at each instant of the grid: it follows a ramp without lag, takes
// any time base as it is, and is NaN where no sample lies within two widths.
func (g *grid) smooth(c flightlog.Channel, width float64) []float64 {
	return g.smoothOver(c, width, 0, g.n)
}

// smoothOver is the same for the instants from one index up to another.
func (g *grid) smoothOver(c flightlog.Channel, width float64, from, to int) []float64 {
	out := make([]float64, to-from)
	for i := range out {
		t := g.time(from + i)
		var s0, s1, s2, y0, y1 float64
		close := false
		for k := sort.SearchFloat64s(c.Time, t-3*width); k < len(c.Time) && c.Time[k] <= t+3*width; k++ {
			d := (c.Time[k] - t) / width
			w := math.Exp(-d * d / 2)
			s0, s1, s2 = s0+w, s1+w*d, s2+w*d*d
			y0, y1 = y0+w*c.Value[k], y1+w*d*c.Value[k]
			close = close || math.Abs(d) <= 2
		}
		determinant := s0*s2 - s1*s1
		switch {
		case !close:
			out[i] = math.NaN()
		case determinant > 0.05*s0*s0:
			out[i] = (s2*y0 - s1*y1) / determinant
		default:
			out[i] = y0 / s0
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
