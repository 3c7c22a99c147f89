package reconstruct

import (
	"fmt"
	"math"

	"wingproof/flightlog"
)

// Whiteness tells whether the innovations of one measurement, measured less expected from everything before, behave as the filter
// believes: white, and as large as their standard deviations say.
type Whiteness struct {
	Measurement string             `json:"measurement"`
	Channel     flightlog.Quantity `json:"channel"`
	Samples     int                `json:"samples"`
	LeftOut     int                `json:"left_out"`        // further off than five standard deviations
	Correlation float64            `json:"correlation"`     // of an innovation with the next
	Bound       float64            `json:"bound"`           // 95 % of white ones keep |Correlation| below
	MeanSquare  float64            `json:"mean_square"`     // of innovations over their standard deviations; 1 is right
	Low         float64            `json:"mean_square_low"` // 95 % band of it
	High        float64            `json:"mean_square_high"`
	Noise       float64            `json:"noise"` // sd of the measurement that the filter used, SI
	White       bool               `json:"white"`
	Consistent  bool               `json:"consistent"`
	Sentence    string             `json:"sentence,omitempty"` // what fails and what follows; empty when nothing does
}

// What is told as a finding: departures that are statistically sure are many in a long flight, these matter.
const (
	tellCorrelation = 0.35
	tellRatio       = 2.0
)

// whiteness judges a tally. For white innovations the correlation of n neighbours has the standard deviation 1/√n, and n times the mean
// square is χ² with n degrees of freedom, nearly normal with variance 2n. Bar-Shalom, Li & Kirubarajan, Estimation with
// Applications to Tracking and Navigation, ch. 5.4.
func (t *tally) whiteness(k kind, variance float64) Whiteness {
	if t.count == 0 {
		return Whiteness{Measurement: k.words(), Channel: k.quantity(), LeftOut: t.left, Noise: math.Sqrt(variance),
			Sentence: fmt.Sprintf("no sample of the %s is within five standard deviations of what the other channels expect", k.words())}
	}
	n, pairs := float64(t.count), math.Max(1, float64(t.pairs))
	const two = 1.96 // 95 % of a normal distribution
	w := Whiteness{Measurement: k.words(), Channel: k.quantity(), Samples: t.count, LeftOut: t.left,
		MeanSquare: t.squares / n, Correlation: t.products / pairs / (t.squares / n), Bound: two / math.Sqrt(pairs),
		Low: 1 - two*math.Sqrt(2/n), High: 1 + two*math.Sqrt(2/n), Noise: math.Sqrt(variance)}
	w.White = math.Abs(w.Correlation) <= w.Bound
	w.Consistent = w.MeanSquare >= w.Low && w.MeanSquare <= w.High
	switch {
	case !w.White && !w.Consistent:
		w.Sentence = fmt.Sprintf("the %s departs from what the other channels expect by %.2f times the expected scatter, and neighbours are alike (correlation %.2f, white is below %.2f): its standard deviation is not to be taken literally",
			w.Measurement, math.Sqrt(w.MeanSquare), w.Correlation, w.Bound)
	case !w.White:
		w.Sentence = fmt.Sprintf("neighbouring departures of the %s from what the other channels expect are alike (correlation %.2f, white is below %.2f): something slow in it is not understood", w.Measurement, w.Correlation, w.Bound)
	case !w.Consistent:
		w.Sentence = fmt.Sprintf("the %s departs from what the other channels expect by %.2f times the expected scatter", w.Measurement, math.Sqrt(w.MeanSquare))
	}
	return w
}

// matters tells whether the departure is large enough to be told as a finding.
func (w *Whiteness) matters() bool {
	return math.Abs(w.Correlation) > tellCorrelation && !w.White || !w.Consistent && (w.MeanSquare > tellRatio || w.MeanSquare < 1/tellRatio)
}
