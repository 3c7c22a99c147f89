package decide

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// forecast is the board of now and truths drawn from what is believed now, which every candidate is tried on.
type forecast struct {
	problem   Problem
	verdict   Verdict // of now, with what people could settle settled
	waiting   []Part  // that neither decisions nor sign-offs alone clear, nor an entry in the list, nor a rebuild
	waitingAt []int
	belief    *belief
	settle    Prospect // what settling a combination that passes everything would clear now
	outcomes  int
	drawer    *drawer              // of the truths, one an outcome
	truth     [][][]float64        // [quantity][configuration][outcome] at model scale
	empties   []empty              // of the truths
	shared    map[string][]float64 // what the flights' shared errors really are, by source
	doubts    map[string][]float64 // what the doubts of the computation really are, by quantity
}

func newForecast(p Problem, outcomes, draws int) (*forecast, error) {
	f := &forecast{problem: p, outcomes: outcomes}
	f.problem.Draws, f.problem.bar = draws, p.draws()
	f.problem.streams = newStreams(p.Seed, draws)
	f.problem.Decisions = slices.Clone(p.Decisions)
	free, v, err := f.free(f.problem)
	if err != nil {
		return nil, err
	}
	f.verdict = v
	f.problem.weights, f.problem.ranged = newWeights(f.problem.streams, p.Aircraft), f.open()
	for i, part := range p.Parts {
		if !free[i] && !v.Board[i].OnPaper {
			f.waiting, f.waitingAt = append(f.waiting, part), append(f.waitingAt, i)
		}
	}
	if err := f.settleTogether(); err != nil {
		return nil, err
	}
	th, _, err := assumedBy(p)
	if err != nil {
		return nil, err
	}
	observed, err := newObservations(th, p.TrimSlopes, p.Direct)
	if err != nil {
		return nil, err
	}
	if f.belief, _, err = anchorAll(th, observed); err != nil {
		return nil, err
	}
	f.problem.spread = f.belief.theory.spread         // one more measurement hardly moves them, and finding them costs most of a judgement
	truths := newStreams(p.Seed^0x6e657874, outcomes) // "next": not the draws that the board is judged with
	f.drawer, f.empties = newDrawer(truths, f.belief), newWeights(truths, p.Aircraft).empty()
	for q := range th.quantities {
		f.truth = append(f.truth, nil)
		for c := range th.space.configs {
			f.truth[q] = append(f.truth[q], f.drawer.model(q, c))
		}
	}
	return f, f.shareErrors()
}

// free judges a board, lets people settle what is proven and sign what is asked for, and tells which parts come free.
func (f *forecast) free(p Problem) ([]bool, Verdict, error) {
	a, err := assess(p)
	if err != nil {
		return nil, Verdict{}, err
	}
	decisions := signedOff(p, p.Decisions)
	for {
		v, err := a.standings(decisions)
		if err != nil {
			return nil, v, err
		}
		next, settled := settleProven(p, v, decisions)
		if !settled {
			free := make([]bool, len(v.Board))
			for i, row := range v.Board {
				free[i] = row.Status == Frozen
			}
			return free, v, nil
		}
		decisions = signedOff(p, next)
	}
}

// settleProven settles the first open choice that has a proven size, on the baseline where that is one.
func settleProven(p Problem, v Verdict, decisions []Decision) ([]Decision, bool) {
	for _, choice := range v.Choices {
		if choice.State == Settled {
			continue
		}
		best := ""
		for _, l := range v.Levels {
			if l.Choice == choice.Choice && l.State == Good && (best == "" || l.Level == baselineOf(p, choice.Choice)) {
				best = l.Level
			}
		}
		if best != "" {
			return append(slices.Clone(decisions), Decision{Number: len(decisions) + 1, Event: eventSettle, Choice: choice.Choice, Level: best}), true
		}
	}
	return nil, false
}

// settleTogether notes which parts come free when the sizes of a combination that passes every limit are settled, although none of them is
// proven by itself: the first such combination in the program's order, one with more baselines before others.
func (f *forecast) settleTogether() error {
	best, most := -1, -1
	for c, config := range f.verdict.Configurations {
		baselines := 0
		for choice, level := range config.Levels {
			if level == baselineOf(f.problem, choice) {
				baselines++
			}
		}
		if config.Live && config.State == Good && baselines > most {
			best, most = c, baselines
		}
	}
	if best < 0 || len(f.waiting) == 0 {
		return nil
	}
	p, levels := f.problem, f.verdict.Configurations[best].Levels
	var words []string
	p.Decisions = slices.Clone(p.Decisions)
	for _, choice := range f.verdict.Choices {
		if choice.State != Settled {
			words = append(words, choice.Choice+" "+levels[choice.Choice])
			p.Decisions = append(p.Decisions, Decision{Number: len(p.Decisions) + 1, Event: eventSettle, Choice: choice.Choice, Level: levels[choice.Choice]})
		}
	}
	free, _, err := f.free(p)
	if err != nil {
		return err
	}
	f.settle.Candidate = Candidate{Kind: "decision", Say: "settle " + list(words, "and"), Why: "together they pass every limit"}
	for _, i := range f.waitingAt {
		if part := f.problem.Parts[i]; free[i] {
			f.settle.Hours += part.HoursLeft
			f.settle.Parts = append(f.settle.Parts, PartProspect{part.Name, part.Side, part.HoursLeft, 1})
		}
	}
	return nil
}

func baselineOf(p Problem, choice string) string {
	for _, c := range p.Choices {
		if c.Name == choice {
			return c.Baseline
		}
	}
	return ""
}

// signedOff gives every sign-off that some part asks for.
func signedOff(p Problem, decisions []Decision) []Decision {
	names := []string{flutter}
	for _, part := range p.Parts {
		for _, item := range part.MustPass {
			if len(item) > len(signoffPrefix) && item[:len(signoffPrefix)] == signoffPrefix {
				names = append(names, item[len(signoffPrefix):])
			}
		}
	}
	out := slices.Clone(decisions)
	for _, name := range names {
		out = append(out, Decision{Number: len(out) + 1, Event: eventSignoff, Choice: name})
	}
	return out
}

// shareErrors finds what the flights' shared errors are in every truth: a source's own draw, moved by what the flights say of it,
//
//	z + effectᵀ·S⁻¹·(what the measurements leave unexplained).
//
// A further flight of the same model shares them.
func (f *forecast) shareErrors() error {
	f.shared, f.doubts = map[string][]float64{}, map[string][]float64{}
	b := f.belief
	if len(b.rows) == 0 {
		return nil
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(b.innovationCovariance()) {
		return fmt.Errorf("measurements repeat one another exactly; state their standard deviations")
	}
	informed := func(z, effect []float64) ([]float64, error) {
		var weights mat.VecDense
		if err := cholesky.SolveVecTo(&weights, mat.NewVecDense(len(b.rows), slices.Clone(effect))); err != nil {
			return nil, fmt.Errorf("measurements nearly repeat one another: %w", err)
		}
		z = slices.Clone(z)
		for j := range b.rows {
			addScaled(z, weights.AtVec(j), func() []float64 { return f.drawer.residual[j] })
		}
		return z, nil
	}
	var err error
	for _, source := range b.observed.sources {
		if f.shared[source], err = informed(f.drawer.streams.normals("shared source", source), b.observed.common[source]); err != nil {
			return err
		}
	}
	for q, quantity := range b.theory.quantities {
		effect := make([]float64, len(b.rows))
		for j, row := range b.rows {
			for _, h := range row {
				if h.q == q {
					effect[j] += h.slope * b.theory.doubt[q][h.c]
				}
			}
		}
		if f.doubts[quantity], err = informed(f.drawer.streams.normals("doubt", quantity), effect); err != nil {
			return err
		}
	}
	return nil
}

// doubtOf is what the doubt of the computation of a quantity really is in an outcome, in standard deviations.
func (f *forecast) doubtOf(quantity string, m int) float64 {
	if z, ok := f.doubts[quantity]; ok {
		return z[m]
	}
	return f.drawer.streams.normals("doubt", quantity)[m]
}

// sharedError is what a source is in an outcome; a source that no flight had yet is drawn.
func (f *forecast) sharedError(source string, m int) float64 {
	if z, ok := f.shared[source]; ok {
		return z[m]
	}
	return f.drawer.streams.normals("shared source", source)[m]
}

// shrunk is what is known of a normal error z (standard deviations) once only a share of it is left: the mean of what it is then
// believed to be. noise is a standard normal draw.
func shrunk(z, left, noise float64) float64 {
	known := math.Sqrt(math.Max(0, 1-left*left))
	return known * (known*z + left*noise)
}
