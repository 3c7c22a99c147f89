package aerofoil

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFormFactorsOfSections(t *testing.T) {
	// Hoerner, Fluid-Dynamic Drag; Torenbeek, Synthesis of Subsonic Airplane Design; Raymer, Aircraft Design
	// (greatest thickness at 30 %, Mach 0.2, unswept): formulas from memory, evaluated.
	for _, c := range []struct{ thickness, hoerner, torenbeek, raymer float64 }{
		{0.09, 1.183937, 1.249561, 1.190091},
		{0.12, 1.252442, 1.344736, 1.264487},
		{0.15, 1.330375, 1.455625, 1.354643},
		{0.18, 1.422986, 1.590976, 1.469335},
	} {
		require.InDelta(t, c.hoerner, AerofoilFormHoerner(c.thickness), 5e-7)
		require.InDelta(t, c.torenbeek, AerofoilFormTorenbeek(c.thickness), 5e-7)
		require.InDelta(t, c.raymer, AerofoilFormRaymer(c.thickness, 0.3, 0.2, 0), 5e-7)
	}
	require.Equal(t, AerofoilFormRaymer(0.12, 0.3, 0.2, 0), AerofoilFormRaymer(0.12, 0.3, 0, 0), "a model at rest has friction too")
}

func TestFormFactorsOfBodies(t *testing.T) {
	// Raymer and Hoerner as above, formulas from memory, evaluated.
	for _, c := range []struct{ fineness, raymer, hoerner float64 }{
		{4, 1.947500, 1.296875}, {5, 1.492500, 1.190164}, {6, 1.292778, 1.134469}, {8, 1.137188, 1.079963},
	} {
		require.InDelta(t, c.raymer, BodyFormRaymer(c.fineness), 6e-7)
		require.InDelta(t, c.hoerner, BodyFormHoerner(c.fineness), 6e-7)
	}
}

func TestProfileDragOfA12PercentSection(t *testing.T) {
	// 2 · 0.0044708 · 1.252442, turbulent from the nose at a million.
	require.InDelta(t, 0.0111987, ProfileDrag(1e6, 0.12, Transition{}), 1e-6)
	// NACA 0012 at a Reynolds number of 6e6, Abbott & von Doenhoff, Theory of Wing Sections, from memory: least drag
	// 0.0058 clean. Transition near 45 % of the chord is assumed; two standard deviations are allowed.
	estimate := ProfileDrag(6e6, 0.12, TransitionAt(0.45))
	require.InDelta(t, 0.0058, estimate, 2*ProfileDragDeviation(6e6)*estimate)
}

func TestProfileDragIsLessSureOfASmallModel(t *testing.T) {
	require.Equal(t, 0.10, ProfileDragDeviation(3e6))
	require.InDelta(t, 0.10, ProfileDragDeviation(1e6), 1e-12)
	require.InDelta(t, 0.175, ProfileDragDeviation(316227.766), 1e-9)
	require.Equal(t, 0.25, ProfileDragDeviation(2e4))
}
