package decide

import "fmt"

// Assessment is what the joint draws say of a problem: how every configuration does against every limit, and how flights and theory agree.
// Parts, decisions, what was left out and the date play no role in it, so that it stays as it is when the shop writes one of them
// down. It is plain data, which may be kept.
type Assessment struct {
	Draws          int
	Agreement      Agreement
	AtOdds         string    // what stands out most where flights disagree with theory
	Inflation      float64   // of the stated errors of theory
	Noise          float64   // the same of those of the flights
	Spread         []float64 // scale of what distinguishes configurations, by believed quantity
	Configurations []Assessed
}

// Assessed is one configuration.
type Assessed struct {
	Limits  []LimitVerdict      // limits, then built parts
	Holds   [][]uint64          // of the same: a bit for each draw, set where it holds
	AllHold float64             // probability that all hold at once
	Motions map[string]*surface // how the modes of motion follow what is believed, by loading
}

// assessment writes a judgement down.
func (d *believed) assessment(j *judgement) Assessment {
	t := d.belief.theory
	out := Assessment{Draws: j.drawn, Agreement: d.agreement, AtOdds: d.odd, Inflation: t.inflation, Noise: d.belief.observed.factor, Spread: t.spread}
	for c := range j.verdicts {
		one := Assessed{Limits: j.verdicts[c], AllHold: j.all[c], Motions: j.surfaces[c]}
		for _, holds := range j.holds[c] {
			one.Holds = append(one.Holds, holds)
		}
		out.Configurations = append(out.Configurations, one)
	}
	return out
}

// Verdict is what follows for the parts of a problem under its record of decisions. The problem is the one that was assessed, whatever its parts,
// decisions, date and flights left out.
func (a Assessment) Verdict(p Problem) (Verdict, error) {
	d, err := a.believe(p)
	if err != nil {
		return Verdict{}, err
	}
	return (&assessed{p, d, a.judgement(p, d.requirements)}).verdict(p.Decisions)
}

// believe anchors the theory of a problem as it was when it was assessed: scales of errors are taken over, since finding them costs most.
func (a Assessment) believe(p Problem) (*believed, error) {
	t, requirements, observed, err := stated(p)
	if err != nil {
		return nil, err
	}
	if err := a.fits(t, requirements); err != nil {
		return nil, err
	}
	if a.Noise != 1 {
		observed = observed.scaled(a.Noise)
	}
	b, err := anchor(t.with(a.Inflation, a.Spread), observed)
	return &believed{requirements, b, a.Agreement, a.AtOdds}, err
}

// fits refuses an assessment of another problem.
func (a Assessment) fits(t *theory, requirements []requirement) error {
	other := len(a.Configurations) != len(t.space.configs) || len(a.Spread) != len(t.quantities)
	for _, c := range a.Configurations {
		other = other || len(c.Limits) != len(requirements) || len(c.Holds) != len(requirements)
	}
	if other {
		return fmt.Errorf("what was assessed is another problem: %d configurations of %d, %d beliefs of %d", len(a.Configurations), len(t.space.configs), len(a.Spread), len(t.quantities))
	}
	return nil
}

// judgement reads what assessment wrote.
func (a Assessment) judgement(p Problem, requirements []requirement) *judgement {
	j := newJudgement(p, a.Draws, len(a.Configurations), requirements)
	for c, one := range a.Configurations {
		j.verdicts[c], j.all[c], j.surfaces[c] = one.Limits, one.AllHold, one.Motions
		for _, holds := range one.Holds {
			j.holds[c] = append(j.holds[c], holds)
		}
	}
	return j
}
