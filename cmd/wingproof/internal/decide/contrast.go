package decide

import (
	"wingproof/cmd/wingproof/internal/evidence"
)

// Contrast sets one size of a choice against its baseline at full size, everything else alike: what limits and built parts judge, and
// every belief behind them. Errors that both sizes share cancel, so that a difference is known better than either number.
type Contrast struct {
	Choice        string   `json:"choice"`
	Level         string   `json:"level"`
	Configuration string   `json:"configuration"`
	Against       string   `json:"against"` // the configuration with the baseline; itself for the baseline
	Limit         string   `json:"limit"`   // name of limit or built part; empty for a belief
	Quantity      string   `json:"quantity"`
	Unit          string   `json:"unit"`
	Binding       string   `json:"binding"` // the bound that binds the baseline, BindsAtLeast or BindsAtMost; empty for a belief. Value and difference are taken on its side
	Bound         *float64 `json:"bound"`   // that bound; null for a belief
	Value         Range    `json:"full_size"`
	Difference    *Range   `json:"difference"` // to the baseline; null for the baseline itself
	Probability   *float64 `json:"probability_holds"`
}

// Contrasts judges a problem and sets the sizes of a choice against each other, the other choices at the levels given. Levels come in
// their order, for each of them limits and built parts in their order, then the beliefs. Parts and the record of decisions play no role.
func Contrasts(p Problem, choice string, others map[string]string) ([]Contrast, error) {
	t, requirements, b, err := believed(p)
	if err != nil {
		return nil, err
	}
	s := t.space
	limits := len(requirements)
	for q, quantity := range t.quantities {
		if quantity == evidence.RootBendingMoment {
			continue // one stands in for it where no moment is predicted
		}
		requirements = append(requirements, requirement{Limit: Limit{Quantity: quantity}, unit: unitOf(quantity), beliefs: []int{q}, plain: true})
	}
	known, ok := s.choice(choice)
	if !ok {
		return nil, nil
	}
	base, at, err := s.side(known, others)
	if err != nil {
		return nil, err
	}
	if p.streams == nil {
		p.streams = newStreams(p.Seed, p.draws())
	}
	j, err := judgeSome(p, b, requirements, at)
	if err != nil {
		return nil, err
	}
	d := &contraster{p: p, b: b, j: j, draws: newDrawer(p.streams, b), weights: newWeights(p.streams, p.Aircraft), limits: limits}
	var out []Contrast
	against := d.values(base, base)
	for i, level := range known.Levels {
		out = append(out, d.contrasts(choice, level, at[i], base, against)...)
	}
	return out, nil
}

// side finds the configurations of each level of a choice, the other choices at the levels given, and the one of its baseline.
func (s *space) side(choice Choice, others map[string]string) (base int, at []int, err error) {
	if base, err = s.locate(withLevel(others, choice.Name, choice.Baseline)); err != nil {
		return 0, nil, err
	}
	for _, level := range choice.Levels {
		c, err := s.locate(withLevel(others, choice.Name, level))
		if err != nil {
			return 0, nil, err
		}
		at = append(at, c)
	}
	return base, at, nil
}

// withLevel is the levels with one of them set.
func withLevel(levels map[string]string, choice, level string) map[string]string {
	out := map[string]string{choice: level}
	for name, have := range levels {
		if name != choice {
			out[name] = have
		}
	}
	return out
}

// contraster draws all judged quantities of a configuration.
type contraster struct {
	p       Problem
	b       *belief
	j       *judgement
	draws   *drawer
	weights *weights
	limits  int // how many of the requirements are limits or built parts
}

// values are all judged quantities of a configuration in every draw, on the side that binds the baseline: at two loadings a limit with
// two bounds judges two numbers, and only those of one side can be set against each other.
func (d *contraster) values(c, base int) [][]float64 {
	beliefs := map[int][]float64{}
	var out [][]float64
	for k, r := range d.j.requirements {
		for _, q := range r.beliefs {
			if beliefs[q] == nil {
				beliefs[q] = d.draws.full(q, c)
			}
		}
		values, _ := d.j.series(d.p, d.b, r, c, beliefs, d.weights).of(d.j.verdicts[base][k].Binding)
		out = append(out, unending(values, r.unit))
	}
	return out
}

// contrasts are those of one configuration against another.
func (d *contraster) contrasts(choice, level string, c, base int, against [][]float64) []Contrast {
	configs := d.b.theory.space.configs
	values := d.values(c, base)
	var out []Contrast
	for r, requirement := range d.j.requirements {
		x := Contrast{Choice: choice, Level: level, Configuration: configs[c].name, Against: configs[base].name,
			Limit: requirement.Name, Quantity: requirement.Quantity, Unit: requirement.unit, Value: rangeOf(values[r])}
		if r < d.limits {
			x.Probability = evidence.Pointer(d.j.verdicts[c][r].Probability)
			x.Binding = d.j.verdicts[base][r].Binding
			x.Bound = requirement.bound(x.Binding)
		}
		if c != base {
			x.Difference = evidence.Pointer(differenceOf(values[r], against[r]))
		}
		out = append(out, x)
	}
	return out
}
