package decide

import (
	"fmt"
	"math"
	"sync"

	"wingproof/cmd/wingproof/internal/evidence"
)

// table is what requirements and beliefs come to in every draw, configuration by configuration. Each list is drawn once, by whoever asks first, and
// nobody writes into it afterwards. It may be used from several goroutines.
type table struct {
	problem      Problem
	belief       *belief
	requirements []requirement
	drawer       *drawer
	weights      *weights
	weighed      []func() series // by requirement, those that rest on weight alone and are the same in every configuration; nil for others
	configs      []column
	remembers    bool // columns stay when they are released
}

// column is one configuration.
type column struct {
	mu       sync.Mutex
	beliefs  map[int][]float64 // at full size
	series   map[int]series    // by requirement
	surfaces map[string]*surface
}

// mostRemembered is how many bytes of draws a table remembers for who asks again. A program of more combinations draws anew.
const mostRemembered = 128 << 20

func newTable(p Problem, b *belief, requirements []requirement) *table {
	if p.streams == nil {
		p.streams = newStreams(p.Seed, p.draws())
	}
	configurations := len(b.theory.space.configs)
	t := &table{problem: p, belief: b, requirements: requirements, drawer: newDrawer(p.streams, b), weights: p.weights,
		weighed: make([]func() series, len(requirements)), configs: make([]column, configurations)}
	if t.weights == nil {
		t.weights = newWeights(p.streams, p.Aircraft)
	}
	t.remembers = 8*p.streams.n*configurations*(len(requirements)+len(b.theory.quantities)) <= mostRemembered
	for r, requirement := range requirements {
		if requirement.kind() == restsOnWeight {
			t.weighed[r] = sync.OnceValue(func() series { return t.draw(requirement, 0, nil, nil) })
		}
	}
	return t
}

// byWeight lists the requirements that rest on weight alone.
func (t *table) byWeight() []int {
	var list []int
	for r, drawn := range t.weighed {
		if drawn != nil {
			list = append(list, r)
		}
	}
	return list
}

// full is one belief at full size.
func (t *table) full(q, c int) []float64 {
	t.configs[c].mu.Lock()
	defer t.configs[c].mu.Unlock()
	return t.fullOf(q, c)
}

// fullOf is the same for who holds the column.
func (t *table) fullOf(q, c int) []float64 {
	column := &t.configs[c]
	if column.beliefs == nil {
		column.beliefs = map[int][]float64{}
	}
	if column.beliefs[q] == nil {
		column.beliefs[q] = t.drawer.full(q, c)
	}
	return column.beliefs[q]
}

// surfaces are the responses of the motions of a configuration, by loading.
func (t *table) surfaces(c int) (map[string]*surface, error) {
	t.configs[c].mu.Lock()
	defer t.configs[c].mu.Unlock()
	return t.surfacesOf(c)
}

func (t *table) surfacesOf(c int) (all map[string]*surface, err error) {
	column := &t.configs[c]
	if column.surfaces == nil {
		column.surfaces, err = newSurfaces(t.problem, t.belief, t.requirements, c)
	}
	return column.surfaces, err
}

// series is the judged quantity of a requirement in every draw.
func (t *table) series(r, c int) (series, error) {
	if t.weighed[r] != nil {
		return t.weighed[r](), nil
	}
	column := &t.configs[c]
	column.mu.Lock()
	defer column.mu.Unlock()
	if s, ok := column.series[r]; ok {
		return s, nil
	}
	surfaces, err := t.surfacesOf(c)
	if err != nil {
		return series{}, err
	}
	requirement := t.requirements[r]
	beliefs := make([][]float64, len(requirement.beliefs))
	for k, q := range requirement.beliefs {
		beliefs[k] = t.fullOf(q, c)
	}
	if column.series == nil {
		column.series = map[int]series{}
	}
	column.series[r] = t.draw(requirement, c, beliefs, surfaces)
	return column.series[r], nil
}

// draw works the judged quantity of a requirement out from draws of its beliefs.
func (t *table) draw(r requirement, c int, beliefs [][]float64, surfaces map[string]*surface) series {
	switch {
	case r.kind() == restsOnBending:
		return single(bendingDraws(t.problem.streams, r, c, beliefs[0], t.belief), fmt.Sprintf("%s, at its station %.2f m", r.built.Surface, r.station[c]))
	case !r.weighs():
		return single(beliefs[0], "")
	}
	a := t.problem.Aircraft
	s := overLoadings(r, t.weights, beliefs, r.evaluator(a, t.belief.theory.space.configs[c].stop, r.surfacesOf(surfaces)))
	if r.Quantity == evidence.FuelTravel {
		return s.travel(a.MeanChord)
	}
	return s
}

// release tells that a configuration has been judged. What many configurations hold together would take too much memory.
func (t *table) release(c int) {
	if t.remembers {
		return
	}
	column := &t.configs[c]
	column.mu.Lock()
	defer column.mu.Unlock()
	column.beliefs, column.series, column.surfaces = nil, nil, nil
}

// bendingDraws is the greatest bending over allowable of a built part in every draw. An allowable is never
// drawn below a millionth of the stated one.
func bendingDraws(s *streams, r requirement, c int, moment []float64, b *belief) []float64 {
	mean := b.theory.mean[b.theory.quantity(evidence.RootBendingMoment)][c]
	strength := s.normals("allowable", r.built.Part)
	ratio := make([]float64, s.n)
	for i := range ratio {
		carries := math.Max(1e-6, 1+r.built.SD*strength[i])
		factor := 1.0
		if mean != 0 {
			factor = math.Abs(moment[i] / mean)
		}
		ratio[i] = r.ratio[c] * factor / carries
	}
	return ratio
}
