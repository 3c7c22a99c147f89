package decide

import (
	"fmt"
	"slices"
)

// tooWeakFor says on the row of a built part which sizes it rules out, so that nobody forgets it once they are out.
func (o *outcome) tooWeakFor(part Part) []string {
	var out []string
	for r, requirement := range o.judgement.requirements {
		if requirement.built == nil || !sameName(requirement.built.Part, part.Name) {
			continue
		}
		for _, level := range o.levels {
			configs := o.withLevel(level.Choice, level.Level)
			if level.State == Out && slices.Contains(o.commonRequirements(configs), r) {
				v := o.judgement.verdicts[o.mildest(r, configs)][r]
				out = append(out, fmt.Sprintf("too weak for %s %s (%s of what it may carry)", level.Choice, level.Level, inUnit(v.Median, v.Unit, v.Quantity)))
			}
		}
	}
	return out
}
