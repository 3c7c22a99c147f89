package decide

import "wingproof/cmd/wingproof/internal/evidence"

// series is a quantity in every draw, at the loading where it is least and at the one where it is most. A side that no bound of the limit
// is compared with may be missing.
type series struct {
	least, most           []float64
	whereLeast, whereMost string
}

// single is a series without loadings.
func single(values []float64, where string) series {
	return series{least: values, most: values, whereLeast: where, whereMost: where}
}

// overLoadings evaluates a quantity in every draw over all loadings of a requirement, on the sides that it needs, and names the loading
// that is most often the extreme one. draws are those of the requirement's beliefs.
func overLoadings(r requirement, w *weights, draws [][]float64, value evaluator) series {
	var least, most *extreme
	if r.AtLeast != nil || r.Quantity == evidence.FuelTravel {
		least = newExtreme(w.n)
	}
	if r.AtMost != nil || r.Quantity == evidence.FuelTravel {
		most = newExtreme(w.n)
	}
	x := sample{beliefs: draws}
	if r.kind() == restsOnMotion {
		x.inertia = w.inertia()
	}
	values := make([]float64, w.n)
	for l, loading := range r.loadings {
		x.loaded = w.loaded(loading)
		value(l, &x, values)
		least.takeLess(l, values)
		most.takeMore(l, values)
	}
	var s series
	s.least, s.whereLeast = least.of(r.loadings)
	s.most, s.whereMost = most.of(r.loadings)
	return s
}

// extreme is the least or the greatest value over loadings in every draw, and the loading of it. A nil extreme takes nothing.
type extreme struct {
	values []float64
	at     []int32
}

func newExtreme(n int) *extreme { return &extreme{make([]float64, n), make([]int32, n)} }

// takeLess takes over what is less at a further loading, and all of the first. What is no number wins, so that no limit passes by it.
func (e *extreme) takeLess(loading int, values []float64) {
	if e == nil {
		return
	}
	for i, v := range values {
		if loading == 0 || !(v >= e.values[i]) {
			e.values[i], e.at[i] = v, int32(loading)
		}
	}
}

// takeMore does the same with what is more.
func (e *extreme) takeMore(loading int, values []float64) {
	if e == nil {
		return
	}
	for i, v := range values {
		if loading == 0 || !(v <= e.values[i]) {
			e.values[i], e.at[i] = v, int32(loading)
		}
	}
}

// of is the values and the loading that most draws chose.
func (e *extreme) of(loadings []Loading) (values []float64, where string) {
	if e == nil {
		return nil, ""
	}
	counts := make([]int, len(loadings))
	for _, l := range e.at {
		counts[l]++
	}
	return e.values, loadings[largest(counts)].Name
}

func largest(counts []int) int {
	best := 0
	for i, n := range counts {
		if n > counts[best] {
			best = i
		}
	}
	return best
}

// travel turns CG stations into their travel between loadings, in percent of the mean chord.
//
// It is the distance between the foremost and the aftmost of the limit's loadings that fly. Where
// they differ in more than fuel, the travel of the occupants is in it: name the loadings in the limit to
// judge fuel alone.
func (s series) travel(meanChord float64) series {
	travel := make([]float64, len(s.least))
	for i := range travel {
		travel[i] = 100 * (s.most[i] - s.least[i]) / meanChord
	}
	return single(travel, "between "+s.whereLeast+" and "+s.whereMost)
}
