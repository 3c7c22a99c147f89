package estimate

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"wingproof/flightlog/statistic"

	"gonum.org/v1/gonum/stat/distuv"
)

// tally counts how often intervals hold the truth; undetermined results are counted apart.
type tally struct {
	name                       string
	seeds                      []string // what each seed gave: covered of determined
	inside, outside, undecided int
	errors, halves, sds        []float64
}

func (c *tally) count(r Result, truth float64) {
	if r.Low == nil || r.High == nil || r.Value == nil {
		c.undecided++
		return
	}
	if truth >= *r.Low && truth <= *r.High {
		c.inside++
	} else {
		c.outside++
	}
	c.errors = append(c.errors, *r.Value-truth)
	c.halves = append(c.halves, (*r.High-*r.Low)/2)
	c.sds = append(c.sds, *r.SD)
}

// add joins the counts of another seed.
func (c *tally) add(o *tally) {
	c.seeds = append(c.seeds, fmt.Sprintf("%d/%d", o.inside, o.decided()))
	c.name, c.inside, c.outside, c.undecided = o.name, c.inside+o.inside, c.outside+o.outside, c.undecided+o.undecided
	c.errors, c.halves, c.sds = append(c.errors, o.errors...), append(c.halves, o.halves...), append(c.sds, o.sds...)
}

func (c *tally) decided() int  { return c.inside + c.outside }
func (c *tally) rate() float64 { return float64(c.inside) / float64(c.decided()) }

// bounds is the exact 95 % interval of a share (C. J. Clopper and E. S. Pearson, Biometrika 26, 1934, from memory).
func (c *tally) bounds() (low, high float64) {
	n, k := float64(c.decided()), float64(c.inside)
	low, high = 0, 1
	if k > 0 {
		low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(0.025)
	}
	if k < n {
		high = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(0.975)
	}
	return low, high
}

// meets tells whether that interval meets 93 to 97 %.
func (c *tally) meets() bool {
	low, high := c.bounds()
	return c.decided() > 0 && high >= 0.93 && low <= 0.97
}

// spread is the median standard deviation over the error that the estimates really had, from its median: about 1 where no width is wasted.
func (c *tally) spread() float64 {
	return statistic.Median(c.sds) / (madToSD * statistic.Median(statistic.Magnitudes(c.errors)))
}

func (c *tally) verdict() string {
	_, high := c.bounds()
	switch {
	case c.decided() == 0:
		return "never determined"
	case c.meets():
		return "meets"
	case high < 0.93:
		return "too narrow"
	default:
		return "too wide"
	}
}

// writeTable prints one arm of the study.
func writeTable(w io.Writer, arm string, tallies []*tally) {
	fmt.Fprintf(w, "\n%s\n", arm)
	t := tabwriter.NewWriter(w, 0, 4, 2, ' ', 0)
	fmt.Fprintln(t, "quantity\tdetermined\tnot\tcovered\trate %\t95 % of the rate\tverdict\tmedian error\tmedian half-width\tsd/error\tby seed")
	for _, c := range tallies {
		low, high := c.bounds()
		fmt.Fprintf(t, "%s\t%d\t%d\t%d\t%.1f\t%.1f to %.1f\t%s\t%.2g\t%.3g\t%.2f\t%s\n", c.name, c.decided(), c.undecided, c.inside, 100*c.rate(),
			100*low, 100*high, c.verdict(), statistic.Median(c.errors), statistic.Median(c.halves), c.spread(), strings.Join(c.seeds, " "))
	}
	_ = t.Flush()
}
