package reduce

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog"
)

const (
	// fastestSegment is the highest rate [Hz] of a segment: the motion of a model is below 5 Hz, and a servo of 0.05 s below 10. Common practice,
	// no source.
	fastestSegment = 100.0
	// The low-pass ahead of thinning out: a sinc of this corner, in shares of the rate that is left, under a Hamming window of so many
	// of its samples to either side. It passes a fifth of that rate within a thousandth and stops the half of it. Window method of every
	// textbook of digital filters.
	cornerShare = 0.35
	kernelHalf  = 6
	// longestHole is the distance [s] between two readings that a straight line may not bridge, or so many of the channel's own steps;
	// those of package reconstruct.
	longestHole, holeSteps = 0.12, 3.5
)

// raster is a fine uniform grid at the rate of the gyros with a margin for the low-pass at both ends. Every every-th instant stays.
type raster struct {
	start  float64 // s, of the first instant that stays
	step   float64 // s, fine
	every  int
	n      int // instants that stay
	margin int // fine instants ahead of start and behind the last
}

// newRaster lays the raster on the readings of the gyros, so that regular readings need no interpolation.
func (s *sampler) newRaster(over span) raster {
	r := raster{start: over.start, step: s.gyroStep, every: max(1, int(math.Ceil(1/(fastestSegment*s.gyroStep)-0.05)))}
	if own := readings(between(s.rates[1], over.start, over.end)); len(own.Time) > 1 {
		r.start = own.Time[0]
	}
	r.margin = slopeHalf(r.step)
	if r.every > 1 {
		r.margin += kernelHalf * r.every
	}
	r.n = max(1, int((over.end-r.start)/(r.step*float64(r.every))+1e-6)+1)
	return r
}

// fine is the number of fine instants, margins included.
func (r raster) fine() int { return (r.n-1)*r.every + 1 + 2*r.margin }

// time of a fine instant.
func (r raster) time(i int) float64 { return r.start + float64(i-r.margin)*r.step }

// end is the time of the last instant that stays.
func (r raster) end() float64 { return r.start + float64((r.n-1)*r.every)*r.step }

// read interpolates a channel; why says that readings are missing.
func (r raster) read(c flightlog.Channel, q flightlog.Quantity) (out []float64, why string) {
	if len(c.Time) < 2 {
		return nil, fmt.Sprintf("%s has no samples there", strings.ReplaceAll(string(q), "_", " "))
	}
	hole := math.Max(longestHole, holeSteps*c.Step())
	l := reader{Channel: c}
	out = make([]float64, r.fine())
	for i := range out {
		t := r.time(i)
		if t >= r.start && t <= r.end() && l.distance(t) > hole {
			return nil, fmt.Sprintf("%s has no samples for %.2f s", strings.ReplaceAll(string(q), "_", " "), l.distance(t))
		}
		out[i] = l.smooth(t)
	}
	return out, ""
}

// path interpolates a series of the reconstructed path.
func (r raster) path(times, series []float64) []float64 {
	l := reader{Channel: flightlog.Channel{Time: times, Value: series}}
	out := make([]float64, r.fine())
	for i := range out {
		out[i] = l.smooth(r.time(i))
	}
	return out
}

// held reads a command as a servo gets it: the last one that was given. It is zero where nothing was recorded.
func (r raster) held(c flightlog.Channel) []float64 {
	const late = 0.5e-3 // s: what lies closer is taken as one instant
	out := make([]float64, r.fine())
	if len(c.Time) == 0 {
		return out
	}
	k, _ := slices.BinarySearch(c.Time, r.time(0))
	for i := range out {
		for k < len(c.Time) && c.Time[k] <= r.time(i)+late {
			k++
		}
		out[i] = c.Value[max(k-1, 0)]
	}
	return out
}

// reduced leaves the margins out and takes every every-th instant behind the low-pass; all of them as they are where none goes out.
func (r raster) reduced(fine []float64) []float64 {
	if r.every == 1 {
		return fine[r.margin : r.margin+r.n]
	}
	kernel := r.kernel()
	out := make([]float64, r.n)
	for i := range out {
		at := r.margin + i*r.every
		for k, w := range kernel {
			out[i] += w * fine[at+k-len(kernel)/2]
		}
	}
	return out
}

// kernel is the low-pass: symmetric, so without lag, and of unit gain for what does not change.
func (r raster) kernel() []float64 {
	half := kernelHalf * r.every
	out, sum := make([]float64, 2*half+1), 0.0
	for i := range out {
		x := float64(i-half) / float64(r.every) // in samples that stay
		w := 2 * cornerShare
		if i != half {
			w = math.Sin(2*math.Pi*cornerShare*x) / (math.Pi * x)
		}
		out[i] = w * (0.54 + 0.46*math.Cos(math.Pi*float64(i-half)/float64(half)))
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}
