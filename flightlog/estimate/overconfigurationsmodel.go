package estimate

import (
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// weighPrior is what the typical variance is worth, in degrees of freedom, when the weight of a configuration is set by its own scatter:
// one that scatters little by luck would else count for all (common practice, no source). It changes weights, not stated variances.
const weighPrior = 5.0

// additive is the model mean + Σ effect with its fit. Its columns are the mean and, for each changing choice, every level but the first.
type additive struct {
	quantity  string
	flown     []Flown // those with a number
	all       []Flown
	changing  []string
	alike     []string
	levels    map[string][]string // of the changing choices, sorted
	rows      [][]float64         // of flown
	basis     []int               // columns that are independent
	gain      [][]float64         // of the basis parameters on the values: b = gain·y
	projector *mat.Dense          // onto what the model leaves, see residualProjector; nil when nothing is left
	scale     float64             // of standard deviations
	gained    float64             // degrees of freedom from the scatter of configurations about the sum of effects
}

func newAdditive(flown []Flown, changes map[string]bool) additive {
	m := additive{all: flown, levels: map[string][]string{}, scale: 1}
	choices := map[string]bool{}
	for _, f := range flown {
		m.quantity = f.Result.Quantity
		if hasNumber(f.Result) {
			m.flown = append(m.flown, f)
		}
		for choice := range f.Levels {
			choices[choice] = true
		}
	}
	for _, choice := range slices.Sorted(maps.Keys(choices)) {
		if can, named := changes[choice]; named && !can {
			m.alike = append(m.alike, choice)
			continue
		}
		m.changing = append(m.changing, choice)
		for _, f := range m.flown {
			if !slices.Contains(m.levels[choice], f.Levels[choice]) {
				m.levels[choice] = append(m.levels[choice], f.Levels[choice])
			}
		}
		slices.Sort(m.levels[choice])
	}
	for _, f := range m.flown {
		x, _ := m.row(f.Levels)
		m.rows = append(m.rows, x)
	}
	m.basis = independentColumns(m.rows)
	m.solve()
	return m
}

// row is the design of one configuration; words when one of its levels was never flown.
func (m additive) row(levels map[string]string) (x []float64, missing string) {
	x = []float64{1}
	for _, choice := range m.changing {
		place := slices.Index(m.levels[choice], levels[choice])
		if place < 0 {
			return nil, neverFlownWords(choice, levels[choice])
		}
		for i := range m.levels[choice][1:] {
			x = append(x, 0)
			if i+1 == place {
				x[len(x)-1] = 1
			}
		}
	}
	return x, ""
}

// column is where a level of a choice stands; 0 for the first level, which has none.
func (m additive) column(choice, level string) int {
	at := 1
	for _, c := range m.changing {
		if c == choice {
			if place := slices.Index(m.levels[c], level); place > 0 {
				return at + place - 1
			}
			return 0
		}
		at += len(m.levels[c]) - 1
	}
	return 0
}

// difference is one level minus another.
func (m additive) difference(choice, one, other string) []float64 {
	x := make([]float64, m.columns())
	for _, side := range []struct {
		level string
		sign  float64
	}{{one, 1}, {other, -1}} {
		if c := m.column(choice, side.level); c > 0 {
			x[c] += side.sign
		}
	}
	return x
}

// effect is one level minus the mean of all levels of its choice.
func (m additive) effect(choice, level string) []float64 {
	x := make([]float64, m.columns())
	if c := m.column(choice, level); c > 0 {
		x[c]++
	}
	for _, other := range m.levels[choice] {
		if c := m.column(choice, other); c > 0 {
			x[c] -= 1 / float64(len(m.levels[choice]))
		}
	}
	return x
}

func (m additive) columns() int {
	n := 1
	for _, choice := range m.changing {
		n += max(0, len(m.levels[choice])-1)
	}
	return n
}

// solve finds the gain of weighted least squares on the basis columns.
func (m *additive) solve() {
	n, p := len(m.flown), len(m.basis)
	if n == 0 {
		return
	}
	var variances []float64
	for _, f := range m.flown {
		variances = append(variances, square(*f.Result.SDOwn))
	}
	typical := median(variances)
	x, weighed := mat.NewDense(n, p, nil), mat.NewDense(p, n, nil)
	for i, f := range m.flown {
		w := 1.0
		if v := (f.Result.Degrees*variances[i] + weighPrior*typical) / (f.Result.Degrees + weighPrior); v > 0 && !math.IsInf(f.Result.Degrees, 1) {
			w = typical / v
		} else if variances[i] > 0 {
			w = typical / variances[i]
		}
		for k, c := range m.basis {
			x.Set(i, k, m.rows[i][c])
			weighed.Set(k, i, w*m.rows[i][c])
		}
	}
	var normal, gain mat.Dense
	normal.Mul(weighed, x)
	if gain.Solve(&normal, weighed) != nil {
		m.basis = nil
		return
	}
	if n > p {
		if projector, ok := residualProjector(picked(m.rows, m.basis), total(m.errors())); ok {
			m.projector = projector
		}
	}
	for k := range p {
		m.gain = append(m.gain, append([]float64(nil), gain.RawRowView(k)...))
	}
}

// weights of the flown values in xᵀb.
func (m additive) weights(x []float64) []float64 {
	w := make([]float64, len(m.flown))
	for k, c := range m.basis {
		for i := range w {
			w[i] += x[c] * m.gain[k][i]
		}
	}
	return w
}

// estimable tells whether xᵀb does not depend on which columns were chosen as basis: the flown rows reproduce x.
func (m additive) estimable(x []float64) bool {
	if len(m.basis) == 0 {
		return false
	}
	w := m.weights(x)
	for c := range x {
		sum := 0.0
		for i, row := range m.rows {
			sum += w[i] * row[c]
		}
		if math.Abs(sum-x[c]) > 1e-6 {
			return false
		}
	}
	return true
}

// independentColumns are the columns that are no sum of earlier ones, by elimination; the entries are zeros and ones.
func independentColumns(rows [][]float64) []int {
	if len(rows) == 0 {
		return nil
	}
	work := make([][]float64, len(rows))
	for i, row := range rows {
		work[i] = slices.Clone(row)
	}
	var basis []int
	for c := range work[0] {
		top := len(basis)
		if top == len(work) {
			break
		}
		pivot := top
		for i := top; i < len(work); i++ {
			if math.Abs(work[i][c]) > math.Abs(work[pivot][c]) {
				pivot = i
			}
		}
		if math.Abs(work[pivot][c]) < 1e-9 {
			continue
		}
		work[top], work[pivot] = work[pivot], work[top]
		for i := top + 1; i < len(work); i++ {
			f := work[i][c] / work[top][c]
			for k := c; k < len(work[i]); k++ {
				work[i][k] -= f * work[top][k]
			}
		}
		basis = append(basis, c)
	}
	return basis
}
