package decide

import (
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
)

// trimCard names the centre of gravity that a trim flight lacks most: two when none was flown, else the
// end of the loadings' range that lies farther from those flown.
func (o *outcome) trimCard(c int) step {
	const pair, runs = "at two CGs", "over the speed range with the centre of gravity at "
	low, high, ok := o.trimRange(c)
	if !ok {
		return step{say: pair, full: "over the speed range at two centres of gravity"}
	}
	const caution = "; start forward and move aft in small steps"
	flown := o.flownCG(c)
	if len(flown) == 0 {
		return step{say: pair, full: runs + o.trimStation(low) + " and at " + o.trimStation(high) + caution}
	}
	if gap(low, flown) >= gap(high, flown) {
		return step{say: "with the CG forward", full: runs + o.trimStation(low)}
	}
	return step{say: "with the CG aft, in small steps", full: runs + o.trimStation(high) + caution}
}

// trimStation writes a CG at both sizes and in percent of the chord.
func (o *outcome) trimStation(x float64) string {
	text := station(x, o.problem.LengthRatio)
	if o.problem.Aircraft.MeanChord > 0 {
		text += fmt.Sprintf(", %.0f %% of the chord", o.problem.Aircraft.chordPercent(x))
	}
	return text
}

// gap is how far a CG lies from the nearest of those flown.
func gap(x float64, flown []float64) float64 {
	nearest := math.Inf(1)
	for _, cg := range flown {
		nearest = math.Min(nearest, math.Abs(x-cg))
	}
	return nearest
}

// What AftLimit keeps of the mean chord, before and after two flights agree, beside so many standard deviations.
const (
	FirstMargin  = 0.05
	ProvenMargin = 0.03
	Sureness     = 2.0
)

// AftLimit is the CG [m aft of datum] that nobody flies the model aft of: five percent of the chord ahead of the neutral point's lower
// two-sigma bound, three percent once two flights of the configuration agree with what is believed. Common practice, no source.
func AftLimit(neutralPoint, sd, chord float64, proven bool) float64 {
	margin := FirstMargin
	if proven {
		margin = ProvenMargin
	}
	return neutralPoint - Sureness*sd - margin*chord
}

// trimRange is the range of CGs to fly a configuration at: that of the loadings that fly, no farther aft than AftLimit, and then
// at least ten percent of the chord long, forward.
func (o *outcome) trimRange(c int) (low, high float64, ok bool) {
	low, high, ok = o.problem.Aircraft.flyingRange()
	q, chord := o.belief.theory.quantity(evidence.NeutralPoint), o.problem.Aircraft.MeanChord
	if !ok || q < 0 || !(chord > 0) {
		return low, high, ok
	}
	high = math.Min(high, o.aftLimit(q, c))
	return math.Min(low, high-0.1*chord), high, true
}

// aftLimit is that of one configuration; q is the neutral point among the beliefs.
func (o *outcome) aftLimit(q, c int) float64 {
	proven := len(o.belief.observed.flights(q, c)) >= 2 && o.belief.theory.inflation <= 1
	return AftLimit(o.belief.mean[q][c], o.belief.sd(q, c), o.problem.Aircraft.MeanChord, proven)
}

// flyingRange is the nominal range of CG stations over the loadings that fly.
func (a Aircraft) flyingRange() (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, l := range a.Loadings {
		if l.Flies && a.EmptyMass.Value > 0 {
			x := loaded(a.nominal(), l).x
			low, high, ok = math.Min(low, x), math.Max(high, x), true
		}
	}
	return low, high, ok
}

// flownCG lists the CGs at which a configuration has trim slopes.
func (o *outcome) flownCG(c int) []float64 {
	var flown []float64
	for _, row := range o.belief.observed.rows {
		if row.trim && row.config == c {
			flown = append(flown, row.cg)
		}
	}
	return flown
}
