package decide

import (
	"fmt"
	"math"
	"math/bits"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"wingproof/cmd/wingproof/internal/evidence"
)

const (
	defaultDraws = 20000
	sure         = 0.95 // a requirement holds, or fails, when its probability reaches this
)

// reached tells whether a probability estimated from n draws counts as 95 %: it must lie three Monte-Carlo
// standard errors above it, so that luck of the draw never decides.
func reached(probability float64, n int) bool {
	return probability >= sure+3*math.Sqrt(sure*(1-sure)/float64(n))
}

// passes says in which draws a requirement holds.
type passes []uint64

func newPasses(n int) passes { return make(passes, (n+63)/64) }

// and keeps the draws in which both hold.
func (p passes) and(q passes) passes {
	r := make(passes, len(p))
	for i := range r {
		r[i] = p[i] & q[i]
	}
	return r
}

// share is the part of n draws that pass.
func (p passes) share(n int) float64 {
	count := 0
	for _, word := range p {
		count += bits.OnesCount64(word)
	}
	return float64(count) / float64(n)
}

// draws is how many joint draws a judgement takes.
func (p Problem) draws() int {
	if p.Draws == 0 {
		return defaultDraws
	}
	return p.Draws
}

// judgement is every requirement in every configuration.
type judgement struct {
	n            int // draws that a probability must be told from 95 % with
	drawn        int // draws taken
	requirements []requirement
	verdicts     [][]LimitVerdict // [configuration][requirement]
	holds        [][]passes
	all          []float64             // probability that all hold together, by configuration
	surfaces     []map[string]*surface // response of the motions, by configuration and loading
}

// judge draws beliefs, weights and allowables and counts. What rests on weight alone is counted once and
// holds for every configuration.
func judge(p Problem, b *belief, requirements []requirement) (*judgement, error) {
	all := make([]int, len(b.theory.space.configs))
	for c := range all {
		all[c] = c
	}
	return judgeSome(p, b, requirements, all)
}

// judgeSome judges the configurations named by their places, and the first one, which what rests on weight alone is counted with.
func judgeSome(p Problem, b *belief, requirements []requirement, which []int) (*judgement, error) {
	draws := p.streams
	if draws == nil {
		draws = newStreams(p.Seed, p.draws())
	}
	n := draws.n
	j := &judgement{n: max(n, p.bar), drawn: n, requirements: requirements}
	d, w := newDrawer(draws, b), newWeights(draws, p.Aircraft)
	w.prepare(requirements)
	configs := len(b.theory.space.configs)
	j.verdicts, j.holds, j.all, j.surfaces = make([][]LimitVerdict, configs), make([][]passes, configs), make([]float64, configs), make([]map[string]*surface, configs)
	if err := j.configuration(p, d, w, 0); err != nil { // what rests on weight alone is counted here, once
		return nil, err
	}
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for _, c := range which {
		if c > 0 {
			group.Go(func() error { return j.configuration(p, d, w, c) })
		}
	}
	return j, group.Wait()
}

// configuration judges every requirement in one configuration.
func (j *judgement) configuration(p Problem, d *drawer, w *weights, c int) (err error) {
	b, n := d.belief, j.drawn
	if j.surfaces[c], err = newSurfaces(p, b, j.requirements, c); err != nil {
		return err
	}
	verdicts, holds := make([]LimitVerdict, len(j.requirements)), make([]passes, len(j.requirements))
	beliefs := map[int][]float64{}
	for r, requirement := range j.requirements {
		if c > 0 && requirement.kind() == restsOnWeight {
			verdicts[r], holds[r] = j.verdicts[0][r], j.holds[0][r]
			continue
		}
		for _, q := range requirement.beliefs {
			if beliefs[q] == nil {
				beliefs[q] = d.full(q, c)
			}
		}
		verdicts[r], holds[r] = count(requirement, j.series(p, b, requirement, c, beliefs, w), n)
		verdicts[r], holds[r] = againstStallOrder(p.wingFirst(requirement, b.theory.space, c), verdicts[r], holds[r], n)
	}
	j.verdicts[c], j.holds[c] = verdicts, holds
	j.all[c] = j.together(c, nil, true)
	return nil
}

// together is the probability that the listed requirements, or all of them, hold at once.
func (j *judgement) together(c int, which []int, all bool) float64 {
	var joint passes
	for r := range j.requirements {
		if !all && !slices.Contains(which, r) {
			continue
		}
		if joint == nil {
			joint = j.holds[c][r]
		} else {
			joint = joint.and(j.holds[c][r])
		}
	}
	if joint == nil {
		return 1
	}
	return joint.share(j.drawn)
}

// series is the judged quantity in every draw.
func (j *judgement) series(p Problem, b *belief, r requirement, c int, beliefs map[int][]float64, w *weights) series {
	if r.kind() == restsOnBending {
		return single(bendingDraws(w.streams, r, c, beliefs[r.beliefs[0]], b), fmt.Sprintf("%s, at its station %.2f m", r.built.Surface, r.station[c]))
	}
	draws := make([][]float64, len(r.beliefs))
	for k, q := range r.beliefs {
		draws[k] = beliefs[q]
	}
	if !r.weighs() {
		return single(draws[0], "")
	}
	s := overLoadings(r, w, draws, r.evaluator(p.Aircraft, b.theory.space.configs[c].stop, j.surfacesOf(r, c)))
	if r.Quantity == evidence.FuelTravel {
		return s.travel(p.Aircraft.MeanChord)
	}
	return s
}

// surfacesOf are the responses of the motions at the loadings of a requirement; nil for what is no motion.
func (j *judgement) surfacesOf(r requirement, c int) []*surface {
	if r.kind() != restsOnMotion {
		return nil
	}
	list := make([]*surface, len(r.loadings))
	for l, loading := range r.loadings {
		list[l] = j.surfaces[c][loading.Name]
	}
	return list
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

// count compares every draw with the bounds. Median and 95 % range are those of the side that binds.
func count(r requirement, s series, n int) (LimitVerdict, passes) {
	pass := newPasses(n)
	held, tooLow, tooHigh := 0, 0, 0
	for i := range n {
		low := r.AtLeast != nil && !(s.least[i] >= *r.AtLeast)
		high := r.AtMost != nil && !(s.most[i] <= *r.AtMost)
		if low {
			tooLow++
		}
		if high {
			tooHigh++
		}
		if !low && !high {
			held++
			pass[i/64] |= 1 << (i % 64)
		}
	}
	binding := r.binding(s, tooLow, tooHigh)
	values, where := s.of(binding)
	spread := rangeOf(unending(values, r.unit))
	return LimitVerdict{
		Limit: r.Name, Quantity: r.Quantity, Unit: r.unit, AtLeast: r.AtLeast, AtMost: r.AtMost, Binding: binding,
		Probability: float64(held) / float64(n), Where: where,
		Median: spread.Median, Low: spread.Low, High: spread.High,
	}, pass
}
