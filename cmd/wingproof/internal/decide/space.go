package decide

import (
	"fmt"
	"math"
	"sort"

	"wingproof/cmd/wingproof/internal/evidence"
)

// configuration is one combination of levels with what theory says of it.
type configuration struct {
	name    string
	levels  map[string]string
	values  map[string]float64
	step    map[string]float64
	bending map[string][]BendingStation
	doubt   map[string]float64

	fullDoubt map[string]float64 // of the step to full size

	stop float64 // rad, nose-up travel of the elevator
}

// space is every combination of levels, in the order of the choices and of their levels.
type space struct {
	choices []Choice
	names   []string // of the choices, sorted: the order of all sums
	configs []configuration
	index   map[string]int // by configuration name
}

// newSpace checks choices and predictions and lays out the product of all levels.
func newSpace(p Problem) (space, error) {
	s := space{choices: p.Choices, index: map[string]int{}}
	for _, choice := range p.Choices {
		if err := checkChoice(choice, s.names); err != nil {
			return space{}, err
		}
		s.names = append(s.names, choice.Name)
	}
	sort.Strings(s.names)
	for i, levels := range product(p.Choices) {
		name := evidence.Name(levels)
		s.configs = append(s.configs, configuration{name: name, levels: levels})
		s.index[name] = i
	}
	return s, s.fill(p.Predictions)
}

// checkChoice refuses choices without a name, without levels, or stated twice.
func checkChoice(choice Choice, earlier []string) error {
	if choice.Name == "" || len(choice.Levels) == 0 {
		return fmt.Errorf("choice %q: a choice needs a name and at least one level", choice.Name)
	}
	if contains(earlier, choice.Name) {
		return fmt.Errorf("choice %q is stated twice; give each choice a name of its own", choice.Name)
	}
	for i, level := range choice.Levels {
		if contains(choice.Levels[:i], level) {
			return fmt.Errorf("choice %q: level %q is stated twice", choice.Name, level)
		}
	}
	if choice.Baseline != "" && !contains(choice.Levels, choice.Baseline) {
		return fmt.Errorf("choice %q: baseline %q is none of its levels", choice.Name, choice.Baseline)
	}
	return nil
}

// product lists every combination of levels, the last choice running fastest.
func product(choices []Choice) []map[string]string {
	combinations := []map[string]string{{}}
	for _, choice := range choices {
		var longer []map[string]string
		for _, levels := range combinations {
			for _, level := range choice.Levels {
				next := make(map[string]string, len(levels)+1)
				for k, v := range levels {
					next[k] = v
				}
				next[choice.Name] = level
				longer = append(longer, next)
			}
		}
		combinations = longer
	}
	return combinations
}

// fill puts each prediction at its combination and refuses gaps and doubles.
func (s *space) fill(predictions []Prediction) error {
	seen := make([]bool, len(s.configs))
	for _, prediction := range predictions {
		c, err := s.locate(prediction.Levels)
		if err != nil {
			return fmt.Errorf("prediction: %w", err)
		}
		if seen[c] {
			return fmt.Errorf("prediction of %s is given twice", s.configs[c].name)
		}
		if err := prediction.check(); err != nil {
			return fmt.Errorf("prediction of %s: %w", s.configs[c].name, err)
		}
		seen[c] = true
		s.configs[c].values = prediction.Values
		s.configs[c].step = prediction.Step
		s.configs[c].bending = prediction.Bending
		s.configs[c].doubt, s.configs[c].fullDoubt = prediction.Doubt, prediction.FullDoubt
		s.configs[c].stop = prediction.NoseUpStop
	}
	for c, ok := range seen {
		if !ok {
			return fmt.Errorf("prediction of %s is missing; every combination of levels needs one", s.configs[c].name)
		}
	}
	return nil
}

// check refuses numbers that are none. A value that is no number counts as not predicted.
func (p Prediction) check() error {
	if notFinite(p.NoseUpStop) {
		return fmt.Errorf("travel of the elevator is %g; write a number", p.NoseUpStop)
	}
	for _, quantity := range sortedKeys(p.Step) {
		if notFinite(p.Step[quantity]) {
			return fmt.Errorf("step of %s to full size is %g; write a number", quantity, p.Step[quantity])
		}
	}
	for _, doubts := range []map[string]float64{p.Doubt, p.FullDoubt} {
		for _, quantity := range sortedKeys(doubts) {
			if v := doubts[quantity]; !(v >= 0) || notFinite(v) {
				return fmt.Errorf("doubt of %s is %g; write a number of zero or more", quantity, v)
			}
		}
	}
	for _, surface := range sortedKeys(p.Bending) {
		for _, s := range p.Bending[surface] {
			if notFinite(s.Y) || notFinite(s.Moment) {
				return fmt.Errorf("bending of %s at %g m is %g N·m; write numbers", surface, s.Y, s.Moment)
			}
		}
	}
	return nil
}

func notFinite(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }

// locate finds the combination that the levels name: every choice once, each level listed.
func (s *space) locate(levels map[string]string) (int, error) {
	name := evidence.Name(levels)
	c, ok := s.index[name]
	if !ok {
		return 0, fmt.Errorf("%s is no combination of the listed levels; state one level for each of %v", name, s.names)
	}
	return c, nil
}

// all are the places of all combinations.
func (s *space) all() []int {
	places := make([]int, len(s.configs))
	for c := range places {
		places[c] = c
	}
	return places
}

// choice finds a choice by name.
func (s *space) choice(name string) (Choice, bool) {
	for _, choice := range s.choices {
		if choice.Name == name {
			return choice, true
		}
	}
	return Choice{}, false
}

func contains(list []string, item string) bool {
	for _, have := range list {
		if have == item {
			return true
		}
	}
	return false
}
