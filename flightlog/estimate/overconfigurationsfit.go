package estimate

import (
	"math"
	"slices"
)

// negligible is the weight below which a configuration is not named behind a result: rounding.
const negligible = 1e-9

// label starts a result with what all configurations share.
func (m additive) label() Result {
	r := Result{Quantity: m.quantity, Common: map[string]float64{}}
	for i, f := range m.flown {
		if i == 0 {
			r.Unit, r.Power, r.CG, r.HasCG, r.Reynolds = f.Result.Unit, f.Result.Power, f.Result.CG, f.Result.HasCG, f.Result.Reynolds
		}
		r.Lift += f.Result.Lift / float64(len(m.flown))
	}
	return r
}

// along fills xᵀb with its interval.
func (m additive) along(r Result, x []float64) Result {
	w := m.weights(x)
	var value, variance float64
	var results []Result
	common := map[string]float64{}
	for i, f := range m.flown {
		results = append(results, f.Result)
		value += w[i] * *f.Result.Value
		variance += square(w[i]**f.Result.SDOwn) + m.uncertainWeight(i, w[i])
		for _, name := range sourceNames(f.Result.Common) {
			common[name] += w[i] * f.Result.Common[name]
		}
		if math.Abs(w[i]) > negligible {
			r.Flights = append(r.Flights, f.Result.Flights...)
			r.Points += f.Result.Points
		}
	}
	slices.Sort(r.Flights)
	r.Flights = slices.Compact(r.Flights)
	r.Degrees = combinedDegrees(results, w) + m.gained
	return fillCombined(r, value, m.scale*math.Sqrt(variance), common)
}

// uncertainWeight is what the variance grows by because the weight of a configuration that stands on its own scatter is uncertain: the
// correction of joint.alongWeights, one configuration a part. One scatter behind all configurations moves no weights.
func (m additive) uncertainWeight(i int, w float64) float64 {
	r := m.flown[i].Result
	if standsOnPool(r) || m.projector == nil || math.IsInf(r.Degrees, 1) {
		return 0
	}
	felt := r.Degrees / (r.Degrees + weighPrior)
	return felt * (1 + felt) * 2 / r.Degrees * square(w*square(*r.SDOwn)) * math.Max(0, m.projector.At(i, i))
}

// alone tells whether xᵀb is the value of one configuration and nothing else.
func (m additive) alone(x []float64, own *Flown) bool {
	for i, w := range m.weights(x) {
		if math.Abs(w) > negligible && !sameLevels(m.flown[i].Levels, own.Levels) {
			return false
		}
	}
	return true
}

// test is how far configurations lie from the sum of effects.
func (m additive) test() spreadTest { return m.spreadAbout(m.rows, m.basis) }

// cellTest is how far configurations that differ only in choices that cannot change the quantity lie from one another.
func (m additive) cellTest() spreadTest {
	var cells [][]float64
	var rows [][]float64
	for _, row := range m.rows {
		place := slices.IndexFunc(cells, func(c []float64) bool { return slices.Equal(c, row) })
		if place < 0 {
			place = len(cells)
			cells = append(cells, row)
		}
		x := make([]float64, len(m.rows))
		x[place] = 1
		rows = append(rows, x)
	}
	return m.spreadAbout(rows, independentColumns(rows))
}

func (m additive) spreadAbout(rows [][]float64, columns []int) spreadTest {
	if len(columns) == 0 || len(rows) <= len(columns) {
		return spreadTest{}
	}
	var values []float64
	for _, f := range m.flown {
		values = append(values, *f.Result.Value)
	}
	return spread(values, picked(rows, columns), m.errors())
}

// errors are the random parts and the shared sources.
func (m additive) errors() []errorPart {
	var common []map[string]float64
	for _, f := range m.flown {
		common = append(common, f.Result.Common)
	}
	return append(m.randomParts(), commonParts(common)...)
}

// picked are some columns of rows.
func picked(rows [][]float64, columns []int) [][]float64 {
	var out [][]float64
	for _, row := range rows {
		var some []float64
		for _, c := range columns {
			some = append(some, row[c])
		}
		out = append(out, some)
	}
	return out
}

// randomParts are the own errors of the configurations: one part for all that stand on the pooled scatter, one for each other.
func (m additive) randomParts() []errorPart {
	n := len(m.flown)
	pooled := errorPart{covariance: zeros(n), degrees: math.Inf(1)}
	var out []errorPart
	for i, f := range m.flown {
		own := errorPart{zeros(n), f.Result.Degrees}
		own.covariance[i][i] = math.Max(square(*f.Result.SDOwn), math.SmallestNonzeroFloat64)
		if !standsOnPool(f.Result) {
			out = append(out, own)
			continue
		}
		pooled.covariance[i][i] = own.covariance[i][i]
		pooled.degrees = math.Min(pooled.degrees, f.Result.Degrees)
	}
	return append(out, pooled)
}

// rescale scales standard deviations by how configurations scatter about the sum of effects, weighed with the fewest degrees of freedom
// that they stand on. It needs one scatter behind all of them; where each has its own, that of a lucky one would rule χ².
func (m *additive) rescale(test spreadTest) {
	degrees := math.Inf(1)
	for _, f := range m.flown {
		if !standsOnPool(f.Result) {
			return
		}
		degrees = math.Min(degrees, f.Result.Degrees)
	}
	if test.freedom == 0 || math.IsInf(degrees, 1) {
		return
	}
	q := float64(test.freedom)
	m.scale, m.gained = math.Sqrt((degrees+test.chiSquare)/(degrees+q)), q
}
