package decide

// series is a quantity in every draw, at the loading where it is least and at the one where it is most.
type series struct {
	least, most           []float64
	whereLeast, whereMost string
}

// single is a series without loadings.
func single(values []float64, where string) series {
	return series{least: values, most: values, whereLeast: where, whereMost: where}
}

// overLoadings evaluates a quantity in every draw over all loadings of a requirement, and names the loading
// that is most often the extreme one. draws are those of the requirement's beliefs.
func overLoadings(r requirement, w *weights, draws [][]float64, value evaluator) series {
	n := w.n
	s := series{least: make([]float64, n), most: make([]float64, n)}
	atLeast, atMost := make([]int, n), make([]int, n)
	x := state{beliefs: make([]float64, len(draws))}
	for l, loading := range r.loadings {
		cgs := w.loaded(loading)
		for i := range n {
			for k := range draws {
				x.beliefs[k] = draws[k][i]
			}
			x.cg, x.inertia = cgs[i], w.inertia(i)
			v := value(l, &x)
			if l == 0 || !(v >= s.least[i]) { // what is no number wins, so that no limit passes by it
				s.least[i], atLeast[i] = v, l
			}
			if l == 0 || !(v <= s.most[i]) {
				s.most[i], atMost[i] = v, l
			}
		}
	}
	s.whereLeast, s.whereMost = mostOften(r.loadings, atLeast), mostOften(r.loadings, atMost)
	return s
}

// mostOften names the loading that most draws chose.
func mostOften(loadings []Loading, chosen []int) string {
	counts := make([]int, len(loadings))
	for _, l := range chosen {
		counts[l]++
	}
	return loadings[largest(counts)].Name
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
