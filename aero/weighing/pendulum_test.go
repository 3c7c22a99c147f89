package weighing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

const g0 = 9.80665

// Closed forms of bodies that every text has.
func TestClosedForms(t *testing.T) {
	const m, a, b, line = 3.0, 1.4, 0.9, 2.1
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"uniform rod on lines at its ends: T = 2π√(L/3g)", Bifilar(m, g0, a, line, 2*math.Pi*math.Sqrt(line/(3*g0))), m * a * a / 12},
		{"uniform rod about its end: T = 2π√(2a/3g)", Compound(m, g0, a/2, 2*math.Pi*math.Sqrt(2*a/(3*g0))), m * a * a / 12},
		{"plate about one edge: T = 2π√(2b/3g)", Compound(m, g0, b/2, 2*math.Pi*math.Sqrt(2*b/(3*g0))), m * b * b / 12},
		{"plate flat on lines at the middles of two edges: I = m(a²+b²)/12", Bifilar(m, g0, a, line, 2*math.Pi*math.Sqrt((a*a+b*b)*line/(3*g0*a*a))), m * (a*a + b*b) / 12},
		{"all mass in one point: T = 2π√(l/g)", Compound(m, g0, b, 2*math.Pi*math.Sqrt(b/g0)), 0},
		{"ring about its rim: T = 2π√(2r/g)", Compound(m, g0, b, 2*math.Pi*math.Sqrt(2*b/g0)), m * b * b},
	} {
		require.InDelta(t, c.want, c.got, 1e-12, c.name)
	}
}

// swingOut integrates ψ” = moment(ψ)/inertia from rest at an amplitude and returns the whole period.
func swingOut(amplitude float64, acceleration func(psi, rate float64) float64) float64 {
	const dt = 1e-4
	psi, rate, now := amplitude, 0.0, 0.0
	for psi > 0 {
		k1v, k1 := rate, acceleration(psi, rate)
		k2v, k2 := rate+dt/2*k1, acceleration(psi+dt/2*k1v, rate+dt/2*k1)
		k3v, k3 := rate+dt/2*k2, acceleration(psi+dt/2*k2v, rate+dt/2*k2)
		k4v, k4 := rate+dt*k3, acceleration(psi+dt*k3v, rate+dt*k3)
		psi += dt / 6 * (k1v + 2*k2v + 2*k3v + k4v)
		rate += dt / 6 * (k1 + 2*k2 + 2*k3 + k4)
		now += dt
	}
	return 4 * (now - psi/rate) // back to the crossing
}

// A swing of 12°, integrated with all its geometry, comes back as the inertia that swung.
func TestLargeSwingsAreCorrected(t *testing.T) {
	const m, inertia, amplitude = 16.0, 2.6, 12 * math.Pi / 180
	const d, line = 0.8, 2.4
	// Energy of the exact bifilar rig: height h = L − √(L² − d² sin²(ψ/2)); vertical motion ḣ = h' ψ̇ counts.
	slope := func(psi float64) float64 {
		return d * d * math.Sin(psi) / 4 / math.Sqrt(line*line-d*d*math.Pow(math.Sin(psi/2), 2))
	}
	exact := swingOut(amplitude, func(psi, rate float64) float64 {
		const e = 1e-5
		s, bend := slope(psi), (slope(psi+e)-slope(psi-e))/(2*e)
		return -(m*g0*s + m*s*bend*rate*rate) / (inertia + m*s*s)
	})
	require.InEpsilon(t, inertia, Bifilar(m, g0, d, line, SmallSwing(exact, amplitude)), 1e-3)
	require.Greater(t, Bifilar(m, g0, d, line, exact)/inertia, 1.004, "uncorrected, it is half a per cent too large")
	const arm = 0.4
	exact = swingOut(amplitude, func(psi, _ float64) float64 { return -m * g0 * arm * math.Sin(psi) / (inertia + m*arm*arm) })
	require.InEpsilon(t, inertia, Compound(m, g0, arm, SmallSwing(exact, amplitude)), 3e-5, "the next term is 11/3072 a⁴ of the period, and the inertia about the axis is twice that about the CG")
}

func TestPeriodOf(t *testing.T) {
	one := PeriodOf([]Timing{{20, 60}}, 0.15)
	require.InDelta(t, 3, one.Value, 1e-12)
	require.InDelta(t, 0.15/20, one.SD, 1e-12)
	four := PeriodOf([]Timing{{20, 60}, {20, 60}, {20, 60}, {20, 60}}, 0.15)
	require.InDelta(t, 0.15/20/2*math.Sqrt(5.0/8), four.SD, 1e-12, "agreeing timings help, and never claim to be perfect")
	wild := PeriodOf([]Timing{{20, 58}, {20, 62}}, 0.15)
	require.Greater(t, wild.SD, 3*one.SD)
	mixed := PeriodOf([]Timing{{10, 31}, {30, 90}}, 0.1)
	require.InDelta(t, (10*31+30*90)/1000.0, mixed.Value, 1e-12, "long runs count more")
	load := loadOf([]float64{2, 2.02, 1.98}, 0.01)
	require.InDelta(t, 2, load.Value, 1e-12)
	require.InDelta(t, math.Sqrt(0.01*0.01+0.02*0.02/3), load.SD, 1e-12)
}
