package decide

import (
	"math"
	"math/bits"
	"slices"
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

// newJudgement has room for every configuration.
func newJudgement(p Problem, drawn, configurations int, requirements []requirement) *judgement {
	return &judgement{n: max(drawn, p.bar), drawn: drawn, requirements: requirements, verdicts: make([][]LimitVerdict, configurations),
		holds: make([][]passes, configurations), all: make([]float64, configurations), surfaces: make([]map[string]*surface, configurations)}
}

// judge draws beliefs, weights and allowables and counts.
func judge(p Problem, b *belief, requirements []requirement) (*judgement, error) {
	return newTable(p, b, requirements).judge(b.theory.space.all())
}

// judge counts the draws of the configurations named by their places, side by side. What rests on weight alone is counted once and holds for
// every configuration.
func (t *table) judge(which []int) (*judgement, error) {
	j := newJudgement(t.problem, t.drawer.n, len(t.configs), t.requirements)
	verdicts, holds := make([]LimitVerdict, len(t.requirements)), make([]passes, len(t.requirements))
	_ = sideBySide(t.byWeight(), func(r int) error { // nothing in it can fail
		verdicts[r], holds[r] = count(t.requirements[r], t.weighed[r](), j.drawn, t.problem.readsRange(-1, r))
		return nil
	})
	which = slices.Compact(slices.Sorted(slices.Values(which)))
	for _, c := range which {
		j.verdicts[c], j.holds[c] = slices.Clone(verdicts), slices.Clone(holds)
	}
	return j, sideBySide(which, func(c int) error { return j.configuration(t, c) })
}

// configuration judges every requirement that rests on more than weight in one configuration.
func (j *judgement) configuration(t *table, c int) (err error) {
	defer t.release(c)
	if j.surfaces[c], err = t.surfaces(c); err != nil {
		return err
	}
	for r, requirement := range j.requirements {
		if requirement.kind() == restsOnWeight {
			continue
		}
		s, err := t.series(r, c)
		if err != nil {
			return err
		}
		v, holds := count(requirement, s, j.drawn, t.problem.readsRange(c, r))
		j.verdicts[c][r], j.holds[c][r] = againstStallOrder(t.problem.wingFirst(requirement, t.belief.theory.space, c), v, holds, j.drawn)
	}
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

// readsRange tells whether anybody reads the range of a requirement in a configuration, or in any where that is below zero.
func (p Problem) readsRange(c, r int) bool {
	if p.ranged == nil || c >= 0 {
		return p.ranged == nil || p.ranged[c][r]
	}
	return slices.ContainsFunc(p.ranged, func(of []bool) bool { return of[r] })
}

// count compares every draw with the bounds. Median and 95 % range are those of the side that binds; they stay zero where nobody reads them.
func count(r requirement, s series, n int, ranged bool) (LimitVerdict, passes) {
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
	var spread Range
	if ranged {
		spread = rangeOf(unending(values, r.unit))
	}
	return LimitVerdict{
		Limit: r.Name, Quantity: r.Quantity, Unit: r.unit, AtLeast: r.AtLeast, AtMost: r.AtMost, Binding: binding,
		Probability: float64(held) / float64(n), Where: where,
		Median: spread.Median, Low: spread.Low, High: spread.High,
	}, pass
}
