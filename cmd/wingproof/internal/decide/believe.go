package decide

import "fmt"

// believed is what a problem asks and what flights make of theory: all that a judgement rests on before anything is drawn.
type believed struct {
	requirements []requirement
	belief       *belief
	agreement    Agreement
	odd          string // what stands out most where flights disagree with theory
}

// believe checks a problem and anchors its theory.
func believe(p Problem) (*believed, error) {
	t, requirements, observed, err := stated(p)
	if err != nil {
		return nil, err
	}
	if p.spread != nil {
		t.spread, t.spreadKnown = p.spread, true
	}
	b, agreement, err := anchorAll(t, observed)
	if err != nil {
		return nil, err
	}
	odd, err := mostAtOdds(t, observed, agreement, p.LengthRatio)
	return &believed{requirements, b, agreement, odd}, err
}

// stated is theory, requirements and flight evidence of a problem.
func stated(p Problem) (*theory, []requirement, *observations, error) {
	if p.Draws < 0 {
		return nil, nil, nil, fmt.Errorf("%d draws; write zero for the default of %d", p.Draws, defaultDraws)
	}
	t, requirements, err := assumedBy(p)
	if err != nil {
		return nil, nil, nil, err
	}
	observed, err := newObservations(t, p.TrimSlopes, p.Direct)
	return t, requirements, observed, err
}

// assumedBy is theory and requirements of a problem.
func assumedBy(p Problem) (*theory, []requirement, error) {
	s, err := newSpace(p)
	if err != nil {
		return nil, nil, err
	}
	t, err := newTheory(s, p.Errors, p.Correlations)
	if err != nil {
		return nil, nil, err
	}
	requirements, err := newRequirements(p, t)
	return t, requirements, err
}
