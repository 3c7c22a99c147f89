package decide

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

// upperBinomial is the upper 95 % bound (one-sided, Clopper and Pearson) of a rate of hits in tries.
func upperBinomial(hits, tries int) float64 {
	if tries == 0 || hits == tries {
		return 1
	}
	return distuv.Beta{Alpha: float64(hits + 1), Beta: float64(tries - hits)}.Quantile(0.95)
}

// count is hits in tries.
type counts struct{ hits, tries int }

func (c *counts) add(hit bool) {
	c.tries++
	if hit {
		c.hits++
	}
}

func (c counts) String() string {
	if c.tries == 0 {
		return "none"
	}
	return fmt.Sprintf("%d of %d = %.1f %%, upper bound %.1f %%", c.hits, c.tries, 100*float64(c.hits)/float64(c.tries), 100*upperBinomial(c.hits, c.tries))
}

// armTally is what one arm of the study comes to.
type armTally struct {
	arm                string
	programs           int
	near               counts
	freezes, outs      counts
	programsWithFreeze counts // programs with any false freeze among those that froze something
	decisions          counts // wrong ones
	byPart, byLimit    map[string]*counts
	bins               [10]counts // stated probability of a limit against how often it holds
	stated             [10]float64
	hours, knowable    float64
}

func newArmTally(name string) *armTally {
	return &armTally{arm: name, byPart: map[string]*counts{}, byLimit: map[string]*counts{}}
}

func of(m map[string]*counts, key string) *counts {
	if m[key] == nil {
		m[key] = &counts{}
	}
	return m[key]
}

// add takes one program.
func (t *armTally) add(y *shopYear) {
	t.programs++
	t.hours, t.knowable = t.hours+y.hours, t.knowable+y.knowable
	any := false
	for _, f := range y.freezes {
		t.freezes.add(f.falsely())
		of(t.byPart, f.part).add(f.falsely())
		any = any || f.falsely()
		for _, limit := range f.limits {
			of(t.byLimit, limit).add(contains(f.broken, limit))
		}
	}
	if len(y.freezes) > 0 {
		t.programsWithFreeze.add(any)
	}
	for _, o := range y.outs {
		t.outs.add(o.falsely)
	}
	for _, right := range y.settled {
		t.decisions.add(!right)
	}
	for _, v := range y.verdicts {
		bin := min(9, int(10*v.stated))
		t.bins[bin].add(v.holds)
		t.stated[bin] += v.stated
	}
}

// table writes one arm.
func (t *armTally) table() string {
	var b strings.Builder
	line := func(what, format string, args ...any) {
		fmt.Fprintf(&b, "  %-44s"+format+"\n", append([]any{what}, args...)...)
	}
	fmt.Fprintf(&b, "arm %q, %d programs\n", t.arm, t.programs)
	line("true margins within one prior sd", "%.1f %% of %d", 100*float64(t.near.hits)/float64(max(1, t.near.tries)), t.near.tries)
	line("false freezes, parts", "%s", t.freezes)
	line("  programs with one or more", "%s", t.programsWithFreeze)
	for _, part := range sortedKeys(t.byPart) {
		line("  "+part, "%s", t.byPart[part])
	}
	for _, limit := range sortedKeys(t.byLimit) {
		line("  limit "+limit, "%s", t.byLimit[limit])
	}
	line("false outs, combinations and sizes", "%s", t.outs)
	line("wrong decisions of the shop", "%s", t.decisions)
	line("hours cleared", "%.0f of %.0f that the all-knowing judge clears = %.1f %%", t.hours, t.knowable, 100*t.hours/t.knowable)
	b.WriteString("  reliability of stated probabilities, every limit, combination and board\n")
	b.WriteString("    stated            mean stated   holds in truth   of\n")
	for i, c := range t.bins {
		if c.tries > 0 {
			fmt.Fprintf(&b, "    %3d to %3d %%      %6.1f %%      %6.1f %%          %d\n", 10*i, 10*i+10, 100*t.stated[i]/float64(c.tries), 100*float64(c.hits)/float64(c.tries), c.tries)
		}
	}
	return b.String()
}
