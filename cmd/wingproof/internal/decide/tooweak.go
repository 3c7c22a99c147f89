package decide

import (
	"fmt"
	"slices"
	"strings"
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

// strengthOf is what the row of a part must say of its strength.
func (o *outcome) strengthOf(part Part) []string {
	for _, p := range o.unstated() {
		if p.Name == part.Name && part.exists() {
			return []string{"nobody has stated what it carries, so its strength is not judged"}
		}
	}
	return o.tooWeakFor(part)
}

// unstated lists the spars that exist and of which nobody has stated what they carry: no size is held against them, so that a spar which is
// too weak for one would go unseen. Left and right count once.
func (o *outcome) unstated() []Part {
	var out []Part
	for _, part := range o.problem.Parts {
		stated := slices.ContainsFunc(o.problem.Built, func(b Built) bool { return sameName(b.Part, part.Name) })
		named := slices.ContainsFunc(out, func(other Part) bool { return other.Name == part.Name })
		if part.exists() && !stated && !named && isSpar(part.Name) {
			out = append(out, part)
		}
	}
	return out
}

// exists tells whether there is a part, rather than drawing, plug or mould.
func (p Part) exists() bool {
	return p.Stage == stageLaidUp || p.Stage == stageReady || p.Stage == stageFitted
}

// isSpar tells by its words whether a part is a spar, and not a mould or a jig for one.
func isSpar(name string) bool {
	words := strings.Fields(plainName(name))
	tool := slices.ContainsFunc(words, func(w string) bool { return slices.Contains([]string{"plug", "mould", "mold", "jig"}, w) })
	return !tool && slices.ContainsFunc(words, func(w string) bool { return w == "spar" || w == "spars" })
}
