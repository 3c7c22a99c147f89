package lattice

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// flap is a plain flap in thin-aerofoil theory on a unit chord, beside what n panels make of it.
//
// With x = (1 − cos θ)/2 and the hinge at φ, one radian of deflection gives the vortex sheet
//
//	γ/2V = (1 − φ/π)(1 + cos θ)/sin θ + (1/π) ln |sin ½(θ+φ) / sin ½(θ−φ)|
//
// (H. Glauert, Theoretical Relationships for an Aerofoil with Hinged Flap, ARC R&M 1095, 1927, summed). Its logarithm at the
// hinge is what a series of n terms cannot follow.
type flap struct {
	hinge, angle float64   // chord fraction, and φ
	discrete     []float64 // circulation over V of each vortex of the lattice per radian
}

func newFlap(l chordLattice, hinge float64) *flap {
	n := len(l.vortex)
	turns := hingeTurns(n, hinge)
	matrix, right := mat.NewDense(n, n, nil), mat.NewVecDense(n, turns)
	for i, x := range l.control {
		for j, v := range l.vortex {
			matrix.Set(i, j, 1/(2*math.Pi*(x-v)))
		}
	}
	f := &flap{hinge: hinge, angle: math.Acos(1 - 2*hinge), discrete: make([]float64, n)}
	// Vortices and control points interlace: the matrix is Cauchy's, and regular.
	_ = mat.NewVecDense(n, f.discrete).SolveVec(matrix, right)
	return f
}

// momentOf is ∫ (x − x_h) γ/V dx aft of this flap's hinge, of the sheet of a unit deflection about a source's hinge.
//
// With a = cos φ here and b = cos φ of the source, integration by parts of the logarithm L leaves
//
//	∫ L sin θ (a − cos θ) dθ = ½ sin φ_b [sin φ_a + b (π−φ_a) − 2 (b−a)(π−φ_a)] + ½ (b−a)² L(φ_a).
func (f *flap) momentOf(source *flap) float64 {
	rest := math.Pi - f.angle
	a, b := math.Cos(f.angle), math.Cos(source.angle)
	plate := rest*(a-0.5) + math.Sin(f.angle)*(1-a/2)
	logarithm := math.Sin(source.angle) * (math.Sin(f.angle) + b*rest - 2*(b-a)*rest) / 2
	if a != b {
		apart := math.Abs(math.Sin((f.angle+source.angle)/2) / math.Sin((f.angle-source.angle)/2))
		logarithm += (b - a) * (b - a) * math.Log(apart) / 2
	}
	return ((1-source.angle/math.Pi)*plate + logarithm/math.Pi) / 2
}

// momentOfSeries is the moment about the hinge of the part aft of it of a smooth loading, given as the forces at the vortices.
//
// At the middles of n steps of θ the quasi-vortex lattice carries γ(θ) sin θ times the same factor everywhere, and
// γ sin θ is a cosine series: its n values give the terms up to cos (n−1)θ, and that it vanishes at the trailing edge gives the
// next, to which the vortices are blind (C. E. Lan, Journal of Aircraft 11, 1974). It is integrated term by term.
func (f *flap) momentOfSeries(force []float64) float64 {
	n := len(force)
	series := make([]float64, n+1)
	edge, sign := 0.0, 1.0 // the series at θ = π
	for m := range n {
		for k, v := range force {
			series[m] += v * math.Cos(float64(m)*(float64(k)+0.5)*math.Pi/float64(n))
		}
		series[m] *= 2 / float64(n)
		if m == 0 {
			series[m] /= 2
		}
		edge += sign * series[m]
		sign = -sign
	}
	series[n] = -sign * edge
	sum := 0.0
	for m, c := range series {
		sum += c * f.arm(m)
	}
	return float64(n) / (2 * math.Pi) * sum
}

// arm is ∫ cos mθ (cos φ − cos θ) dθ from the hinge to the trailing edge.
func (f *flap) arm(m int) float64 {
	cosine := func(m int) float64 { // ∫ cos mθ
		if m == 0 {
			return math.Pi - f.angle
		}
		return -math.Sin(float64(m)*f.angle) / float64(m)
	}
	before := m - 1
	if m == 0 {
		before = 1
	}
	return math.Cos(f.angle)*cosine(m) - (cosine(m+1)+cosine(before))/2
}

// interpolate reads a value given at rising places, straight between them and on beyond.
func interpolate(places, values []float64, at float64) float64 {
	i := 1
	for i < len(places)-1 && places[i] < at {
		i++
	}
	t := (at - places[i-1]) / (places[i] - places[i-1])
	return values[i-1] + t*(values[i]-values[i-1])
}

// slant is the circulation of a vortex sheet on an infinite wing of a swept line over that of the unswept section in
// incompressible flow, for the same normal velocity: the cosine of the sweep, both in the space where the potential is harmonic.
func (f *field) slant(slope float64) float64 { return f.stretch / math.Hypot(1, slope*f.stretch) }
