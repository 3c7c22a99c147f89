package decide

import "math"

// noteWidths adds the width of every judged range.
func noteWidths(widths [][][]float64, v Verdict) [][][]float64 {
	if widths == nil {
		widths = make([][][]float64, len(v.Configurations))
		for c, config := range v.Configurations {
			widths[c] = make([][]float64, len(config.Limits))
		}
	}
	for c, config := range v.Configurations {
		for r, l := range config.Limits {
			widths[c][r] = append(widths[c][r], l.Range().Width())
		}
	}
	return widths
}

// open tells for every configuration and requirement of the board of now whether it is live, not reached, and has a range that can shrink.
func (f *forecast) open() [][]bool {
	open := make([][]bool, len(f.verdict.Configurations))
	for c, config := range f.verdict.Configurations {
		open[c] = make([]bool, len(config.Limits))
		for r, l := range config.Limits {
			now := l.Range().Width()
			open[c][r] = config.Live && now > 0 && !math.IsInf(now, 1) && !reached(l.Probability, defaultDraws)
		}
	}
	return open
}

// narrowing is the open limit, in a live configuration, whose range shrinks by the greatest share. A range without an end has no width to
// shrink.
func (f *forecast) narrowing(widths [][][]float64) Narrowing {
	var best Narrowing
	share := 1.0
	for c, config := range f.verdict.Configurations {
		for r, l := range config.Limits {
			if !f.problem.ranged[c][r] {
				continue
			}
			now, after := l.Range().Width(), newQuantiles(widths[c][r]).at(0.5)
			if after/now < share {
				share = after / now
				best = Narrowing{l.Limit, config.Configuration, l.Unit, l.Quantity, now, after}
			}
		}
	}
	return best
}
