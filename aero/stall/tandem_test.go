package stall

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// tandem is an invented foreplane aircraft as one row of horseshoe vortices: foreplane ahead of and a little
// below a swept wing, right half, the left half its mirror image, wakes along x.
type tandem struct {
	strips   []Strip
	chord    []float64
	response *mat.Dense
	byAlpha  []float64 // section lift per rad of α
	byDown   []float64 // section lift per rad of elevator, effectiveness one half on the whole foreplane
}

// horseshoe is one vortex of the right half, its two corners and control point in metres.
type horseshoe struct {
	inner, outer [3]float64
	control      [3]float64
}

func newTandem(t testing.TB, foreplaneStrips, wingStrips int) tandem {
	t.Helper()
	var a tandem
	var vortices []horseshoe
	const foreplaneSpan, wingSpan = 3.2, 8.0
	lay := func(surface string, part Part, n int, span, root, tip, x, z, sweep float64) {
		for k := range n {
			// uniform in angle: crowded at the tip, as loads are
			at := func(s float64) float64 { return span / 2 * math.Sin(s/float64(n)*math.Pi/2) }
			y0, y, y1 := at(float64(k)), at(float64(k)+0.5), at(float64(k)+1)
			chord := root + (tip-root)*y/(span/2)
			quarter := func(y float64) float64 { return x + sweep*y }
			vortices = append(vortices, horseshoe{
				[3]float64{quarter(y0), y0, z}, [3]float64{quarter(y1), y1, z}, [3]float64{quarter(y) + chord/2, y, z},
			})
			a.chord = append(a.chord, chord)
			a.strips = append(a.strips, Strip{Surface: surface, Part: part, Along: 2 * y / span, Area: chord * (y1 - y0), Arm: 3.3 - quarter(y)})
		}
	}
	lay("foreplane", Foreplane, foreplaneStrips, foreplaneSpan, 0.42, 0.36, 1.0, -0.15, 0.02)
	lay("wing", Wing, wingStrips, wingSpan, 1.3, 0.55, 3.6, 0.1, 0.4)

	n := len(vortices)
	influence := mat.NewDense(n, n, nil)
	for i, v := range vortices {
		for j, w := range vortices {
			mirror := v.control
			mirror[1] = -mirror[1]
			influence.Set(i, j, -(w.upwash(v.control) + w.upwash(mirror))) // downwash per circulation
		}
	}
	a.response = &mat.Dense{}
	require.NoError(t, a.response.Inverse(influence)) // circulation over speed per rad of turn
	for i := range n {
		for j := range n {
			a.response.Set(i, j, 2/a.chord[i]*a.response.At(i, j))
		}
	}
	a.byAlpha, a.byDown = rowSums(a.response), make([]float64, n)
	for i := range n {
		a.byDown[i] = 0.5 * mat.Sum(a.response.Slice(i, i+1, 0, foreplaneStrips))
	}
	return a
}

// upwash is w at p for unit circulation that lifts: bound part outboard, legs to infinity along x.
func (h horseshoe) upwash(p [3]float64) float64 {
	const core = 1e-6 // m
	leg := func(c [3]float64) float64 {
		dy, dz := p[1]-c[1], p[2]-c[2]
		r2 := dy*dy + dz*dz + core*core
		dx := p[0] - c[0]
		return dy / (4 * math.Pi * r2) * (1 + dx/math.Sqrt(dx*dx+r2))
	}
	a := [3]float64{p[0] - h.inner[0], p[1] - h.inner[1], p[2] - h.inner[2]}
	b := [3]float64{p[0] - h.outer[0], p[1] - h.outer[1], p[2] - h.outer[2]}
	cross := [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	na, nb := math.Sqrt(a[0]*a[0]+a[1]*a[1]+a[2]*a[2]), math.Sqrt(b[0]*b[0]+b[1]*b[1]+b[2]*b[2])
	square := cross[0]*cross[0] + cross[1]*cross[1] + cross[2]*cross[2]
	along := 0.0
	for k := range 3 {
		along += (h.outer[k] - h.inner[k]) * (a[k]/na - b[k]/nb)
	}
	bound := cross[2] * along / (4 * math.Pi * (square + 1e-12))
	return bound - leg(h.inner) + leg(h.outer)
}

// question asks for the order at a fixed elevator [rad] with one maximum for the foreplane's strips and one for the wing's.
func (a tandem) question(elevator, foreplane, wing float64) Case {
	maximum := make([]float64, len(a.strips))
	for i, s := range a.strips {
		maximum[i] = wing
		if s.Part == Foreplane {
			maximum[i] = foreplane
		}
	}
	const incidence = 0.03 // of the foreplane against the wing
	return Case{
		Name: "tandem", Strips: a.strips, Response: a.response, MaxLift: fixed(maximum...),
		Attached: func(alpha float64) []float64 {
			lift := make([]float64, len(a.strips))
			for i := range lift {
				lift[i] = a.byAlpha[i]*alpha + a.byDown[i]*(elevator+2*incidence)
			}
			return lift
		},
		AlphaMin: -0.15, AlphaMax: 0.5,
	}
}

func order(t *testing.T, c Case) Order {
	t.Helper()
	o, err := Find(c)
	require.NoError(t, err)
	return o
}

func margin(t *testing.T, c Case) float64 {
	t.Helper()
	m, ok := order(t, c).Margin.Value()
	require.True(t, ok)
	return m
}

// usual is the tandem with its elevator neutral and one maximum of 1.3 everywhere.
func usual(t testing.TB, foreplaneStrips int) Case {
	return newTandem(t, foreplaneStrips, 2*foreplaneStrips).question(0, 1.3, 1.3)
}

func TestTandemGoesInTheExpectedOrder(t *testing.T) {
	o := order(t, usual(t, 24))
	require.Equal(t, "foreplane", o.FirstForeplane.Surface)
	require.Less(t, o.FirstForeplane.Along, 0.5, "a foreplane with little taper starts near its root")
	require.Less(t, o.FirstForeplane.Alpha.Low, o.Foreplane.Low, "the first strip goes before the total stops")
	require.Equal(t, "wing", o.FirstWing.Surface)
	require.Greater(t, o.FirstWing.Along, 0.4, "the wing starts outboard of the foreplane's tips, in their upwash")
	require.Less(t, o.FirstWing.Along, 0.9)
	require.Equal(t, o.Wing, o.WingInboard)
	require.Less(t, o.Pitch.NoseDrop.Low, o.Pitch.PitchUp.Low)
}

// A foreplane that has let go sheds less downwash inside its span and less upwash outside, so the wing gains
// near the root and loses outboard against the attached solution.
func TestHeldForeplaneChangesTheFlowAtTheWing(t *testing.T) {
	o := order(t, usual(t, 24))
	const tips = 1.6 / 4 // of the foreplane, in half spans of the wing
	for _, s := range o.Sections.Strips {
		switch {
		case s.Part != Wing || s.LetGo:
		case s.Along < tips-0.03:
			require.Greater(t, s.Lift, s.Attached, "at %g", s.Along)
		case s.Along > tips+0.03:
			require.Less(t, s.Lift, s.Attached, "at %g", s.Along)
		}
	}
	require.Greater(t, o.Sections.Strips[24].Lift-o.Sections.Strips[24].Attached, 0.03)
}

// The response of lifting surfaces, weighted by areas, is a positive form (turning strips costs induced drag), so
// that every principal minor of it is positive and Hold has one answer.
func TestResponseOfLiftingSurfacesIsPositive(t *testing.T) {
	a := newTandem(t, 12, 24)
	n := len(a.strips)
	form := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			form.SetSym(i, j, a.strips[i].Area*a.response.At(i, j)+a.strips[j].Area*a.response.At(j, i))
		}
	}
	var cholesky mat.Cholesky
	require.True(t, cholesky.Factorize(form))
}

// The margin hardly depends on the number of strips; the narrowest meaning of "stopped" does.
func TestMarginConvergesWithStrips(t *testing.T) {
	const tenth = 0.1 * degree
	fine := margin(t, usual(t, 36))
	for _, n := range []int{6, 8, 12, 16, 24} {
		require.InDelta(t, fine, margin(t, usual(t, n)), tenth, "%d strips on the foreplane", n)
	}
}

// What counts as stopped matters: on this foreplane, which stalls from the root outward, between half and a
// fifth of the attached slope lies less than a degree, between a fifth and a tenth two degrees more, and a tenth moves by another
// degree with the number of strips. That is the reason for the fifth.
func TestMarginByShare(t *testing.T) {
	at := func(n int, share float64) float64 {
		c := usual(t, n)
		c.StopShare = share
		return margin(t, c) / degree
	}
	require.InDelta(t, 1.79, at(24, 0.5), 0.02)
	require.InDelta(t, 1.58, at(24, 0.3), 0.02)
	require.InDelta(t, 0.87, at(24, 0.2), 0.02)
	require.InDelta(t, -1.14, at(24, 0.1), 0.02)
	require.Greater(t, at(36, 0.1)-at(6, 0.1), 1.0)

	o := order(t, usual(t, 24))
	require.Equal(t, []float64{0.1, 0.2, 0.3, 0.5}, []float64{o.Stops[0].Share, o.Stops[1].Share, o.Stops[2].Share, o.Stops[3].Share})
	require.Equal(t, o.Foreplane, o.Stops[1].Alpha)
	for k := range o.Stops[1:] {
		require.Less(t, o.Stops[k+1].Alpha.Low, o.Stops[k].Alpha.Low)
	}
	require.Contains(t, o.Notes[0], "the margin changes its sign with what counts as stopped")
}

// How wide the stop window is matters little beside that.
func TestMarginByWindow(t *testing.T) {
	c := usual(t, 24)
	want := margin(t, c)
	for _, window := range []float64{0.5, 0.75, 1.5} {
		c.StopWindow = window * degree
		require.InDelta(t, want, margin(t, c), 0.3*degree, "%g°", window)
	}
	for _, step := range []float64{0.1, 0.5, 1} {
		c = usual(t, 24)
		c.Step = step * degree
		require.InDelta(t, want, margin(t, c), 1e-4)
	}
}

func TestMoreForeplaneLiftMeansLessMargin(t *testing.T) {
	a := newTandem(t, 12, 24)
	last := math.Inf(1)
	for _, foreplane := range []float64{0.9, 1.0, 1.1, 1.2, 1.3, 1.4} {
		m := margin(t, a.question(0.1, foreplane, 1.4))
		require.Less(t, m, last, "maximum %g", foreplane)
		last = m
	}
}

func TestMoreWingLiftMeansMoreMargin(t *testing.T) {
	a := newTandem(t, 12, 24)
	last := math.Inf(-1)
	for _, wing := range []float64{1.0, 1.2, 1.4, 1.6} {
		m := margin(t, a.question(0.1, 1.1, wing))
		require.Greater(t, m, last, "maximum %g", wing)
		last = m
	}
}

// Rain or insects that take a sixth of the foreplane's maximum make it go earlier: more margin. The same on the wing: less.
func TestContamination(t *testing.T) {
	a := newTandem(t, 12, 24)
	clean := margin(t, a.question(0.1, 1.2, 1.4))
	require.Greater(t, margin(t, a.question(0.1, 1.0, 1.4)), clean)
	require.Less(t, margin(t, a.question(0.1, 1.2, 1.2)), clean)
}

// Nose-up elevator loads the foreplane; with a maximum that does not follow it, the foreplane goes earlier.
func TestNoseUpElevatorLetsTheForeplaneGoEarlier(t *testing.T) {
	a := newTandem(t, 12, 24)
	neutral, up := order(t, a.question(0, 1.2, 1.4)), order(t, a.question(0.2, 1.2, 1.4))
	require.Less(t, up.Foreplane.Low, neutral.Foreplane.Low)
	require.Greater(t, up.Margin.Low, neutral.Margin.Low)
}

func TestOrderDoesNotDependOnTheOrderOfStrips(t *testing.T) {
	c := usual(t, 12)
	n := len(c.Strips)
	turned := c
	turned.Strips, turned.Response = make([]Strip, n), mat.NewDense(n, n, nil)
	for i := range n {
		turned.Strips[i] = c.Strips[n-1-i]
		for j := range n {
			turned.Response.Set(i, j, c.Response.At(n-1-i, n-1-j))
		}
	}
	backwards := func(f func(float64) []float64) func(float64) []float64 {
		return func(alpha float64) []float64 {
			lift := slices.Clone(f(alpha))
			slices.Reverse(lift)
			return lift
		}
	}
	turned.Attached, turned.MaxLift = backwards(c.Attached), backwards(c.MaxLift)
	a, b := order(t, c), order(t, turned)
	require.InDelta(t, a.Margin.Low, b.Margin.Low, 2e-5)
	require.Equal(t, a.FirstWing.Strip, n-1-b.FirstWing.Strip)
	require.Equal(t, a.FirstForeplane.Strip, n-1-b.FirstForeplane.Strip)
}

// A tip strip that lets go first counts, and the answer says that it lies where section lift is least certain.
func TestTipStripCountsAndIsNamed(t *testing.T) {
	c := usual(t, 12)
	maximum := slices.Clone(c.MaxLift(0))
	maximum[len(maximum)-1] = 0.03
	c.MaxLift = fixed(maximum...)
	o := order(t, c)
	require.Equal(t, len(maximum)-1, o.FirstWing.Strip)
	require.InDelta(t, margin(t, usual(t, 12)), o.WingInboard.Minus(o.Foreplane).Low, 0.02*degree)
	require.Less(t, o.Margin.Low, 0.0)
	require.Contains(t, o.Notes[0], "the first wing station lies in the outer 5 % of the span")
}

func TestSameCaseSameOrder(t *testing.T) {
	require.Equal(t, order(t, usual(t, 12)), order(t, usual(t, 12)))
}

func BenchmarkFind(b *testing.B) {
	for _, foreplaneStrips := range []int{12, 23} {
		c := usual(b, foreplaneStrips)
		b.Run(fmt.Sprintf("strips=%d", len(c.Strips)), func(b *testing.B) {
			for b.Loop() {
				if _, err := Find(c); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
