package reconstruct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// wild is a belief with nothing zero, in a banked climb with sideslip.
func wild(seed uint64) belief {
	r := stream(seed)
	b := belief{estimate: estimate{n: most, attitude: rotationOf(0.8*r.Float64()-0.4, 0.6*r.Float64()-0.3, 6*r.Float64())}}
	v := b.attitude.earth([3]float64{22 + 5*r.Float64(), 2 * r.NormFloat64(), 1 + r.NormFloat64()})
	for i := range most {
		b.x[i] = 0.01 * r.NormFloat64()
	}
	for k := range 3 {
		b.x[atVelocity+k] = v[k] + 2
		b.x[atGust+k] = r.NormFloat64()
	}
	b.x[atWind], b.x[atWind+1], b.x[atVertical] = 3, -2, 0.4
	b.x[atUpwash], b.x[atScale] = 0.08, 0.02
	return b
}

// nudged is a belief with one error added.
func nudged(b belief, state int, by float64) belief {
	var d vector
	d[state] = by
	b.correct(&d)
	return b
}

// Slopes of every measurement on every state against central differences.
func TestMeasurementSlopes(t *testing.T) {
	const step = 1e-6
	rate := [3]float64{0.3, -0.2, 0.1}
	a := &arms{tube: [3]float64{0.9, 0.3, 0}, vanes: [3]float64{0.8, -0.2, 0.1}, antenna: [3]float64{-0.4, 0, -0.1}, lowest: math.Inf(-1)}
	for seed := uint64(1); seed <= 5; seed++ {
		b := wild(seed)
		for k := range kinds {
			var h, unused slopes
			_, ok := b.expect(k, rate, a, &h)
			require.True(t, ok, k.words())
			var want vector
			for i := range h.n {
				want[h.at[i]] += h.value[i]
			}
			for state := range most {
				up, down := nudged(b, state, step), nudged(b, state, -step)
				high, _ := up.expect(k, rate, a, &unused)
				low, _ := down.expect(k, rate, a, &unused)
				slope := wrap(high-low) / (2 * step)
				// what the arms turn with attitude and gyro bias is left out on purpose: at most the arm's length
				tolerance := 1e-6 * (1 + math.Abs(slope))
				if state >= atRateBias && state < atRateBias+3 || k >= northSpeed && k <= climbRate && state < atVelocity {
					tolerance = 1.0
				}
				require.InDelta(t, slope, want[state], tolerance, "%s on state %d", k.words(), state)
			}
		}
	}
}

// Φ against differences of the nonlinear propagation, to the second order in the stride.
func TestTransitionIsTheSlopeOfThePropagation(t *testing.T) {
	const size = 1e-5
	n := &noise{gustLength: 30}
	s := &stride{dt: 0.02, rate: [3]float64{0.5, -0.3, 0.2}, force: [3]float64{1, -0.5, -14}}
	for seed := uint64(1); seed <= 3; seed++ {
		b := wild(seed)
		plain := b
		phi := plain.propagate(s, n)
		for state := range most {
			moved := nudged(b, state, size)
			moved.propagate(s, n)
			var want vector
			want[state] = 1
			phi.forward(&want)
			got := apart(&moved, &plain)
			for i := range most {
				// half the square of the stride: what one stride of first order leaves out
				tolerance := 1e-4
				if i >= atGust && i < atForceBias {
					tolerance = 1e-3 // that gusts pass faster at a higher speed is left out
				}
				if state < atTilt+3 || state >= atForceBias {
					tolerance = 14 * s.dt * s.dt
				}
				require.InDelta(t, want[i], got[i]/size, tolerance, "state %d on state %d", i, state)
			}
		}
	}
}

// apart is the error of b when a is true.
func apart(a, b *belief) vector {
	var d vector
	back := rotation{b.attitude[0], b.attitude[3], b.attitude[6], b.attitude[1], b.attitude[4], b.attitude[7], b.attitude[2], b.attitude[5], b.attitude[8]}
	r := a.attitude.times(&back)
	d[0], d[1], d[2] = (r[7]-r[5])/2, (r[2]-r[6])/2, (r[3]-r[1])/2
	for i := atVelocity; i < most; i++ {
		d[i] = a.x[i] - b.x[i]
	}
	return d
}

// backward is the transpose of forward: ⟨Φu, v⟩ = ⟨u, Φᵀv⟩.
func TestBackwardIsTheTranspose(t *testing.T) {
	r := stream(3)
	b := wild(1)
	phi := b.propagate(&stride{dt: 0.04, force: [3]float64{1, 2, -9}}, &noise{gustLength: 30})
	var u, v vector
	for i := range most {
		u[i], v[i] = r.NormFloat64(), r.NormFloat64()
	}
	fu, bv := u, v
	phi.forward(&fu)
	phi.backward(&bv)
	require.InDelta(t, product(fu[:], v[:]), product(u[:], bv[:]), 1e-12)
}

// Rotations: round trip of the angles, turn against the closed form about one axis, and turn of small against large formula.
func TestRotations(t *testing.T) {
	r := rotationOf(0.3, -0.4, 2.5)
	roll, pitch, heading := r.angles()
	require.InDeltaSlice(t, []float64{0.3, -0.4, 2.5}, []float64{roll, pitch, heading}, 1e-14)
	about := turn([3]float64{0, 0, 0.7})
	require.InDelta(t, math.Cos(0.7), about[0], 1e-15)
	require.InDelta(t, math.Sin(0.7), about[3], 1e-15)
	small, half := turn([3]float64{0.006, -0.004, 0.005}), turn([3]float64{0.003, -0.002, 0.0025})
	twice := half.times(&half)
	require.InDeltaSlice(t, twice[:], small[:], 1e-13)
	// nose up raises X: the third row of a pitched-up X axis points up
	up := rotationOf(0, 0.1, 0)
	require.Negative(t, up.earth([3]float64{1, 0, 0})[2])
}
