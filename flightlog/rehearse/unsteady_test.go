package rehearse

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
	"wingproof/aero/stability"
)

// level is a frame in level flight with the thrust that holds it, and the derivatives of that state at model size.
func level(t *testing.T, ac Aircraft, lift float64) (*airframe, state, controls, aero.Derivatives, stability.Condition) {
	f := frame(t, ac)
	const air = 1.225
	s, c := launched(t, f, lift, air, 0)
	speed := math.Hypot(s.u, s.w)
	away := lift - f.Polar.LiftAtMin
	drag := f.Polar.Min + f.Polar.Factor*away*away + f.Propulsion.WindmillDrag
	d, err := stability.Trimmed(f.d, lift, drag)
	require.NoError(t, err)
	d.ByAlpha.Drag, d.ByPitchRate.Drag = 2*f.Polar.Factor*away*d.ByAlpha.Lift, 2*f.Polar.Factor*away*d.ByPitchRate.Lift
	d.Reference.Area, d.Reference.Span, d.Reference.MeanChord = f.area, f.span, f.chord
	return f, s, c, d, stability.Condition{Density: air, Speed: speed, AlphaRate: f.alphaRate}
}

// slopes are the derivatives of ẋ by x, by central differences, about a state in which an outside force holds the balance: set puts four
// numbers onto the state, get takes their rates.
func slopes(f *airframe, s state, c controls, air float64, set func(state, int, float64) state, get func(s, d state) [4]float64) *mat.Dense {
	const h = 1e-5
	a := mat.NewDense(4, 4, nil)
	for j := range 4 {
		up, down := set(s, j, h), set(s, j, -h)
		plus := get(up, f.rate(up, c, surroundings{density: air}))
		minus := get(down, f.rate(down, c, surroundings{density: air}))
		for i := range 4 {
			a.Set(i, j, (plus[i]-minus[i])/(2*h))
		}
	}
	return a
}

func eigenvalues(t *testing.T, a *mat.Dense) []complex128 {
	var e mat.Eigen
	require.True(t, e.Factorize(a, mat.EigenNone))
	r := e.Values(nil)
	slices.SortFunc(r, func(a, b complex128) int {
		if d := cmplx.Abs(b) - cmplx.Abs(a); math.Abs(d) > 1e-9 {
			return int(math.Copysign(1, d))
		}
		return int(math.Copysign(1, imag(b)-imag(a)))
	})
	return r
}

func requireRoots(t *testing.T, want, got []complex128, relative float64) {
	require.Len(t, got, len(want))
	for i := range want {
		require.LessOrEqual(t, cmplx.Abs(want[i]-got[i]), relative*cmplx.Abs(want[0]), "root %d: %v and %v", i, want[i], got[i])
	}
}

// The equations of motion, made linear by differences, have the roots of the linear model with the α̇ terms in its matrix, on an
// aircraft with the elevator ahead and on one with it behind. Drag there is linear in α, so small lift keeps to it.
func TestRatesOfAlphaGiveTheirRoots(t *testing.T) {
	ahead := model(3.8)
	ahead.AlphaRate = aero.Coefficients{Lift: 2.5, Pitch: -4}
	behind := PublishedAircraft()[0].Aircraft
	behind.AlphaRate.Lift = 1.5
	for _, ac := range []Aircraft{ahead, behind} {
		f, s, c, d, condition := level(t, ac, 0.45)
		alpha := math.Atan2(s.w, s.u)
		set := func(s state, j int, h float64) state { // u and w along and across the flight path, q, θ
			sin, cos := math.Sincos(alpha)
			switch j {
			case 0:
				s.u, s.w = s.u+h*cos, s.w+h*sin
			case 1:
				s.u, s.w = s.u-h*sin, s.w+h*cos
			case 2:
				s.q += h
			default:
				s.attitude(0, alpha+h, 0)
			}
			return s
		}
		get := func(s, d state) [4]float64 {
			sin, cos := math.Sincos(alpha)
			return [4]float64{d.u*cos + d.w*sin, d.w*cos - d.u*sin, d.q, s.q}
		}
		with, err := stability.FindModes(d, f.Body, condition)
		require.NoError(t, err)
		condition.AlphaRate = aero.Coefficients{}
		without, err := stability.FindModes(d, f.Body, condition)
		require.NoError(t, err)
		got := eigenvalues(t, slopes(f, s, c, condition.Density, set, get))
		requireRoots(t, with.LongitudinalRoots, got, 5e-3)
		require.Greater(t, cmplx.Abs(without.LongitudinalRoots[0]-with.LongitudinalRoots[0]), 0.1*cmplx.Abs(with.LongitudinalRoots[0]), "they must matter")
	}
}

// Likewise for β̇: by hand, β̇ = a₀·x/(1 − Y) with a₀ the first row of the lateral matrix, and what it does to p and r adds rows in proportion.
func TestRatesOfBetaGiveTheirRoots(t *testing.T) {
	ac := model(3.9)
	ac.BetaRate = aero.Coefficients{Side: -0.3, Roll: -0.02, Yaw: 0.06}
	f, s, c, d, condition := level(t, ac, 0.45)
	a, err := stability.Lateral(d, f.Body, condition)
	require.NoError(t, err)
	v := condition.Speed
	force := 0.5 * condition.Density * v * v * f.area
	rate := f.span / (2 * v)
	before := eigenvalues(t, a)
	for j := range 4 {
		row := a.At(0, j) / (1 - force*f.betaRate.Side*rate/(f.Body.Mass*v))
		a.Set(0, j, row)
		a.Set(1, j, a.At(1, j)+force*f.span*f.betaRate.Roll*rate/f.Body.Ix*row)
		a.Set(2, j, a.At(2, j)+force*f.span*f.betaRate.Yaw*rate/f.Body.Iz*row)
	}
	alpha := math.Atan2(s.w, s.u)
	set := func(s state, j int, h float64) state {
		switch j {
		case 0:
			s.v += h * v
		case 1:
			s.p += h
		case 2:
			s.r += h
		default:
			s.attitude(h, alpha, 0)
		}
		return s
	}
	get := func(s, d state) [4]float64 { return [4]float64{d.v / v, d.p, d.r, s.p + s.r*math.Tan(alpha)} }
	got := eigenvalues(t, slopes(f, s, c, condition.Density, set, get))
	requireRoots(t, eigenvalues(t, a), got, 2e-3)
	require.Greater(t, cmplx.Abs(before[1]-got[1]), 0.05*cmplx.Abs(got[1]), "they must matter")
}

// In any motion, wind included, the rates that act are those that come out: α and β of the state a moment later.
func TestRatesThatActComeOut(t *testing.T) {
	ac := model(3.9)
	ac.AlphaRate, ac.BetaRate = aero.Coefficients{Lift: 2.5, Pitch: -4}, aero.Coefficients{Side: -0.3, Roll: -0.02, Yaw: 0.06}
	f := frame(t, ac)
	s := state{down: -100, u: 20, v: 3, w: 1.5, p: 1.2, q: -0.7, r: 0.5}
	s.attitude(0.4, -0.2, 1)
	c, around := controls{elevator: 0.05, aileron: -0.1, rudder: 0.1, thrust: 0.7}, surroundings{density: 1.1, north: 3, east: -4, down: 0.5}
	m := s.rotation()
	to := f.rates(&s, &m, c, around)
	const h = 1e-5
	angles := func(h float64) (alpha, beta float64) {
		later := s.plus(h, f.rate(s, c, around))
		m := later.rotation()
		return incidence(later.flow(&m, around))
	}
	a2, b2 := angles(h)
	a1, b1 := angles(-h)
	u, v, w := s.flow(&m, around)
	speed := math.Sqrt(u*u + v*v + w*w)
	require.InDelta(t, (a2-a1)/(2*h)*f.chord/(2*speed), to.alpha, 1e-8)
	require.InDelta(t, (b2-b1)/(2*h)*f.span/(2*speed), to.beta, 1e-8)
	require.Greater(t, math.Abs(to.alpha), 1e-3)
	require.Greater(t, math.Abs(to.beta), 1e-3)
}

// Moments by the rate move with the CG like any other: lift behind the CG pitches it down.
func TestRatesMoveWithTheCG(t *testing.T) {
	ac := model(3.9) // derivatives are about 3.9
	ac.AlphaRate = aero.Coefficients{Lift: 2, Pitch: -4}
	require.InDelta(t, -4, frame(t, ac).alphaRate.Pitch, 1e-12)
	ac.CGX = 3.73 // ahead by a tenth of the chord of 1.7 m
	require.InDelta(t, -4-0.2*math.Cos(0.05), frame(t, ac).alphaRate.Pitch, 1e-12)
}
