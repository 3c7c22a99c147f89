package aerofoil

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFlatPlateFriction(t *testing.T) {
	// Blasius 1908 and Prandtl–Schlichting 1932 (Schlichting, Boundary-Layer Theory, chapter XXI), evaluated.
	for _, c := range []struct{ reynolds, laminar, turbulent float64 }{
		{1e5, 0.0041995, 0.0071560},
		{3e5, 0.0024246, 0.0056565},
		{1e6, 0.0013280, 0.0044708},
		{3e6, 0.0007667, 0.0036698},
		{1e7, 0.0004200, 0.0030037},
	} {
		require.InDelta(t, c.laminar, LaminarFriction(c.reynolds), 5.1e-8)
		require.InDelta(t, c.turbulent, TurbulentFriction(c.reynolds), 5.1e-8)
		require.Equal(t, TurbulentFriction(c.reynolds), Friction(c.reynolds, Transition{}))
		require.InDelta(t, c.laminar, Friction(c.reynolds, TransitionAt(1)), 5.1e-8)
	}
}

func TestTurbulentFrictionAgainstOtherLaws(t *testing.T) {
	// Prandtl 1927, 0.074 R^−1/5, and the line of the International Towing Tank Conference 1957,
	// 0.075/(log R − 2)²: independent fits to plates, 5 % apart at a million and above.
	for _, reynolds := range []float64{1e6, 3e6, 1e7} {
		got := TurbulentFriction(reynolds)
		require.InEpsilon(t, 0.074*math.Pow(reynolds, -0.2), got, 0.05)
		require.InEpsilon(t, 0.075/math.Pow(math.Log10(reynolds)-2, 2), got, 0.05)
	}
}

func TestTransitionTakesAConstantOverReynolds(t *testing.T) {
	// Prandtl writes the gain of a laminar front as A/R: A = 1050, 1700, 3300, 8700 for transition at 3e5,
	// 5e5, 1e6, 3e6 (Schlichting, Boundary-Layer Theory, chapter XXI, from memory). His constants rest on the
	// law 0.074 R^−1/5 at the transition, which is up to 8 % higher there.
	for critical, want := range map[float64]float64{3e5: 1050, 5e5: 1700, 1e6: 3300, 3e6: 8700} {
		for _, reynolds := range []float64{4e6, 1e7} {
			gain := reynolds * (TurbulentFriction(reynolds) - Friction(reynolds, TransitionAtReynolds(critical)))
			require.InEpsilon(t, want, gain, 0.08, critical)
		}
	}
	// 0.455/(log R)^2.58 − 1700/R, evaluated; the difference of the constants is below 100/R.
	for reynolds, want := range map[float64]float64{1e6: 0.0027708, 3e6: 0.0031032, 1e7: 0.0028337} {
		require.InDelta(t, want, Friction(reynolds, TransitionAtReynolds(5e5)), 100/reynolds)
	}
	// At and below 5e5 the whole plate is laminar.
	require.Equal(t, LaminarFriction(5e5), Friction(5e5, TransitionAtReynolds(5e5)))
	require.Equal(t, LaminarFriction(1e5), Friction(1e5, TransitionAtReynolds(5e5)))
}

func TestTransitionAtAFractionOrAtAReynoldsNumber(t *testing.T) {
	require.InDelta(t, Friction(2e6, TransitionAtReynolds(5e5)), Friction(2e6, TransitionAt(0.25)), 1e-15)
	require.Equal(t, 1.0, TransitionAt(3).Fraction(1e6))
	require.Zero(t, TransitionAt(-1).Fraction(1e6))
	require.Zero(t, TransitionAtReynolds(-1).Fraction(1e6))
	for _, reynolds := range []float64{0, -1, math.NaN()} {
		require.True(t, math.IsNaN(Friction(reynolds, TransitionAt(0.3))))
		require.True(t, math.IsNaN(ProfileDrag(reynolds, 0.12, Transition{})))
	}
}

func TestFrictionLiesBetweenLaminarAndTurbulent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reynolds := math.Pow(10, rapid.Float64Range(2, 9).Draw(t, "log R"))
		x := rapid.Float64Range(0, 1).Draw(t, "transition")
		further := rapid.Float64Range(x, 1).Draw(t, "further")
		cf := Friction(reynolds, TransitionAt(x))
		require.GreaterOrEqual(t, cf, LaminarFriction(reynolds)*(1-1e-12))
		require.LessOrEqual(t, cf, TurbulentFriction(reynolds)*(1+1e-12))
		require.LessOrEqual(t, Friction(reynolds, TransitionAt(further)), cf*(1+1e-12), "a longer laminar front never adds friction")
		require.LessOrEqual(t, Friction(1.01*reynolds, TransitionAt(x)), cf, "friction falls with the Reynolds number")
	})
}
