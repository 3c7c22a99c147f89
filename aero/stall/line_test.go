package stall

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// liftingLine is Prandtl's equation cl/a0 + induced angle = angle at n stations y = (b/2) cos θ, θ = kπ/(n + 1), of a straight
// wing with chords c(θ) in spans, by Multhopp's quadrature (H. Multhopp, Die Berechnung der Auftriebsverteilung von
// Tragflügeln, 1938, from memory). It is exact for every circulation that is a sine series of n terms.
//
// It returns the section lifts per radian of angle of every station: rows stations, columns turned stations.
func liftingLine(t *testing.T, chord []float64, slope float64) *mat.Dense {
	t.Helper()
	n := len(chord)
	angle := func(k int) float64 { return float64(k+1) * math.Pi / float64(n+1) }
	equation := mat.NewDense(n, n, nil) // of cl
	for v := range n {
		for k := range n {
			influence := float64(n+1) / (4 * math.Sin(angle(v)))
			if k != v {
				influence = 0
				if (k-v)%2 != 0 {
					gap := math.Cos(angle(k)) - math.Cos(angle(v))
					influence = -math.Sin(angle(k)) / (gap * gap * float64(n+1))
				}
			}
			equation.Set(v, k, influence*chord[k]/2) // Γ/(bV) = cl·c/(2b)
		}
		equation.Set(v, v, equation.At(v, v)+1/slope)
	}
	var response mat.Dense
	require.NoError(t, response.Inverse(equation))
	return &response
}

// rowSums is the section lift per radian of the whole wing's angle.
func rowSums(r *mat.Dense) []float64 {
	n, _ := r.Dims()
	sums := make([]float64, n)
	for i := range n {
		sums[i] = mat.Sum(r.RowView(i))
	}
	return sums
}

// ellipse is an elliptic wing of aspect ratio A alone: odd number of stations, chords in spans 4/(πA)·sin θ.
func ellipse(t *testing.T, n int, aspect float64) (*mat.Dense, []float64, []Strip) {
	t.Helper()
	chord, strips := make([]float64, n), make([]Strip, n)
	for k := range n {
		sin, cos := math.Sincos(float64(k+1) * math.Pi / float64(n+1))
		chord[k] = 4 / (math.Pi * aspect) * sin
		strips[k] = Strip{Surface: "ellipse", Part: Foreplane, Along: math.Abs(cos), Area: chord[k] * sin / 2 * math.Pi / float64(n+1)}
	}
	return liftingLine(t, chord, 2*math.Pi), chord, strips
}

// An elliptic wing without twist has one section lift all along, 2πα/(1 + 2/A) (L. Prandtl, Applications of Modern Hydrodynamics to
// Aeronautics, NACA TR 116), so that all its strips reach one maximum together and its lift stops at once.
func TestEllipticForeplaneStopsAtOnce(t *testing.T) {
	const aspect, maximum = 8.0, 1.4
	response, _, strips := ellipse(t, 31, aspect)
	slopes := rowSums(response)
	for _, slope := range slopes {
		require.InDelta(t, 2*math.Pi/(1+2/aspect), slope, 1e-10)
	}
	n := len(strips)
	c := Case{
		Name: "ellipse", Strips: append(strips, Strip{Surface: "wing", Part: Wing, Area: 1}),
		Attached: linear(append(slopes, 1)...), AlphaMin: -0.05, AlphaMax: 0.5,
	}
	limits := make([]float64, n+1)
	for i := range limits {
		limits[i] = maximum
	}
	limits[n] = math.Inf(1)
	c.MaxLift, c.Response = fixed(limits...), beside(response, 1)

	want := maximum * (1 + 2/aspect) / (2 * math.Pi)
	for _, share := range []float64{0.02, 0.1, 0.5, 0.9} {
		c.StopShare = share
		o, err := Find(c)
		require.NoError(t, err)
		require.InDelta(t, want, o.Foreplane.Low, 3e-5)
		for _, s := range o.Sections.Strips[:n] { // at the end of the range, held all along by one turn
			require.InDelta(t, want-0.5, s.Turn, 1e-8)
		}
	}
}

// beside adds one strip that feels nobody and that nobody feels.
func beside(r *mat.Dense, own float64) *mat.Dense {
	n, _ := r.Dims()
	out := mat.NewDense(n+1, n+1, nil)
	out.Slice(0, n, 0, n).(*mat.Dense).Copy(r)
	out.Set(n, n, own)
	return out
}

// Half an ellipse held: with the outer strips at a lower maximum the inner ones lose lift to them, and the sum of what is
// carried must agree with the lifting-line equation solved for that state, chords times section lifts in, angles out.
func TestHeldLineFulfilsItsEquation(t *testing.T) {
	response, _, strips := ellipse(t, 31, 6)
	var equation mat.Dense
	require.NoError(t, equation.Inverse(response))
	attached, maximum := rowSums(response), make([]float64, len(strips))
	for i, s := range strips {
		attached[i] *= 0.3
		maximum[i] = 1.6 - 0.6*s.Along
	}
	held, err := Hold(attached, maximum, response)
	require.NoError(t, err)
	var angle mat.VecDense
	angle.MulVec(&equation, mat.NewVecDense(len(strips), held.Lift))
	gone := 0
	for i := range strips {
		require.InDelta(t, 0.3+held.Turn[i], angle.AtVec(i), 1e-10)
		if held.LetGo[i] {
			gone++
			require.Equal(t, maximum[i], held.Lift[i])
			require.Negative(t, held.Turn[i])
		} else {
			require.Zero(t, held.Turn[i])
			require.Less(t, held.Lift[i], attached[i])
		}
	}
	require.Greater(t, gone, 4)
	require.Less(t, gone, len(strips)-4)
}

// O. Schrenk's approximation (NACA TM 948, 1940) loads an untwisted wing by the mean of its chord and that of the ellipse
// of equal area. On a straight taper λ the section lift is then highest at 2y/b = 1 − λ, by setting the derivative of
// √(1 − η²)/(1 − (1 − λ)η) to zero: the textbooks' rule for where a tapered wing starts to stall.
func TestTaperedWingStartsToStallAtOneMinusTaper(t *testing.T) {
	for _, taper := range []float64{0.3, 0.5, 0.7} {
		const n, aspect, maximum = 400, 9.0, 1.5
		slope := 2 * math.Pi / (1 + 2/aspect)
		c := Case{Name: "taper", Strips: []Strip{{Surface: "foreplane", Part: Foreplane, Area: 1}}, AlphaMin: 0, AlphaMax: 0.5}
		slopes, limits := []float64{4}, []float64{1}
		for k := range n {
			eta := (float64(k) + 0.5) / n
			chord := 2 / (1 + taper) * (1 - (1-taper)*eta) // over the mean chord
			c.Strips = append(c.Strips, Strip{Surface: "wing", Part: Wing, Along: eta, Area: chord / n})
			slopes = append(slopes, slope*(0.5+2/math.Pi*math.Sqrt(1-eta*eta)/chord))
			limits = append(limits, maximum)
		}
		c.Attached, c.MaxLift = linear(slopes...), fixed(limits...)
		o, err := Find(c)
		require.NoError(t, err)
		require.InDelta(t, 1-taper, o.FirstWing.Along, 1.0/n)
		peak := 0.5 + (1+taper)/math.Pi/math.Sqrt(1-(1-taper)*(1-taper))
		require.InDelta(t, maximum/(slope*peak), o.Wing.Low, 3e-5)
	}
}
