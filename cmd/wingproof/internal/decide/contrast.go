package decide

import "wingproof/cmd/wingproof/internal/evidence"

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

// Contrasts sets the sizes of a choice against each other, the other choices at the levels given. Levels come in their order, for each of them
// limits and built parts in their order, then the beliefs. The assessment is that of the same problem.
func (j *Judging) Contrasts(a Assessment, choice string, others map[string]string) ([]Contrast, error) {
	t, err := j.under(a)
	if err != nil {
		return nil, err
	}
	s := t.belief.theory.space
	known, ok := s.choice(choice)
	if !ok {
		return nil, nil
	}
	base, at, err := s.side(known, others)
	if err != nil {
		return nil, err
	}
	d := &contraster{table: t, assessed: a.Configurations, base: base, sides: make([]side, len(s.configs))}
	if err := sideBySide(at, d.draw); err != nil { // the baseline is one of them
		return nil, err
	}
	lists := make([][]Contrast, len(s.configs))
	err = sideBySide(at, func(c int) error { lists[c] = d.contrasts(choice, c); return nil })
	var out []Contrast
	for _, c := range at {
		out = append(out, lists[c]...)
	}
	return out, err
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

// contraster sets configurations against a baseline.
type contraster struct {
	table    *table
	assessed []Assessed
	base     int
	sides    []side // by configuration, of those asked for
}

// side is what one configuration is judged by and believed of, in every draw and as a range.
type side struct {
	what   []Contrast // what is the same for all configurations: limit, quantity, unit, bound
	values [][]float64
	ranges []Range
}

func (s *side) add(what Contrast, values []float64, r Range) {
	s.what, s.values, s.ranges = append(s.what, what), append(s.values, values), append(s.ranges, r)
}

// draw fills the side of a configuration.
func (d *contraster) draw(c int) error {
	defer d.table.release(c)
	if err := d.drawLimits(c); err != nil {
		return err
	}
	for q, quantity := range d.table.belief.theory.quantities {
		if quantity == evidence.RootBendingMoment {
			continue // one stands in for it where no moment is predicted
		}
		unit := unitOf(quantity)
		values := unending(d.table.full(q, c), unit)
		d.sides[c].add(Contrast{Quantity: quantity, Unit: unit}, values, rangeOf(values))
	}
	return nil
}

// drawLimits takes limits and built parts on the side that binds the baseline: at two loadings a limit with two bounds judges two numbers, and only
// those of one side can be set against each other.
func (d *contraster) drawLimits(c int) error {
	for r, requirement := range d.table.requirements {
		drawn, err := d.table.series(r, c)
		if err != nil {
			return err
		}
		judged, binding := d.assessed[c].Limits[r], d.assessed[d.base].Limits[r].Binding
		values, _ := drawn.of(binding)
		values = unending(values, requirement.unit)
		spread := judged.Range()
		if judged.Binding != binding {
			spread = rangeOf(values)
		}
		d.sides[c].add(Contrast{Limit: requirement.Name, Quantity: requirement.Quantity, Unit: requirement.unit, Binding: binding,
			Bound: requirement.bound(binding), Probability: evidence.Pointer(judged.Probability)}, values, spread)
	}
	return nil
}

// contrasts are those of one configuration against the baseline.
func (d *contraster) contrasts(choice string, c int) []Contrast {
	configs := d.table.belief.theory.space.configs
	here, there := d.sides[c], d.sides[d.base]
	out := make([]Contrast, len(here.what))
	for k, x := range here.what {
		x.Choice, x.Level, x.Configuration, x.Against, x.Value = choice, configs[c].levels[choice], configs[c].name, configs[d.base].name, here.ranges[k]
		if c != d.base {
			x.Difference = evidence.Pointer(differenceOf(here.values[k], there.values[k], here.ranges[k], there.ranges[k]))
		}
		out[k] = x
	}
	return out
}
