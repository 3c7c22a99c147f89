package decide

import (
	"fmt"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
)

// world is what the aircraft of every program of one seed and arm really are.
type world struct {
	problem      Problem
	requirements []requirement
	theory       *theory       // as the judging assumes it
	model        [][][]float64 // [quantity][configuration][program] at model scale
	empties      []empty       // the real empty aircraft, by program
	prior        *judgement    // of the truth, one program a draw
	priorSD      [][]float64   // [configuration][requirement] of the judged quantity before any flight, as assumed
	margins      [][][]float64 // [configuration][requirement][program] true value less the limit, positive when it holds
	seed         uint64
	n            int
}

// newWorld draws the truth of n programs, model errors times the arm's factor.
func newWorld(s scenario, seed uint64, a arm, n int) (*world, error) {
	w := &world{problem: s.problem(), seed: seed, n: n}
	w.problem.Seed, w.problem.Draws = seed, n
	var err error
	if w.theory, w.requirements, err = assumedBy(w.problem); err != nil {
		return nil, err
	}
	drawn := w.problem
	drawn.Errors = times(s.Errors, a.Times)
	th, requirements, err := assumedBy(drawn)
	if err != nil {
		return nil, err
	}
	b := &belief{theory: th, observed: &observations{}, mean: th.mean}
	draws := newStreams(seed+0x5eed<<32, n)
	drawn.streams = draws
	if w.prior, err = judge(drawn, b, requirements); err != nil {
		return nil, err
	}
	table := newTable(drawn, b, w.requirements)
	for q := range th.quantities {
		w.model = append(w.model, nil)
		for c := range th.space.configs {
			w.model[q] = append(w.model[q], table.drawer.model(q, c))
		}
	}
	w.empties = table.weights.empty()
	return w, w.measure(s, table)
}

// times multiplies every model error.
func times(errors []TheoryError, factor float64) []TheoryError {
	out := make([]TheoryError, len(errors))
	scaled := func(m map[string]float64) map[string]float64 {
		r := map[string]float64{}
		for name, v := range m {
			r[name] = factor * v
		}
		return r
	}
	for i, e := range errors {
		e.Bias, e.Interaction, e.Level, e.FullSize = factor*e.Bias, factor*e.Interaction, scaled(e.Level), scaled(e.FullSize)
		out[i] = e
	}
	return out
}

// measure takes every judged quantity of the truth, motions in full instead of by their response, and says which limits hold.
func (w *world) measure(s scenario, drawn *table) error {
	for c := range drawn.configs {
		var margins [][]float64
		for r, requirement := range w.requirements {
			values, err := drawn.series(r, c)
			if err != nil {
				return err
			}
			if requirement.kind() == restsOnMotion {
				values = w.motions(s, requirement, c, drawn)
			}
			margin := make([]float64, w.n)
			pass := newPasses(w.n)
			for i := range margin {
				margin[i] = marginOf(requirement, values, i)
				if margin[i] >= 0 {
					pass[i/64] |= 1 << (i % 64)
				}
			}
			margins, w.prior.holds[c][r] = append(margins, margin), pass
		}
		w.margins = append(w.margins, margins)
	}
	return w.spread()
}

// marginOf is how far a value lies on the right side of the nearer bound.
func marginOf(r requirement, s series, i int) float64 {
	margin := math.Inf(1)
	if r.AtLeast != nil {
		margin = s.least[i] - *r.AtLeast
	}
	if r.AtMost != nil {
		margin = math.Min(margin, *r.AtMost-s.most[i])
	}
	return margin
}

// motions computes a motion in every program at every loading.
func (w *world) motions(s scenario, r requirement, c int, drawn *table) series {
	inertia := drawn.weights.inertia()
	out := series{least: make([]float64, w.n), most: make([]float64, w.n)}
	for i := range w.n {
		out.least[i], out.most[i] = math.Inf(1), math.Inf(-1)
		of := map[string]float64{}
		for _, q := range r.beliefs {
			of[w.theory.quantities[q]] = drawn.full(q, c)[i]
		}
		for _, l := range r.loadings {
			at := drawn.weights.loaded(l)
			modes, _ := s.dutchRoll(nil, of, Flown{Mass: at.mass[i], CG: at.x[i], Ix: inertia[0][i], Iy: inertia[1][i], Iz: inertia[2][i]})
			out.least[i], out.most[i] = math.Min(out.least[i], modes[r.Quantity]), math.Max(out.most[i], modes[r.Quantity])
		}
	}
	return out
}

// spread is the standard deviation of every judged quantity before any flight, as the judging assumes it.
func (w *world) spread() error {
	b := &belief{theory: w.theory, observed: &observations{}, mean: w.theory.mean}
	p := w.problem
	p.Draws = 4000
	j, err := judge(p, b, w.requirements)
	if err != nil {
		return err
	}
	for c := range w.theory.space.configs {
		var sds []float64
		for r := range w.requirements {
			v := j.verdicts[c][r]
			sds = append(sds, (v.High-v.Low)/(2*normal95))
		}
		w.priorSD = append(w.priorSD, sds)
	}
	return nil
}

// really tells whether a requirement holds in truth.
func (w *world) really(program, c, r int) bool { return w.margins[c][r][program] >= 0 }

// passes tells whether a configuration passes everything in truth.
func (w *world) passes(program, c int) bool {
	for r := range w.requirements {
		if !w.really(program, c, r) {
			return false
		}
	}
	return true
}

// near counts the true margins within one standard deviation of their limit.
func (w *world) near() (within, all int) {
	for c := range w.margins {
		for r, margins := range w.margins[c] {
			if c > 0 && w.requirements[r].kind() == restsOnWeight {
				continue
			}
			for _, m := range margins {
				all++
				if math.Abs(m) < w.priorSD[c][r] {
					within++
				}
			}
		}
	}
	return within, all
}

// evidence is what the first flights of a program say, at estimate level: trim slopes at each CG and direct numbers of each
// configuration, each the mean over its flights, with one draw of the errors that all share.
func (w *world) evidence(s scenario, program, flown int) ([]TrimSlopes, []Direct, error) {
	f := s.Flights
	shared := func(source string) float64 {
		return normals(w.seed, 1, fmt.Sprint("program ", program), "shared", source)[0]
	}
	own := func(words ...string) []float64 {
		return normals(w.seed, flown, append([]string{fmt.Sprint("program ", program), "own"}, words...)...)
	}
	degrees := max(1, flown-f.DegreesFrom)
	// the scatter is estimated: a χ² draw that grows with the flights
	scatter := 0.0
	for _, z := range normals(w.seed, degrees, fmt.Sprint("program ", program), "scatter") {
		scatter += z * z
	}
	scatter = math.Sqrt(scatter / float64(degrees))
	var slopes []TrimSlopes
	var direct []Direct
	for c, config := range w.theory.space.configs {
		byCG, all := w.flightsOf(s, c, flown)
		if len(all) == 0 {
			continue
		}
		slopes = append(slopes, w.slopes(s, program, c, byCG, own, shared, scatter, degrees))
		for _, m := range f.Direct {
			q := w.theory.quantity(m.Quantity)
			truth, mean := w.model[q][c][program], 0.0
			for _, k := range all {
				mean += m.SD * m.Real * own(m.Quantity)[k] / float64(len(all))
			}
			d := Direct{Levels: config.levels, Quantity: m.Quantity, SDOwn: m.SD * scatter / math.Sqrt(float64(len(all))), Degrees: float64(degrees),
				Common: map[string]float64{}, Flights: names(all)}
			d.Value = truth + mean
			for _, source := range sortedKeys(m.Shared) {
				d.Common[source] = m.Shared[source] * math.Abs(truth)
				d.Value += m.Real * d.Common[source] * shared(source)
			}
			direct = append(direct, d)
		}
	}
	return slopes, direct, nil
}

// slopes are the trim slopes of one configuration.
func (w *world) slopes(s scenario, program, c int, byCG map[float64][]int, own func(...string) []float64, shared func(string) float64, scatter float64, degrees int) TrimSlopes {
	m := s.Flights.TrimSlope
	rate := w.model[w.theory.quantity(evidence.ElevatorTrimRate)][c][program]
	neutral := w.model[w.theory.quantity(evidence.NeutralPoint)][c][program]
	t := TrimSlopes{Levels: w.theory.space.configs[c].levels, Common: map[string][]float64{}, Degrees: float64(degrees), Power: "idle"}
	for _, cg := range sortedStations(byCG) {
		flights := byCG[cg]
		slope := rate * (cg - neutral)
		value := slope
		for _, k := range flights {
			value += m.SD * m.Real * own("trim")[k] / float64(len(flights))
		}
		for _, source := range sortedKeys(m.Shared) {
			effect := m.Shared[source] * slope
			t.Common[source] = append(t.Common[source], effect)
			value += m.Real * effect * shared(source)
		}
		effect := math.Abs(rate) * m.SharedCG
		t.Common["cg"] = append(t.Common["cg"], effect)
		value += m.Real * effect * shared("cg")
		t.CG, t.Slope, t.Flights = append(t.CG, cg), append(t.Slope, value), append(t.Flights, names(flights)...)
		row := make([]float64, len(byCG))
		row[len(t.CG)-1] = m.SD * m.SD * scatter * scatter / float64(len(flights))
		t.Covariance = append(t.Covariance, row)
	}
	return t
}

// flightsOf lists the flights of one configuration among the first of the order, by CG and all together.
func (w *world) flightsOf(s scenario, c, flown int) (byCG map[float64][]int, all []int) {
	byCG = map[float64][]int{}
	for k, f := range s.Flights.Order[:flown] {
		levels := w.theory.space.configs[c].levels
		if f.Winglet == levels["winglet"] && f.Foreplane == levels["foreplane"] {
			byCG[f.CG] = append(byCG[f.CG], k)
			all = append(all, k)
		}
	}
	return byCG, all
}

func names(flights []int) []string {
	var out []string
	for _, k := range flights {
		out = append(out, fmt.Sprintf("F%02d", k+1))
	}
	return out
}

func sortedStations(m map[float64][]int) []float64 {
	out := make([]float64, 0, len(m))
	for x := range m {
		out = append(out, x)
	}
	slices.Sort(out)
	return out
}
