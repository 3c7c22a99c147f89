package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// A sample is a spike when it stands off the median of itself and its two neighbours on each side by twelve
// times the usual such distance, and by more than a model can do between samples.
const spikeRatio = 12

// leastSpike is the smallest jump that counts, in SI; 0 for quantities that may jump.
func leastSpike(q flightlog.Quantity) float64 {
	switch q {
	case flightlog.Heading, flightlog.GroundTrack, flightlog.RollAngle: // these jump where the circle closes
		return 0
	}
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

// Spikes gives the places of samples that stand off their neighbours further than the model can move, in
// rising order. Controls that are logged as commands may jump and stay there; only a jump and return counts.
func Spikes(q flightlog.Quantity, c flightlog.Channel) []int {
	least := leastSpike(q)
	n := len(c.Value)
	if least == 0 || n < 5 {
		return nil
	}
	off := make([]float64, n)
	for i := range off {
		lo := min(max(i-2, 0), n-5)
		off[i] = math.Abs(c.Value[i] - medianOfFive(c.Value[lo:lo+5]))
	}
	limit := math.Max(least, spikeRatio*1.4826*statistic.Median(off))
	var out []int
	for i, d := range off {
		if d > limit {
			out = append(out, i)
		}
	}
	return out
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

func spikeFinding(q flightlog.Quantity, c flightlog.Channel) []flightlog.Finding {
	places := Spikes(q, c)
	if len(places) == 0 {
		return nil
	}
	first, last := places[0], places[len(places)-1]
	count := fmt.Sprintf("%d samples stand", len(places))
	if len(places) == 1 {
		count = "one sample stands"
	}
	return []flightlog.Finding{{Severity: flightlog.Note, Channel: q, Start: c.Time[first], End: c.Time[last],
		What:        fmt.Sprintf("%s off the neighbours further than the model can move (first: %.4g)", count, c.Value[first]),
		Consequence: "these samples are left out of test points"}}
}
