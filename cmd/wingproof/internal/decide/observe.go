package decide

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"

	"wingproof/cmd/wingproof/internal/evidence"
)

// observation is one measured number. A trim slope at a CG is rate·(CG − neutral point); any other is a
// belief itself.
type observation struct {
	config   int
	quantity int // of a direct measurement
	trim     bool
	cg       float64
	value    float64
}

// record is what one fit hands on: observations with the covariance of their random part, already
// widened for few degrees of freedom, and the effects of shared sources.
type record struct {
	key     string // names it; its noise is drawn by that name
	rank    string // its values, which order records of one name
	rows    []observation
	own     *mat.SymDense
	common  map[string][]float64
	flights []string
	inform  []int // quantities that it informs
}

// observations are all records in the order of their keys, with their joint noise.
type observations struct {
	records []record
	rows    []observation
	noise   *mat.SymDense        // nil when there are no rows
	common  map[string][]float64 // effect of each shared source on every row
	sources []string             // sorted names of common
	unused  []string             // evidence that no belief can use, in words
	factor  float64              // that all noise was multiplied by
	rate    int                  // index of elevator_trim_rate and neutral_point among the beliefs
	neutral int
}

// newObservations checks the evidence and orders it by name, so that no sum depends on the order of rows.
func newObservations(t *theory, slopes []TrimSlopes, direct []Direct) (*observations, error) {
	o := &observations{
		common: map[string][]float64{}, factor: 1,
		rate: t.quantity(evidence.ElevatorTrimRate), neutral: t.quantity(evidence.NeutralPoint),
	}
	for _, s := range slopes {
		if err := o.addSlopes(t, s); err != nil {
			return nil, fmt.Errorf("trim slopes of %s: %w", evidence.Name(s.Levels), err)
		}
	}
	for _, d := range direct {
		if err := o.addDirect(t, d); err != nil {
			return nil, fmt.Errorf("measured %s of %s: %w", d.Quantity, evidence.Name(d.Levels), err)
		}
	}
	o.arrange()
	sort.Strings(o.unused)
	o.assemble()
	return o, nil
}

// addSlopes takes one set of trim slopes.
func (o *observations) addSlopes(t *theory, s TrimSlopes) error {
	c, err := t.space.locate(s.Levels)
	if err != nil {
		return err
	}
	n := len(s.CG)
	if n == 0 || len(s.Slope) != n || len(s.Covariance) != n {
		return fmt.Errorf("%d CGs, %d slopes, %d rows of covariance; give as many of each, one at least", n, len(s.Slope), len(s.Covariance))
	}
	if o.rate < 0 || o.neutral < 0 {
		o.unused = append(o.unused, fmt.Sprintf("trim slopes of %s are not used: neutral point and elevator trim rate are not predicted for every combination", t.space.configs[c].name))
		return nil
	}
	r := record{common: map[string][]float64{}, flights: s.Flights, inform: []int{o.neutral, o.rate}}
	if r.own, err = widened(s.Covariance, s.Degrees); err != nil {
		return err
	}
	for i := range s.CG {
		r.rows = append(r.rows, observation{config: c, quantity: -1, trim: true, cg: s.CG[i], value: s.Slope[i]})
	}
	for _, source := range sortedKeys(s.Common) {
		if len(s.Common[source]) != n {
			return fmt.Errorf("shared source %q has %d effects for %d slopes", source, len(s.Common[source]), n)
		}
		r.common[source] = s.Common[source]
	}
	if sd := powerShare(s.Power) * t.powerSD(o.neutral, c); sd != 0 {
		effect := make([]float64, n)
		for i := range effect {
			effect[i] = -t.mean[o.rate][c] * sd
		}
		r.common["power effect on "+evidence.NeutralPoint] = effect
	}
	if sd := powerShare(s.Power) * t.powerSD(o.rate, c); sd != 0 {
		effect := make([]float64, n)
		for i := range effect {
			effect[i] = sd * (s.CG[i] - t.mean[o.neutral][c])
		}
		r.common["power effect on "+evidence.ElevatorTrimRate] = effect
	}
	r.key, r.rank = recordKey(t.space.configs[c].name, "trim", s.Flights), fmt.Sprint(s.CG, s.Slope)
	o.records = append(o.records, r)
	return o.finite(r)
}

// powerShare is how much of the stated power error, idle to full, a state of power brings into a measurement: the thrust line
// and the propeller's normal force act on what was flown under power, by an amount that only its standard deviation is known of. Level
// power counts half. The error is one and the same for every configuration.
func powerShare(power string) float64 { return map[string]float64{"full": 1, "level": 0.5}[power] }

// powerSD is the stated error of the step from idle to full power.
func (t *theory) powerSD(q, c int) float64 { return t.errors[q].FullSize["power"] * t.size[q][c] }

// addDirect takes one measured number.
func (o *observations) addDirect(t *theory, d Direct) error {
	c, err := t.space.locate(d.Levels)
	if err != nil {
		return err
	}
	if d.Quantity == evidence.NeutralPoint {
		return fmt.Errorf("a neutral point is no direct evidence, since it is a ratio of fitted numbers; hand on the trim slopes behind it")
	}
	q := t.quantity(d.Quantity)
	if q < 0 {
		o.unused = append(o.unused, fmt.Sprintf("measured %s of %s is not used: it is not predicted for every combination with a stated error", d.Quantity, t.space.configs[c].name))
		return nil
	}
	r := record{common: map[string][]float64{}, flights: d.Flights, inform: []int{q}}
	if r.own, err = widened([][]float64{{d.SDOwn * d.SDOwn}}, d.Degrees); err != nil {
		return err
	}
	if !(d.SDOwn >= 0) {
		return fmt.Errorf("standard deviation %g; write a number of zero or more", d.SDOwn)
	}
	r.rows = []observation{{config: c, quantity: q, value: d.Value}}
	for _, source := range sortedKeys(d.Common) {
		r.common[source] = []float64{d.Common[source]}
	}
	if sd := powerShare(d.Power) * t.powerSD(q, c); sd != 0 {
		r.common["power effect on "+d.Quantity] = []float64{sd}
	}
	r.key, r.rank = recordKey(t.space.configs[c].name, d.Quantity, d.Flights), fmt.Sprint(d.Value, d.SDOwn)
	o.records = append(o.records, r)
	return o.finite(r)
}

// finite refuses records with numbers that are none.
func (o *observations) finite(r record) error {
	bad := func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
	for _, row := range r.rows {
		if bad(row.value) || bad(row.cg) {
			return fmt.Errorf("value %g at CG %g m is not a number", row.value, row.cg)
		}
	}
	for _, source := range sortedKeys(r.common) {
		for _, effect := range r.common[source] {
			if bad(effect) {
				return fmt.Errorf("shared source %q has the effect %g", source, effect)
			}
		}
	}
	return nil
}

// assemble stacks the records and adds up their noise: own blocks, and shared sources across all rows.
func (o *observations) assemble() {
	for _, r := range o.records {
		start := len(o.rows)
		o.rows = append(o.rows, r.rows...)
		for source := range r.common {
			if o.common[source] == nil {
				o.common[source] = make([]float64, o.count())
			}
			copy(o.common[source][start:], r.common[source])
		}
	}
	o.sources = sortedKeys(o.common)
	m := len(o.rows)
	if m == 0 {
		return
	}
	o.noise = mat.NewSymDense(m, nil)
	start := 0
	for _, r := range o.records {
		for i := range r.rows {
			for j := range i + 1 {
				o.noise.SetSym(start+i, start+j, r.own.At(i, j))
			}
		}
		start += len(r.rows)
	}
	for _, source := range o.sources {
		effect := o.common[source]
		for i := range m {
			for j := range i + 1 {
				o.noise.SetSym(i, j, o.noise.At(i, j)+effect[i]*effect[j])
			}
		}
	}
}

// count is the number of rows of all records.
func (o *observations) count() int {
	n := 0
	for _, r := range o.records {
		n += len(r.rows)
	}
	return n
}

// scaled returns the same observations with all noise multiplied by a factor.
func (o *observations) scaled(factor float64) *observations {
	wider := &observations{common: map[string][]float64{}, factor: factor * o.factor, unused: o.unused, rate: o.rate, neutral: o.neutral}
	for _, r := range o.records {
		next := r
		next.own = mat.NewSymDense(len(r.rows), nil)
		next.own.ScaleSym(factor*factor, r.own)
		next.common = map[string][]float64{}
		for source, effect := range r.common {
			scaled := make([]float64, len(effect))
			for i, e := range effect {
				scaled[i] = factor * e
			}
			next.common[source] = scaled
		}
		wider.records = append(wider.records, next)
	}
	wider.assemble()
	return wider
}

// flights lists the flights behind a quantity of a configuration, sorted, each once.
func (o *observations) flights(q, c int) []string {
	seen := map[string]bool{}
	for _, r := range o.records {
		if r.rows[0].config != c {
			continue
		}
		for _, informed := range r.inform {
			if informed == q {
				for _, flight := range r.flights {
					seen[flight] = true
				}
			}
		}
	}
	return sortedKeys(seen)
}

// configurations lists the configurations that a quantity was measured in, in rising order.
func (o *observations) configurations(q int) []int {
	seen := map[int]bool{}
	for _, r := range o.records {
		for _, informed := range r.inform {
			if informed == q {
				seen[r.rows[0].config] = true
			}
		}
	}
	list := make([]int, 0, len(seen))
	for c := range seen {
		list = append(list, c)
	}
	sort.Ints(list)
	return list
}
