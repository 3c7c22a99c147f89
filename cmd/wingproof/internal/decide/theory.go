package decide

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"

	"wingproof/cmd/wingproof/internal/evidence"
)

// theory is the belief before any flight: for quantity q and configuration c
//
//	truth = mean + size·k·(bias·z_q + Σ_choice τ_q·level·z_q,choice,level + τ_q·interaction·z_q,c) + doubt_c·z'_q
//
// with independent standard normal z, except that the z of two quantities in one and the same term have
// the declared correlation. k grows when flights disagree with theory; τ scales what distinguishes
// configurations from one another, never the bias. The doubt of the computation itself is one draw for all configurations,
// since it comes from tables and figures that they share.
type theory struct {
	space       space
	quantities  []string      // sorted
	errors      []TheoryError // one a quantity
	mean        [][]float64   // [quantity][configuration]
	size        [][]float64   // what the stated errors are multiplied with: |mean| when relative, else 1
	doubt       [][]float64   // [quantity][configuration] how far the computation itself may be off, one standard deviation
	level       [][]float64   // [quantity][choice], choices sorted by name
	at          [][]string    // [configuration][choice] level flown
	rho         [][]float64   // correlation of quantities
	mix         [][]float64   // lower triangle L with L·Lᵀ = rho
	inflation   float64       // k
	spread      []float64     // τ
	spreadKnown bool          // τ is not found anew from the contrasts between flights
}

// newTheory keeps every quantity that has a stated error and a prediction in every configuration.
//
// Bending is believed as a whole: its error is relative and multiplies every station, so that the root
// bending moment needs no predicted value (1 stands in for it).
func newTheory(s space, errors []TheoryError, correlations []Correlation) (*theory, error) {
	t := &theory{space: s, inflation: 1}
	sorted := append([]TheoryError(nil), errors...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].Quantity < sorted[j].Quantity })
	for i, e := range sorted {
		if i > 0 && sorted[i-1].Quantity == e.Quantity {
			return nil, fmt.Errorf("theory error of %s is stated twice", e.Quantity)
		}
		if err := checkTheoryError(e); err != nil {
			return nil, err
		}
		if mean, ok := s.predicted(e.Quantity); ok {
			t.add(e, mean)
		}
	}
	for _, c := range s.configs {
		at := make([]string, len(s.names))
		for k, name := range s.names {
			at[k] = c.levels[name]
		}
		t.at = append(t.at, at)
	}
	return t, t.correlate(correlations)
}

// checkTheoryError refuses negative and undefined standard deviations.
func checkTheoryError(e TheoryError) error {
	all := []float64{e.Bias, e.Interaction}
	for _, name := range sortedKeys(e.Level) {
		all = append(all, e.Level[name])
	}
	for _, name := range sortedKeys(e.FullSize) {
		all = append(all, e.FullSize[name])
	}
	for _, sd := range all {
		if !(sd >= 0) || math.IsInf(sd, 0) {
			return fmt.Errorf("theory error of %s: %g is no standard deviation; write a number of zero or more", e.Quantity, sd)
		}
	}
	if e.Quantity == evidence.RootBendingMoment && !e.Relative {
		return fmt.Errorf("theory error of %s: state it as a fraction of the predicted moment", e.Quantity)
	}
	return nil
}

// predicted returns a quantity in every configuration, or false when one of them lacks it.
func (s space) predicted(quantity string) ([]float64, bool) {
	mean := make([]float64, len(s.configs))
	for c, config := range s.configs {
		v, ok := config.values[quantity]
		if !ok && quantity == evidence.RootBendingMoment {
			v, ok = 1, true
		}
		if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, false
		}
		mean[c] = v
	}
	return mean, true
}

// add appends a quantity with its prior mean.
func (t *theory) add(e TheoryError, mean []float64) {
	size := make([]float64, len(mean))
	for c := range size {
		size[c] = 1
		if e.Relative {
			size[c] = math.Abs(mean[c])
		}
	}
	level := make([]float64, len(t.space.names))
	for k, name := range t.space.names {
		level[k] = e.Level[name]
	}
	doubt := make([]float64, len(mean))
	for c, config := range t.space.configs {
		doubt[c] = config.doubt[e.Quantity]
	}
	t.doubt = append(t.doubt, doubt)
	t.quantities = append(t.quantities, e.Quantity)
	t.errors = append(t.errors, e)
	t.mean = append(t.mean, mean)
	t.size = append(t.size, size)
	t.level = append(t.level, level)
	t.spread = append(t.spread, 1)
}

// correlate lays out the correlation of quantities and refuses a set that contradicts itself.
func (t *theory) correlate(correlations []Correlation) error {
	n := len(t.quantities)
	rho := mat.NewSymDense(max(n, 1), nil)
	for i := range max(n, 1) {
		rho.SetSym(i, i, 1)
	}
	for _, c := range correlations {
		a, b := t.quantity(c.A), t.quantity(c.B)
		if !(math.Abs(c.Rho) < 1) || c.A == c.B {
			return fmt.Errorf("correlation of %s and %s: %g; write two quantities and a number between -1 and 1", c.A, c.B, c.Rho)
		}
		if a >= 0 && b >= 0 {
			rho.SetSym(a, b, c.Rho)
		}
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(rho) {
		return fmt.Errorf("the stated correlations contradict one another; make some of them smaller")
	}
	var lower mat.TriDense
	cholesky.LTo(&lower)
	t.rho, t.mix = make([][]float64, n), make([][]float64, n)
	for i := range n {
		for j := range n {
			t.rho[i] = append(t.rho[i], rho.At(i, j))
			t.mix[i] = append(t.mix[i], lower.At(i, j))
		}
	}
	return nil
}

// quantity returns the index of a believed quantity, or −1.
func (t *theory) quantity(name string) int {
	for q, have := range t.quantities {
		if have == name {
			return q
		}
	}
	return -1
}

// covariance is that of two beliefs before any flight.
func (t *theory) covariance(q, c, r, d int) float64 {
	doubt := 0.0
	if q == r {
		doubt = t.doubt[q][c] * t.doubt[q][d]
	}
	rho := t.rho[q][r]
	if rho == 0 {
		return doubt
	}
	shape := 0.0
	for k := range t.space.names {
		if t.at[c][k] == t.at[d][k] {
			shape += t.level[q][k] * t.level[r][k]
		}
	}
	if c == d {
		shape += t.errors[q].Interaction * t.errors[r].Interaction
	}
	common := t.errors[q].Bias * t.errors[r].Bias
	return doubt + rho*t.inflation*t.inflation*t.size[q][c]*t.size[r][d]*(common+t.spread[q]*t.spread[r]*shape)
}

// fullSizeSD returns the standard deviation that each named source adds on the way to full size, the doubt of the computed step last.
func (t *theory) fullSizeSD(q, c int) (names []string, sd []float64) {
	names = sortedKeys(t.errors[q].FullSize)
	for _, name := range names {
		sd = append(sd, t.errors[q].FullSize[name]*t.size[q][c])
	}
	if doubt := t.space.configs[c].fullDoubt[t.quantities[q]]; doubt > 0 {
		names, sd = append(names, stepDoubt), append(sd, doubt)
	}
	return names, sd
}

// stepDoubt is the source of the doubt of the computed step to full size, which comes from section data.
const stepDoubt = "section data"

// with returns the same theory with other scales; mean and structure are shared.
func (t *theory) with(inflation float64, spread []float64) *theory {
	scaled := *t
	scaled.inflation = inflation
	scaled.spread = append([]float64(nil), spread...)
	return &scaled
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	return keys
}
