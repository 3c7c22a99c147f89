package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog"
)

// symmetric is a matrix A·Aᵀ of random numbers, with what does not count left at nought.
func symmetric(seed uint64, n int) matrix {
	r, p := stream(seed), matrix{}
	a := mat.NewDense(n, n, nil)
	for i := range n {
		for j := range n {
			a.Set(i, j, r.NormFloat64())
		}
	}
	var product mat.Dense
	product.Mul(a, a.T())
	for i := range n {
		for j := range i + 1 {
			*p.at(i, j), *p.at(j, i) = product.At(i, j), product.At(i, j)
		}
	}
	return p
}

// stirring is a transition with nothing zero, over half a second so that all couplings weigh.
func stirring(n int) transition {
	b := wild(2)
	b.n = n
	s := &stride{dt: 0.5, rate: [3]float64{0.5, -0.3, 0.2}, force: [3]float64{1, -0.5, -14}}
	return b.propagate(s, &noise{gustLength: 30, upwashForgets: 0.4})
}

func requireEqualMatrix(t *testing.T, want mat.Matrix, p *matrix, n int) {
	for i := range n {
		for j := range n {
			require.InDelta(t, want.At(i, j), *p.at(i, j), 1e-11*(1+mat.Norm(want, math.Inf(1))), "row %d column %d", i, j)
		}
	}
}

func requireSymmetric(t *testing.T, p *matrix, n int) {
	for i := range n {
		for j := range n {
			require.Equal(t, *p.at(i, j), *p.at(j, i), "row %d column %d", i, j)
		}
	}
}

// Φ·P·Φᵀ and Φᵀ·Λ·Φ of rows and columns that are skipped and mirrored are the products of dense matrices.
func TestCarryEqualsTheProducts(t *testing.T) {
	for _, n := range []int{plainStates, most} {
		phi, p := stirring(n), symmetric(5, n)
		plain := dense(&p, n)
		var half, whole mat.Dense
		half.Mul(phi.dense(n), plain)
		whole.Mul(&half, phi.dense(n).T())
		forth := p
		phi.carry(&forth, n)
		requireEqualMatrix(t, &whole, &forth, n)
		requireSymmetric(t, &forth, n)
		half.Mul(phi.dense(n).T(), plain)
		whole.Mul(&half, phi.dense(n))
		phi.carryBack(&p, n)
		requireEqualMatrix(t, &whole, &p, n)
	}
}

// One measurement, forward and back, in the plain form of the formulas beside update and undo.
func TestUpdateAndUndoEqualTheFormulas(t *testing.T) {
	const n = most
	var g gain
	b := wild(4)
	b.p = symmetric(6, n)
	_, ok := b.expect(airspeed, [3]float64{0.3, -0.2, 0.1}, &arms{tube: [3]float64{0.9, 0.3, 0}}, &g.h)
	require.True(t, ok)
	p, h := dense(&b.p, n), mat.NewVecDense(n, nil)
	for m := range g.h.n {
		h.SetVec(int(g.h.at[m]), h.AtVec(int(g.h.at[m]))+g.h.value[m])
	}
	var ph mat.VecDense
	ph.MulVec(p, h)
	own := g.h.spread(&b.p, &g.k, n)
	require.InEpsilon(t, mat.Dot(h, &ph), own, 1e-12)
	const noise, innovation = 0.5, 1.3
	s := own + noise
	g.variance, g.innovation = s, innovation
	before := b.x
	g.normalise()
	b.update(&g)
	var outer, after, rest, left mat.Dense
	outer.Outer(1/s, &ph, &ph)
	after.Sub(p, &outer)
	requireEqualMatrix(t, &after, &b.p, n)
	requireSymmetric(t, &b.p, n)
	for i := atVelocity; i < n; i++ {
		require.InDelta(t, before[i]+ph.AtVec(i)/s*innovation, b.x[i], 1e-10)
	}

	a := adjoint{n: n, all: symmetric(7, n)}
	first := mat.NewVecDense(n, nil)
	for i := range n {
		a.first[i] = float64(i) - 9
		first.SetVec(i, a.first[i])
	}
	lambda := dense(&a.all, n)
	rest.Outer(-1/s, &ph, h) // I − K·H
	for i := range n {
		rest.Set(i, i, 1+rest.At(i, i))
	}
	left.Mul(rest.T(), lambda)
	after.Mul(&left, &rest)
	outer.Outer(1/s, h, h)
	after.Add(&after, &outer)
	push := innovation/s + mat.Dot(&ph, first)/s
	a.undo(&g)
	requireEqualMatrix(t, &after, &a.all, n)
	for i := range n {
		require.InDelta(t, first.AtVec(i)-h.AtVec(i)*push, a.first[i], 1e-9)
	}
}

// Slopes on tilt without an angle are those of the angles.
func TestAngleSlopesNeedNoAngles(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		b := wild(seed)
		_, pitch, heading := b.attitude.angles()
		got, cosPitch := b.attitude.angleSlopes()
		sin, cos := math.Sincos(heading)
		tan := math.Tan(pitch)
		require.InDelta(t, math.Cos(pitch), cosPitch, 1e-14)
		for k, want := range [3][]float64{{cos / math.Cos(pitch), sin / math.Cos(pitch), 0}, {-sin, cos, 0}, {cos * tan, sin * tan, 1}} {
			require.InDeltaSlice(t, want, got[k][:], 1e-13)
		}
	}
	up := rotation{6: -1, 2: 1, 4: 1}
	slopes, _ := up.angleSlopes()
	for k := range slopes {
		require.False(t, math.IsNaN(slopes[k][0]+slopes[k][1]+slopes[k][2]), "straight up there is no heading, but there are numbers")
	}
}

// Integrals from sample to sample, of several lines at once and over samples that are left out, are those of each line by itself.
func TestIntegralsFromSampleToSample(t *testing.T) {
	const lag = 0.13
	noise := func(seed uint64, step float64) flightlog.Channel {
		r := stream(seed)
		return sampled(int(20/step), step, func(float64) float64 { return r.NormFloat64() })
	}
	a, b := newLine(noise(1, 0.04)), newLine(noise(2, 0.04))
	p := lagProblem{velocity: []flightlog.Channel{noise(3, 0.2)}, force: []*line{a}, errors: [][]*line{{b}}}
	times, seen := p.velocity[0].Time, []int{}
	p.integrals(0, lag, []int{3, 4, 5, 9, 11, 12}, func(i int, force float64, errors []float64) {
		require.Equal(t, a.integral(times[i]-lag)-a.integral(times[i-1]-lag), force)
		require.Equal(t, []float64{b.integral(times[i]-lag) - b.integral(times[i-1]-lag)}, errors)
		seen = append(seen, i)
	})
	require.Equal(t, []int{3, 4, 5, 9, 11, 12}, seen)
}
