package forecast

import (
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/study"
)

// leastSpan is how long the range of CGs is at least, a share of the mean chord, as the board advises CGs.
const leastSpan = 0.10

// LackingCGs are the CGs [full-size m aft of datum] that a configuration lacks most: both ends of the range of the loadings that fly when it never
// flew, else the end that lies farther from those flown. They stay ahead of the neutral point. ok is false where the folder states no loading.
func LackingCGs(st *study.Study, levels map[string]string) (cgs []float64, ok bool) {
	low, high, ok := prediction.LoadedRange(st.Program)
	c, err := configurationOf(st, levels)
	if !ok || err != nil {
		return nil, false
	}
	low, high = bounded(low, high, AftBound(st, c), leastSpan*c.Airframe.Reference.MeanChord)
	flown := flownCGs(st, c.Name)
	switch {
	case len(flown) == 0:
		return []float64{low, high}, true
	case nearest(low, flown) >= nearest(high, flown):
		return []float64{low}, true
	}
	return []float64{high}, true
}

// bounded is a range that ends no farther aft than most and is at least so long, forward.
func bounded(low, high, most, least float64) (float64, float64) {
	high = math.Min(high, most)
	return math.Min(low, high-least), high
}

// AftBound is the aftmost CG [full-size m] that a rehearsal flies: where the board says that nobody flies aft of.
func AftBound(st *study.Study, c study.Configuration) float64 {
	for _, v := range st.Verdict.Configurations {
		if v.Configuration == c.Name && v.AftLimit != nil {
			return *v.AftLimit
		}
	}
	return decide.AftLimit(c.NeutralPoint, 0, c.Airframe.Reference.MeanChord, false)
}

// flownCGs are those of the flights of a configuration that count.
func flownCGs(st *study.Study, configuration string) []float64 {
	var out []float64
	for _, f := range st.Flights {
		if f.Used && evidence.Name(f.Levels) == configuration {
			out = append(out, f.CG)
		}
	}
	return out
}

func nearest(x float64, flown []float64) float64 {
	gap := math.Inf(1)
	for _, cg := range flown {
		gap = math.Min(gap, math.Abs(x-cg))
	}
	return gap
}
