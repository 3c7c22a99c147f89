package decide

// LimitVerdicts judges the limits and built parts of the configurations named, in their order, as Judge does for all of them: the same
// draws, the same numbers. What follows from them (levels, choices, board) is left out, and so is whether flight evidence is missing
// (FlightsNeed).
//
// An unknown configuration is an error; so is all that is one for Judge.
func LimitVerdicts(p Problem, configurations []map[string]string) ([][]LimitVerdict, error) {
	d, err := believe(p)
	if err != nil {
		return nil, err
	}
	space := d.belief.theory.space
	which := make([]int, len(configurations))
	for i, levels := range configurations {
		if which[i], err = space.locate(levels); err != nil {
			return nil, err
		}
	}
	j, err := newTable(p, d.belief, d.requirements).judge(which)
	if err != nil {
		return nil, err
	}
	out := make([][]LimitVerdict, len(which))
	for i, c := range which {
		out[i] = j.verdicts[c]
	}
	return out, nil
}
