package forecast

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/statistic"
)

// sharedBy is the half-width of what the errors make that all flights share, over the effects by source [one standard deviation] of each
// rehearsal, and each source's own, the greatest first; nil without any.
//
// Independent sources add as squares. More flights shrink the rest of an interval, and this not at all.
func sharedBy(rehearsals []map[string]float64) (total *float64, sources []Shared) {
	effects := map[string][]float64{}
	var all []float64
	for _, common := range rehearsals {
		for _, name := range slices.Sorted(maps.Keys(common)) {
			effects[name] = append(effects[name], math.Abs(common[name]))
		}
		all = append(all, evidence.Total(0, common))
	}
	sources = []Shared{}
	if len(all) == 0 {
		return nil, sources
	}
	for _, name := range slices.Sorted(maps.Keys(effects)) {
		if h := evidence.Normal95 * statistic.Median(effects[name]); h > 0 {
			sources = append(sources, Shared{name, h})
		}
	}
	slices.SortStableFunc(sources, func(a, b Shared) int { return cmp.Compare(b.Half, a.Half) })
	h := evidence.Normal95 * statistic.Median(all)
	return &h, sources
}

// shareThatRules is the part of a half-width from which more flights hardly help: what is left shrinks it by a quarter at most.
const shareThatRules = 0.75

// Ruled tells whether errors that all flights share rule an interval afterwards.
func (i Interval) Ruled() bool {
	return i.After != nil && i.Shared != nil && *i.Shared >= shareThatRules**i.After
}
