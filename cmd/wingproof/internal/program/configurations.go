package program

// Configurations lists every combination of levels, one level of each choice. Choices stand in the order
// of the file with the first one changing slowest, and in each the baseline comes first, then the
// others in the order of the file. Without choices there is one empty combination.
func (p *Program) Configurations() []map[string]string {
	out := []map[string]string{{}}
	for _, c := range p.Choices {
		var next []map[string]string
		for _, before := range out {
			for _, level := range c.baselineFirst() {
				levels := make(map[string]string, len(before)+1)
				for k, v := range before {
					levels[k] = v
				}
				levels[c.Name] = level
				next = append(next, levels)
			}
		}
		out = next
	}
	return out
}

func (c Choice) baselineFirst() []string {
	out := []string{c.Baseline}
	for _, level := range c.Levels {
		if level.Name != c.Baseline {
			out = append(out, level.Name)
		}
	}
	return out
}

// baseline is the combination of all baselines.
func (p *Program) baseline() map[string]string {
	levels := map[string]string{}
	for _, c := range p.Choices {
		levels[c.Name] = c.Baseline
	}
	return levels
}
