package identify

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
)

// Excitation tells what the inputs of some segments excited: can each derivative be told from the others?
type Excitation struct {
	Axis         Axis
	Regressors   []string    // what the derivatives are by, in the order of columns; what was not moved at all is missing
	Singular     []float64   // singular values of the regressors, each scaled to unit length and without what every segment has of its own; largest first
	Condition    float64     // largest over smallest singular value; +Inf when the regressors do not differ
	Proportions  [][]float64 // [singular value][regressor]: share of the variance of that derivative that comes from this direction
	Correlations []Pair      // of regressors, all pairs, most first
	Lacks        []Lack
	Warnings     []string // the lacks in words, and what is odd about the inputs
}

// Lack is a group of derivatives that the inputs did not excite.
type Lack struct {
	Derivatives []string
	Why         string // what is wrong, what follows, what to fly
}

// Excite tells what the inputs of segments excited, before anything is fitted; it takes what EquationError takes and fails where
// that fails. How large the noise is it learns from the residuals of the regression, where that can be done.
//
// Source: Belsley, Kuh and Welsch, Regression Diagnostics, chapter 3: condition indices and variance-decomposition proportions (from
// memory).
func Excite(segments []Segment, axis Axis, setup Setup) (Excitation, error) {
	g, err := gather(segments, axis, setup)
	if err != nil {
		return Excitation{}, err
	}
	samples := g.blocks(asReported())
	used := movedColumns(samples, axisTerms(axis))
	x := describe(samples, samples, used, axis)
	way := timeDomain()
	if r, err := regress(narrowed(samples, used)); err == nil {
		covariance := way.spread(&r)
		gusty := g.flattened(&r, covariance, samples)
		d := g.derivatives(&r, used, covariance)
		g.judge(d, &x)
		g.judgeGusts(d, gusty)
		x.addBlurred(d)
	}
	x.Warnings = append(append(x.Warnings, g.lonely()...), g.warnings...)
	return x, nil
}

// leastStroke is the stroke of a surface, from end to end, below which it was not moved, rad: 0.2°, about the play of a linkage.
// Common practice, no source.
const leastStroke = 0.0035

// movedColumns are the columns that can carry a derivative: all but surfaces that stood still.
func movedColumns(samples []block, terms []regressor) []int {
	var used []int
	for j, t := range terms {
		if t.control == "" || stroke(samples, j) >= leastStroke {
			used = append(used, j)
		}
	}
	return used
}

// stroke is the widest range of a column within one segment.
func stroke(samples []block, column int) float64 {
	widest := 0.0
	for _, b := range samples {
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range b.columns[column] {
			low, high = math.Min(low, v), math.Max(high, v)
		}
		widest = math.Max(widest, high-low)
	}
	return widest
}

// describe looks at the rows of a regression; samples are the same segments over time.
func describe(rows, samples []block, used []int, axis Axis) Excitation {
	terms := axisTerms(axis)
	x := Excitation{Axis: axis}
	for _, j := range used {
		x.Regressors = append(x.Regressors, terms[j].words)
	}
	scaled := unitColumns(narrowed(rows, used))
	x.decompose(scaled)
	x.Correlations = correlationsOf(x.Regressors, scaled)
	x.addUnmoved(samples, used, terms)
	x.addCollinear(samples, used, terms)
	return x
}

// unitColumns stacks the columns of all blocks, without what each has of its own, and scales them to unit length.
func unitColumns(rows []block) *mat.Dense {
	n := 0
	for _, b := range rows {
		n += len(b.columns[0])
	}
	out, at := mat.NewDense(n, len(rows[0].columns), nil), 0
	for _, b := range rows {
		for j, c := range b.without(b.columns) {
			for i, v := range c {
				out.Set(at+i, j, v)
			}
		}
		at += len(b.columns[0])
	}
	for j := range rows[0].columns {
		column := mat.Col(nil, j, out)
		if length := math.Sqrt(inner(column, column)); length > 0 {
			for i, v := range column {
				out.Set(i, j, v/length)
			}
		}
	}
	return out
}

// flat is the share of the largest singular value below which a direction counts as absent.
const flat = 1e-12

// decompose fills singular values and variance proportions: with X = U·D·Vᵀ the variance of value j is σ²·Σ_k v_jk²/d_k².
func (x *Excitation) decompose(scaled *mat.Dense) {
	var svd mat.SVD
	var v mat.Dense
	if !svd.Factorize(scaled, mat.SVDThin) {
		x.Condition = math.Inf(1)
		return
	}
	x.Singular = svd.Values(nil)
	svd.VTo(&v)
	p := len(x.Singular)
	smallest := math.Max(x.Singular[p-1], flat*x.Singular[0])
	x.Condition = x.Singular[0] / smallest
	if smallest > x.Singular[p-1] {
		x.Condition = math.Inf(1)
	}
	x.Proportions = zeros(p, p)
	for j := range p {
		total := 0.0
		for k, d := range x.Singular {
			d = math.Max(d, smallest)
			x.Proportions[k][j] = v.At(j, k) * v.At(j, k) / (d * d)
			total += x.Proportions[k][j]
		}
		for k := range x.Singular {
			x.Proportions[k][j] /= total
		}
	}
}

// correlationsOf lists all pairs of unit columns, most first.
func correlationsOf(names []string, scaled *mat.Dense) []Pair {
	var out []Pair
	for i := range names {
		for j := range i {
			out = append(out, Pair{One: names[j], Other: names[i], Correlation: mat.Dot(scaled.ColView(j), scaled.ColView(i))})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return math.Abs(out[i].Correlation) > math.Abs(out[j].Correlation) })
	return out
}
