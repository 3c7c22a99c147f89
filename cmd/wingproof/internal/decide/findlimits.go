package decide

import (
	"fmt"
	"unicode/utf8"
)

// findLimits blocks parts whose limits do not hold together in every live configuration, and says of the
// others why open choices do not matter to them.
func (o *outcome) findLimits(d demands, f *findings) {
	if len(d.limits) == 0 || o.liveCount() == 0 {
		return
	}
	worst, least := o.worstTogether(d)
	if reached(least, o.judgement.n) {
		o.noteHolding(d, least, f)
		o.noteLeftOut(d, f)
		return
	}
	open := o.openLimits(d)
	for _, r := range open {
		f.block(blocker{reason: "waits for " + o.judgement.requirements[r].phrase() + ": " + o.notSure(r)})
	}
	if len(open) == 0 {
		f.block(blocker{reason: fmt.Sprintf("waits for %s together: each holds by itself, all of them are only %s sure%s",
			o.names(d.limits), surety(least), o.withSizes(worst))})
	}
}

// notSure says how sure a limit is at worst, and which sizes still possible are to blame.
func (o *outcome) notSure(r int) string {
	live := o.liveConfigs()
	c := o.weakest(r, live)
	text := "only " + surety(o.judgement.verdicts[c][r].Probability) + " sure"
	if len(live) == 1 {
		return text
	}
	if o.judgement.requirements[r].kind() == restsOnWeight {
		return text + ", whatever the open sizes"
	}
	blamed := o.narrowest(c, nil, live, func(k int) bool { return !o.holds(r, k) })
	if len(blamed) == 0 {
		return text + " at worst, and not sure with any size still possible"
	}
	return text + " with " + o.sizes(c, blamed)
}

// withSizes names a configuration where there is more than one left.
func (o *outcome) withSizes(c int) string {
	if o.liveCount() == 1 {
		return ""
	}
	return " with " + o.sizes(c, o.space.names)
}

// surety writes a probability, and says so where it is too near 95 % to count.
func surety(p float64) string {
	if p >= sure {
		return percent(p) + " (too close to 95 % to count)"
	}
	return percent(p)
}

// longest is how many characters a reason may have where that is possible.
const longest = 120

// noteHolding says why the open choices do not matter to a part's limits.
func (o *outcome) noteHolding(d demands, least float64, f *findings) {
	verb := "hold"
	if len(d.limits) == 1 {
		verb = "holds"
	}
	var open []string
	for _, v := range o.choices {
		if len(v.Live) > 1 && !contains(d.shapedBy, v.Choice) {
			open = append(open, v.Choice)
		}
	}
	tail := fmt.Sprintf("%s (%s sure)", verb, percent(least))
	switch {
	case len(open) == 0:
	case o.onWeightAlone(d.limits):
		tail = fmt.Sprintf("%s whatever the open sizes (%s sure)", verb, percent(least))
	default:
		tail = fmt.Sprintf("%s with every %s still possible (%s sure)", verb, list(open, "and"), atWorst(least))
	}
	text := o.names(d.limits) + " " + tail
	if utf8.RuneCountInString(text) > longest {
		f.detail("the %d limits: %s", len(d.limits), o.names(d.limits))
		text = fmt.Sprintf("its %d limits %s", len(d.limits), tail)
	}
	f.note("%s", text)
	if len(open) > 0 {
		f.detail("what the part must pass holds whichever %s of those still possible is chosen", list(open, "and"))
	}
}

// atWorst writes the least of several probabilities.
func atWorst(p float64) string {
	if p >= 0.999 {
		return percent(p)
	}
	return "at worst " + percent(p)
}
