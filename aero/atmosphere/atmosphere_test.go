package atmosphere

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// near fails unless got is within tol of want, and says where want comes from.
func near(t require.TestingT, got, want, tol float64, source string) {
	require.InDelta(t, want, got, tol, "%s: off by %.3g", source, got-want)
}

// The table is printed by geometric height; each tolerance is half of the last printed digit.
func TestStandardAgainstPrintedTable(t *testing.T) {
	const source = "U.S. Standard Atmosphere, 1976, Table I, as transcribed in public test files"
	rows := []struct{ z, temperature, pressure, pTol, density, rhoTol float64 }{
		{0, 288.150, 1.01325e5, 0.5, 1.2250, 5e-5},
		{1000, 281.651, 8.9876e4, 0.5, 1.1117, 5e-5},
		{5000, 255.676, 5.4048e4, 0.5, 7.3643e-1, 5e-6},
		{10000, 223.252, 2.6499e4, 1, 4.1351e-1, 5e-6}, // another listing prints 2.6500e4
		{11000, 216.774, 2.2700e4, 0.5, 3.6480e-1, 5e-6},
	}
	for _, r := range rows {
		s, err := Standard(GeopotentialFromGeometric(r.z))
		require.NoError(t, err)
		near(t, s.Temperature, r.temperature, 5e-4, source)
		near(t, s.Pressure, r.pressure, r.pTol, source)
		near(t, s.Density, r.density, r.rhoTol, source)
	}
	for _, r := range [][2]float64{{2000, 7.9501e4}, {3000, 7.0121e4}, {8000, 3.5651e4}} {
		s, err := Standard(GeopotentialFromGeometric(r[0]))
		require.NoError(t, err)
		near(t, s.Pressure, r[1], 1, source)
	}
}

func TestStandardKeyValues(t *testing.T) {
	s, err := Standard(0)
	require.NoError(t, err)
	near(t, s.Density, 1.225, 5e-6, "ISO 2533, density at sea level")
	near(t, s.SoundSpeed, 340.294, 5e-4, "ISO 2533, speed of sound at sea level")
	near(t, s.Viscosity, 1.7894e-5, 5e-10, "U.S. Standard Atmosphere, 1976, viscosity at 288.15 K, as transcribed in public test files")

	s, err = Standard(11000)
	require.NoError(t, err)
	near(t, s.Temperature, 216.65, 1e-9, "ISO 2533, tropopause")
	near(t, s.Pressure, 22632.06, 0.03, "U.S. Standard Atmosphere, 1976, base pressure of the second layer (its gas constant differs in the 7th digit)")

	s, err = Standard(2400)
	require.NoError(t, err)
	near(t, s.Density, 0.966632, 5e-6, "recomputed from the equations of ISO 2533")
	near(t, s.Viscosity, 1.71311e-5, 5e-11, "recomputed from the equations of ISO 2533")

	near(t, PressureAltitude(50000), 5574.4, 0.05, "geopotential height of 500 hPa, U.S. Standard Atmosphere, 1976, as transcribed in public test files")
}

func TestStandardRefusesOutside(t *testing.T) {
	for _, h := range []float64{-2000.1, 20000.1, math.NaN(), math.Inf(1)} {
		_, err := Standard(h)
		require.ErrorContains(t, err, "outside -2000 m to 20000 m")
	}
	for _, h := range []float64{-2000, 20000} {
		_, err := Standard(h)
		require.NoError(t, err)
	}
}

// Hydrostatic balance is the second road to the pressure: dp/dH = −ρ·g.
func TestHydrostaticBalance(t *testing.T) {
	for _, h := range []float64{-1000, 0, 3000, 10500, 11500, 19000} {
		below, err := Standard(h - 1)
		require.NoError(t, err)
		above, err := Standard(h + 1)
		require.NoError(t, err)
		here, err := Standard(h)
		require.NoError(t, err)
		slope := (above.Pressure - below.Pressure) / 2
		require.InEpsilon(t, -here.Density*Gravity, slope, 1e-7)
	}
}

func TestCalibratedAirspeed(t *testing.T) {
	const knot = 1852.0 / 3600
	const source = "recomputed from the definition of calibrated airspeed"
	near(t, ImpactPressure(45*knot), 328.632, 1e-3, source)
	near(t, ImpactPressure(61*knot), 604.457, 2e-3, source)
	air, err := Standard(1000)
	require.NoError(t, err)
	for _, r := range [][2]float64{{50, 26.99942}, {61, 32.93784}, {100, 53.98425}} {
		near(t, TrueAirspeed(r[0]*knot, air.Pressure, air.Temperature), r[1], 1e-4, source)
	}
}

func TestRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(-2000, 20000).Draw(t, "altitude")
		v := rapid.Float64Range(-250, 250).Draw(t, "speed")
		s, err := Standard(h)
		require.NoError(t, err)
		require.InDelta(t, h, PressureAltitude(s.Pressure), 1e-6)
		require.InDelta(t, h, GeopotentialFromGeometric(GeometricFromGeopotential(h)), 1e-7)
		require.InDelta(t, v, CalibratedAirspeed(TrueAirspeed(v/2, s.Pressure, s.Temperature), s.Pressure, s.Temperature)*2, 1e-9)
	})
	require.True(t, math.IsNaN(PressureAltitude(0)))
	require.True(t, math.IsNaN(PressureAltitude(-1)))
}
