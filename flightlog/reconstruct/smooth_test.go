package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog/rehearse"
)

// kept is one event of a filter that a textbook smoother needs.
type kept struct {
	phi                 *mat.Dense
	predicted, filtered *mat.SymDense
	correction          *mat.VecDense // filtered − predicted
}

func dense(p *matrix, n int) *mat.SymDense {
	m := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			m.SetSym(i, j, *p.at(i, j))
		}
	}
	return m
}

// dense writes Φ column by column, as what it does to unit vectors.
func (t *transition) dense(n int) *mat.Dense {
	m := mat.NewDense(n, n, nil)
	for j := range n {
		var v vector
		v[j] = 1
		t.forward(&v)
		for i := range n {
			m.Set(i, j, v[i])
		}
	}
	return m
}

// keep runs the filter over a few events with everything kept.
func keep(f *forward, s *smoother, events int) []kept {
	var out []kept
	b := f.prior(0, [3]float64{})
	n := b.n
	for i := range events {
		e := &f.tl.events[i]
		var k kept
		if i > 0 {
			t := b.propagate(&e.stride, f.noise)
			k.phi = t.dense(n)
		}
		k.predicted, k.correction = dense(&b.p, n), mat.NewVecDense(n, nil)
		for m := e.first; m < e.last; m++ {
			if f.verdicts[m] != used {
				continue
			}
			s.gains = s.gains[:0]
			s.repeat(&b, e, f.tl.measured[m])
			for j := range n {
				k.correction.SetVec(j, k.correction.AtVec(j)+s.gains[0].k[j]*s.gains[0].innovation)
			}
		}
		k.filtered = dense(&b.p, n)
		out = append(out, k)
	}
	return out
}

// The smoother equals the textbook's: C = P·Φᵀ·P⁻¹₊, x_s = x + C·(x_s₊ − x₋₊), P_s = P + C·(P_s₊ − P₋₊)·Cᵀ
// (Rauch, Tung & Striebel 1965), with dense matrices, over more than one part between checkpoints.
func TestSmootherEqualsRauchTungStriebel(t *testing.T) {
	const events = part + 60
	log := flown(t, 1, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	f := prepared(t, &rec, Setup{})
	take := 450 // from lift-off on, so that every measurement speaks
	f.tl.measured = f.tl.measured[:f.tl.events[take+events-1].last]
	f.tl.events = f.tl.events[take : take+events]
	for i := range f.tl.events {
		f.tl.events[i].grid = int32(i)
	}
	f = f.trial(0)
	f.finish()
	s := &smoother{f: f}
	all := keep(f, &smoother{f: f}, events)
	n := f.belief.n

	later := all[events-1]
	smoothed, correction := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	smoothed.CopySym(later.filtered) // at the end both are the filter's
	compared := 0
	i := events - 1
	s.run(func(e *event, b *belief, a *adjoint) {
		if i < events-1 {
			smoothed, correction = textbookStep(all[i], all[i+1], smoothed, correction)
		}
		for j := range n {
			sd := math.Sqrt(smoothed.At(j, j))
			moved := 0.0
			for k := range n {
				moved -= *b.p.at(j, k) * a.first[k]
			}
			require.InDelta(t, correction.AtVec(j)/sd, moved/sd, 1e-5, "event %d state %d", i, j)
			require.InEpsilon(t, sd, oneState(j, b, a), 1e-5, "event %d state %d", i, j)
			compared++
		}
		i--
	})
	require.Equal(t, events*n, compared)
	require.Greater(t, square(correction.RawVector().Data), 0.0, "the smoother must have something to say")
}

// textbookStep is one step back: from what is smoothed at the later event to this one.
func textbookStep(now, next kept, smoothed *mat.SymDense, correction *mat.VecDense) (*mat.SymDense, *mat.VecDense) {
	n := smoothed.SymmetricDim()
	var cross, gain mat.Dense
	cross.Mul(next.phi, now.filtered) // Φ·P, so that Cᵀ = P₋⁻¹·Φ·P
	if err := gain.Solve(next.predicted, &cross); err != nil {
		panic(err)
	}
	var ahead mat.VecDense
	ahead.AddVec(correction, next.correction) // smoothed − predicted
	out := mat.NewVecDense(n, nil)
	out.MulVec(gain.T(), &ahead)
	var change, half, whole mat.Dense
	change.Sub(smoothed, next.predicted)
	half.Mul(&change, &gain)
	whole.Mul(gain.T(), &half)
	cov := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			cov.SetSym(i, j, now.filtered.At(i, j)+(whole.At(i, j)+whole.At(j, i))/2)
		}
	}
	return cov, out
}

// One step of filter and smoother allocates nothing.
func TestStepsAllocateNothing(t *testing.T) {
	log := flown(t, 1, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	f := prepared(t, &rec, Setup{})
	f.belief = f.prior(1000, [3]float64{})
	f.verdicts = make([]verdict, len(f.tl.measured))
	at := 1000
	require.Zero(t, testing.AllocsPerRun(200, func() {
		f.pass(at, at+1)
		at++
	}))
	b := f.prior(1000, [3]float64{})
	a := adjoint{n: b.n}
	var tr transition
	var g gain
	require.Zero(t, testing.AllocsPerRun(200, func() {
		tr = b.propagate(&f.tl.events[1000].stride, f.noise)
		b.expect(pitchAngle, [3]float64{}, f.arms, &g.h)
		g.variance = g.h.spread(&b.p, &g.k, b.n) + 1e-6
		g.normalise()
		b.update(&g)
		a.undo(&g)
		a.retreat(&tr)
	}))
}
