package similitude

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// limit is row·m ≤ most.
type limit struct {
	row  []float64
	most float64
}

// programme is a small convex quadratic programme: the least ½ mᵀHm + gᵀm, with held·m as at the start and limits that are
// not passed. H is positive definite; the held rows are orthonormal.
//
// Method: primal active set. Go to the minimum with the limits of the working set held; a limit in the way joins the set; where
// there is none, the limit that pushes the wrong way hardest leaves it; none left is the optimum. Source: Nocedal and Wright,
// Numerical Optimization, 2nd ed. 2006, algorithm 16.3 (from memory).
type programme struct {
	curvature [][]float64
	slope     []float64
	held      [][]float64
	limits    []limit
}

// Relative sizes below which a step is none, a multiplier is not wrong, and a row says nothing that others do not say.
const (
	noStep = 1e-12
	noPush = 1e-9
	noRow  = 1e-9
)

func (p programme) solve(start []float64) ([]float64, error) {
	m := append([]float64(nil), start...)
	var working []int
	for range 50 * (len(m) + len(p.limits) + 1) {
		step, push, err := p.newton(m, working)
		if err != nil {
			return nil, err
		}
		share, hit := p.reach(m, step, working)
		for i := range m {
			m[i] += share * step[i]
		}
		if hit >= 0 {
			working = append(working, hit)
			continue
		}
		out := p.wrongest(push)
		if out < 0 {
			return p.within(m), nil
		}
		working = append(working[:out], working[out+1:]...)
	}
	return nil, ErrBallast
}

// newton is the step to the minimum with the working set held, and the multipliers of the set there.
func (p programme) newton(m []float64, working []int) (step, push []float64, err error) {
	n, rows := len(m), append([][]float64(nil), p.held...)
	for _, w := range working {
		rows = append(rows, p.limits[w].row)
	}
	system, right := mat.NewDense(n+len(rows), n+len(rows), nil), mat.NewVecDense(n+len(rows), nil)
	scale := p.scale()
	for i := range n {
		g := p.slope[i]
		for j := range n {
			system.Set(i, j, p.curvature[i][j]/scale)
			g += p.curvature[i][j] * m[j]
		}
		right.SetVec(i, -g/scale)
		for k, row := range rows {
			system.Set(i, n+k, row[i])
			system.Set(n+k, i, row[i])
		}
	}
	var x mat.VecDense
	if err := x.SolveVec(system, right); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			return nil, nil, ErrBallast
		}
	}
	raw := x.RawVector().Data
	return raw[:n], raw[n+len(p.held):], nil
}

// scale is the largest curvature; with it taken out, multipliers and masses are of one size.
func (p programme) scale() float64 {
	most := 0.0
	for i := range p.curvature {
		most = math.Max(most, p.curvature[i][i])
	}
	return most
}

// wrongest is the member of the working set with the most negative multiplier, −1 when none is negative.
func (p programme) wrongest(push []float64) int {
	out, least := -1, -noPush
	for i, l := range push {
		if l < least {
			out, least = i, l
		}
	}
	return out
}

// reach is the share of a step that the limits outside the working set allow, and which of them stops it; −1 when none does.
//
// Only the part of a limit that what is held leaves free can stop a step: the rest is round-off, and a limit that follows from
// others would make the next system singular.
func (p programme) reach(m, step []float64, working []int) (share float64, hit int) {
	share, hit = 1, -1
	in, rows := map[int]bool{}, append([][]float64(nil), p.held...)
	for _, w := range working {
		in[w], rows = true, append(rows, p.limits[w].row)
	}
	basis := independent(rows)
	for k, l := range p.limits {
		if in[k] {
			continue
		}
		free := beside(l.row, basis)
		if norm(free) <= noRow*norm(l.row) {
			continue
		}
		along := dot(free, step)
		if along <= noStep*norm(step) {
			continue
		}
		if s := math.Max(0, l.most-dot(l.row, m)) / along; s < share {
			share, hit = s, k
		}
	}
	return share, hit
}

// within takes off what rounding left below zero.
func (p programme) within(m []float64) []float64 {
	for i := range m {
		if m[i] < noStep {
			m[i] = 0
		}
	}
	return m
}

// independent makes rows orthonormal and leaves out those that the others already hold.
func independent(rows [][]float64) [][]float64 {
	var out [][]float64
	for _, row := range rows {
		left := beside(row, out)
		if rest := norm(left); rest > noRow*norm(row) {
			for i := range left {
				left[i] /= rest
			}
			out = append(out, left)
		}
	}
	return out
}

// beside is a row less its part along orthonormal ones.
func beside(row []float64, basis [][]float64) []float64 {
	left := append([]float64(nil), row...)
	for range 2 { // twice: once leaves round-off of what was taken away
		for _, o := range basis {
			d := dot(o, left)
			for i := range left {
				left[i] -= d * o[i]
			}
		}
	}
	return left
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }
