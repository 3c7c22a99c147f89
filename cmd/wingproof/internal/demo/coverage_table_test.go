package demo

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"gonum.org/v1/gonum/stat/distuv"

	"wingproof/flightlog/estimate"
	"wingproof/flightlog/statistic"
)

// tally is what the intervals of one quantity did.
type tally struct {
	quantity                   string
	determined, weak, not      int
	hits, total                int // of intervals with two ends, weak ones included
	errors, halves, own, whole []float64
	clusters                   map[sample][2]int // hits and intervals of each programme
}

// tallied sorts rows into quantities, in the order in which they first come.
func tallied(rows [][]row) []*tally {
	var out []*tally
	index := map[string]*tally{}
	for _, programme := range rows {
		for _, r := range programme {
			t, ok := index[r.Quantity]
			if !ok {
				t = &tally{quantity: r.Quantity, clusters: map[sample][2]int{}}
				index[r.Quantity], out = t, append(out, t)
			}
			t.count(r)
		}
	}
	return out
}

func (t *tally) count(r row) {
	switch r.State {
	case estimate.Determined:
		t.determined++
	case estimate.Weak:
		t.weak++
	default:
		t.not++
	}
	if !statistic.Finite(r.Value, r.Low, r.High, r.SD, r.Truth) || r.State == estimate.NotDetermined {
		return
	}
	at := sample{r.Arm, r.Stream, r.Program}
	c := t.clusters[at]
	c[1]++
	t.total++
	if r.Low <= r.Truth && r.Truth <= r.High {
		c[0]++
		t.hits++
	}
	t.clusters[at] = c
	t.errors, t.halves = append(t.errors, r.Value-r.Truth), append(t.halves, (r.High-r.Low)/2)
	t.own, t.whole = append(t.own, r.SDOwn), append(t.whole, r.SD)
}

func (t *tally) rate() float64 { return float64(t.hits) / float64(t.total) }

// exact is the 95 % interval of a share of k in n (C. J. Clopper and E. S. Pearson, Biometrika 26, 1934, from memory).
func exact(k, n float64) (low, high float64) {
	low, high = 0, 1
	if k > 0 {
		low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(0.025)
	}
	if k < n {
		high = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(0.975)
	}
	return low, high
}

// clustered is that interval with programmes as clusters: k and n are cut down to as many independent intervals as the variance
// between programmes leaves, and for the degrees of freedom behind it (E. L. Korn and B. I. Graubard, Survey Methodology 24, 1998, from
// memory). Where every interval holds, or only one programme counts, programmes are all that counts.
func (t *tally) clustered() (low, high float64) {
	p, n, groups := t.rate(), float64(t.total), float64(len(t.clusters))
	variance := 0.0
	for _, s := range t.inOrder() {
		c := t.clusters[s]
		d := float64(c[0]) - p*float64(c[1])
		variance += d * d
	}
	if groups < 2 || variance == 0 {
		return exact(p*groups, groups)
	}
	variance *= groups / (groups - 1) / (n * n)
	ratio := statistic.StudentQuantile(n-1) / statistic.StudentQuantile(groups-1)
	counts := math.Min(n, p*(1-p)/variance*ratio*ratio)
	return exact(p*counts, counts)
}

func (t *tally) inOrder() []sample {
	var out []sample
	for s := range t.clusters {
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b sample) int {
		if a.stream != b.stream {
			return a.stream - b.stream
		}
		return a.program - b.program
	})
	return out
}

// meets tells whether an interval of coverage meets 93 to 97 %.
func meets(low, high float64) bool { return high >= 0.93 && low <= 0.97 }

func (t *tally) verdict() string {
	low, high := exact(float64(t.hits), float64(t.total))
	switch {
	case t.total == 0:
		return "never"
	case meets(low, high):
		return "meets"
	case high < 0.93:
		return "too narrow"
	}
	return "too wide"
}

// inSDs are errors over their standard deviations.
func (t *tally) inSDs() []float64 {
	var out []float64
	for i, e := range t.errors {
		if t.whole[i] > 0 {
			out = append(out, e/t.whole[i])
		}
	}
	return out
}

// root is the root mean square.
func root(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	return math.Sqrt(sum / float64(len(values)))
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// tableOf prints an arm.
func tableOf(title string, tallies []*tally) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%s\n", title)
	w := tabwriter.NewWriter(&b, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, "quantity\tdetermined\tweak\tnot\tcovered\t%\t95 % of it\tclustered\tverdict\tbias, sds: mean\tmedian\tspread, sds\trms error\t1.96 rms\thalf-width\tsd_own\tsd")
	for _, t := range tallies {
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t%d/%d", t.quantity, t.determined, t.weak, t.not, t.hits, t.total)
		if t.total == 0 {
			fmt.Fprintln(w, "\t\t\t\tnever\t\t\t\t\t\t\t\t")
			continue
		}
		low, high := exact(float64(t.hits), float64(t.total))
		cLow, cHigh := t.clustered()
		z := t.inSDs()
		fmt.Fprintf(w, "\t%.1f\t%.1f–%.1f\t%.1f–%.1f\t%s\t%+.2f\t%+.2f\t%.2f\t%.3g\t%.3g\t%.3g\t%.3g\t%.3g\n", 100*t.rate(), 100*low, 100*high, 100*cLow, 100*cHigh, t.verdict(),
			mean(z), statistic.Median(z), root(z), root(t.errors), 1.96*root(t.errors), statistic.Median(t.halves), statistic.Median(t.own), statistic.Median(t.whole))
	}
	_ = w.Flush() // a strings.Builder takes all
	return b.String()
}
