package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// A sample is a spike when it stands off the median of itself and its two neighbours on each side by twelve
// times the usual such distance, and by more than a model can do between samples. (Common practice, no source;
// in normal noise twelve standard deviations never happen.)
const spikeRatio = 12

// leastSpike is the smallest jump that counts, in SI; 0 for quantities that may jump. Derived from what a model of some metres
// does within a tenth of a second, doubled.
func leastSpike(q flightlog.Quantity) float64 {
	switch q.Dimension() {
	case unit.AngularRate:
		return 1 // rad/s
	case unit.Acceleration:
		return 10 // m/s²
	case unit.Angle:
		return 0.35 // rad
	case unit.Speed:
		return 5 // m/s
	case unit.Pressure:
		return 100 // Pa, 8 m of height
	case unit.Length:
		return 8 // m
	case unit.Temperature:
		return 10 // K
	}
	return 0
}

// mayJump tells whether a channel may leave and come back within a few samples: a command of the pilot's does, and
// the track over the ground does at rest.
func mayJump(q flightlog.Quantity) bool {
	switch q {
	case flightlog.Throttle, flightlog.GroundTrack:
		return true
	}
	return false
}

// Spikes gives the places of samples that stand off their neighbours further than the model can move, in
// rising order. Controls that are logged as commands may jump and stay there; only a jump and return counts. Angles are
// compared round the circle.
func Spikes(q flightlog.Quantity, c flightlog.Channel) []int {
	least := leastSpike(q)
	n := len(c.Value)
	if least == 0 || n < 5 || mayJump(q) {
		return nil
	}
	values := c.Value
	if circles(q) {
		values = unrolled(values)
	}
	stride := max(1, n/mostSampled)
	usual := make([]float64, 0, mostSampled+1)
	for i := 0; i < n; i += stride {
		usual = append(usual, offNeighbours(values, i))
	}
	limit := math.Max(least, spikeRatio*1.4826*statistic.Median(usual)) // 1.4826: median to standard deviation of normal noise
	var out []int
	for i := range values {
		// two steps that are both small leave no room for a spike; most samples end here
		if i > 0 && i+1 < n && math.Abs(values[i]-values[i-1]) <= limit && math.Abs(values[i+1]-values[i]) <= limit {
			continue
		}
		if offNeighbours(values, i) > limit {
			out = append(out, i)
		}
	}
	return out
}

// unrolled takes the jumps out of an angle that closes a circle.
func unrolled(values []float64) []float64 {
	out := make([]float64, len(values))
	turns := 0.0
	for i, v := range values {
		if i > 0 {
			if d := v - values[i-1]; d > math.Pi || d < -math.Pi {
				turns -= 2 * math.Pi * math.Round(d/(2*math.Pi))
			}
		}
		out[i] = v + turns
	}
	return out
}

// offNeighbours is how far a sample stands off the median of five around it.
func offNeighbours(v []float64, i int) float64 {
	lo := min(max(i-2, 0), len(v)-5)
	return math.Abs(v[i] - medianOfFive(v[lo:lo+5]))
}

// medianOfFive is the median of five numbers.
func medianOfFive(v []float64) float64 {
	var s [5]float64
	copy(s[:], v)
	for i := 1; i < 5; i++ {
		for j := i; j > 0 && s[j] < s[j-1]; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
	return s[2]
}

// manySpikes is the share of samples from which on a channel is no longer good with single samples left out.
const manySpikes = 0.01

// noSpikes is the share from which on they are no spikes: the channel moves so, as one in another unit does. They are then not left out.
const noSpikes = 0.1

// isNoisy tells whether a channel has so many spikes.
func isNoisy(spikes int, c flightlog.Channel) bool {
	return float64(spikes) > manySpikes*float64(len(c.Value))
}

func spikeFinding(q flightlog.Quantity, c flightlog.Channel, places []int) []flightlog.Finding {
	if len(places) == 0 {
		return nil
	}
	first, last := places[0], places[len(places)-1]
	count := fmt.Sprintf("%d samples of the %s stand", len(places), plainName(q))
	if len(places) == 1 {
		count = fmt.Sprintf("one sample of the %s stands", plainName(q))
	}
	f := flightlog.Finding{Severity: flightlog.Note, Channel: q, Start: c.Time[first], End: c.Time[last],
		What:        fmt.Sprintf("%s off the neighbours further than the model can move (first: %.4g)", count, c.Value[first]),
		Consequence: "nothing is lost but these samples, which are left out"}
	if isNoisy(len(places), c) {
		f.Severity = flightlog.Loss
		f.Consequence = lost(q, f.Start, f.End) + "; look at the wiring of the sensor and at radio transmitters near it"
	}
	return []flightlog.Finding{f}
}
