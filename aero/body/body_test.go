package body

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ellipsoid is a body of n+1 stations crowded at both ends, its nose at x = 1 m.
func ellipsoid(t require.TestingT, length, width, height float64, n int) Body {
	stations := make([]Station, n+1)
	for i := range stations {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
		if i == n {
			sin, cos = 0, -1
		}
		stations[i] = Station{X: 1 + length/2*(1-cos), Width: width * sin, Height: height * sin, Z: 0.2}
	}
	b, err := New(stations)
	require.NoError(t, err)
	return b
}

// pod is an invented two-seater's fuselage: cone, cylinder of 0.8 × 1.0 m, cone.
func pod(t require.TestingT) Body {
	b, err := New([]Station{{0, 0, 0, 0.1}, {1, 0.8, 1, 0.2}, {3, 0.8, 1, 0.2}, {4, 0, 0, 0.4}})
	require.NoError(t, err)
	return b
}

func TestMeasuresOfAPod(t *testing.T) {
	b := pod(t)
	// By hand: cones of a third of the cylinder's section each: π/4·0.8·1.0·(1/3 + 2 + 1/3) m³.
	require.InDelta(t, math.Pi/4*0.8*8/3, b.Volume(), 1e-14)
	require.Equal(t, 4.0, b.Length())
	require.InDelta(t, 4/math.Sqrt(0.8), b.Fineness(), 1e-14)
	for x, want := range map[float64]float64{-1: 0.1, 0: 0.1, 0.5: 0.15, 1: 0.2, 2: 0.2, 3.25: 0.25, 4: 0.4, 9: 0.4} {
		require.InDelta(t, want, b.AxisZ(x), 1e-14, "x = %g", x)
	}
}

func TestVolumeAndSlopeConvergeOnTheEllipsoid(t *testing.T) {
	volume := math.Pi / 6 * 6 * 0.9 * 1.3
	before := math.Inf(1)
	for _, n := range []int{4, 8, 16, 32, 64} {
		b := ellipsoid(t, 6, 0.9, 1.3, n)
		off := 1 - b.Volume()/volume
		require.Greater(t, off, 0.0, "a polygon lies inside")
		require.Less(t, off, before/3.7, "second order in the number of stations")
		require.InDelta(t, off, 1-b.PitchSlope(nil)/(2*volume*0.9/1.3), 1e-12)
		require.InDelta(t, off, 1+b.YawSlope(nil)/(2*volume*1.3/0.9), 1e-12)
		before = off
	}
	require.Less(t, before, 1e-3, "64 stations")
}

func TestNewNamesEveryMistake(t *testing.T) {
	good := []Station{{0, 0, 0, 0}, {1, 0.5, 0.5, 0}, {3, 0, 0, 0}}
	change := func(i int, s Station) []Station {
		c := append([]Station(nil), good...)
		c[i] = s
		return c
	}
	for _, c := range []struct {
		name     string
		stations []Station
		want     []string
	}{
		{"none", nil, []string{"body: it has 0 stations; give at least 3"}},
		{"two", good[:2], []string{"body: it has 2 stations; give at least 3"}},
		{"order", change(2, Station{1, 0, 0, 0}), []string{"body station 3: x is 1 m, not aft of station 2 at 1 m; order the stations from nose to tail"}},
		{"zero", change(1, Station{1, 0, 0.5, 0}), []string{"body station 2: the width at x = 1 m is zero; only the first and the last"}},
		{"negative", change(0, Station{0, 0, -0.1, 0}), []string{"body station 1: the height at x = 0 m is -0.1 m"}},
		{"both", change(1, Station{-1, -2, 0, 0}), []string{"station 2: x is -1 m", "station 2: the width", "station 2: the height"}},
		{"nan", change(1, Station{math.NaN(), 1, 1, 0}), []string{"body station 2: x, width, height or z is not a number; give all four in metres"}},
		{"inf", change(1, Station{1, 1, 1, math.Inf(1)}), []string{"body station 2"}},
		{"stout", change(1, Station{1, 3, 0.5, 0}), []string{"body: it is 3 m long, 3 m wide and 0.5 m high; a slender body is longer"}},
	} {
		_, err := New(c.stations)
		require.Error(t, err, c.name)
		for _, want := range c.want {
			require.ErrorContains(t, err, want, c.name)
		}
		var mistake *StationError
		require.ErrorAs(t, err, &mistake, c.name)
	}
}

func TestNewCopiesItsStations(t *testing.T) {
	stations := []Station{{0, 0, 0, 0}, {1, 0.5, 0.5, 0}, {3, 0, 0, 0}}
	b, err := New(stations)
	require.NoError(t, err)
	stations[1].Width = 7
	require.Equal(t, 0.5, b.Stations[1].Width)
}

func TestBodyWithoutStationsAddsNothing(t *testing.T) {
	var b Body
	require.Zero(t, b.Length())
	require.Zero(t, b.Volume())
	require.Zero(t, b.Fineness())
	require.Zero(t, b.AxisZ(1))
	require.Zero(t, b.PitchSlope(nil))
	require.Zero(t, b.PitchSlope(func(float64) float64 { return 1 }))
	require.Equal(t, Effect{}, b.Effect(nil, nil))
	require.Empty(t, b.Warnings())
}

func TestWarnings(t *testing.T) {
	require.Empty(t, pod(t).Warnings())
	b, err := New([]Station{{0, 0, 0, 0}, {1, 1, 1, 0}, {3, 0.5, 0.5, 0}})
	require.NoError(t, err)
	found := b.Warnings()
	require.Len(t, found, 2)
	require.Contains(t, found[0].What, "fineness is 3")
	require.Equal(t, 3, found[1].Station)
	require.Contains(t, found[1].What, "25 %")
}

// someBody draws a body of three to nine stations.
func someBody(t *rapid.T) Body {
	n := rapid.IntRange(3, 9).Draw(t, "stations")
	size := rapid.Float64Range(0.05, 0.6)
	stations := make([]Station, n)
	x := rapid.Float64Range(-3, 3).Draw(t, "nose")
	for i := range stations {
		stations[i] = Station{x, size.Draw(t, "width"), size.Draw(t, "height"), 0}
		x += rapid.Float64Range(0.4, 2).Draw(t, "step")
	}
	b, err := New(stations)
	require.NoError(t, err)
	return b
}

// A station put between two others on the straight line changes nothing.
func TestExtraStationChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBody(t)
		i := rapid.IntRange(1, len(b.Stations)-1).Draw(t, "after")
		share := rapid.Float64Range(0.1, 0.9).Draw(t, "share")
		s := b.section(b.Stations[i-1].X + share*(b.Stations[i].X-b.Stations[i-1].X))
		finer := append(append(append([]Station(nil), b.Stations[:i]...), s), b.Stations[i:]...)
		c, err := New(finer)
		require.NoError(t, err)
		flow := func(x float64) float64 { return 1 + 0.3*math.Sin(2*x) }
		require.InEpsilon(t, b.Volume(), c.Volume(), 1e-12)
		require.InEpsilon(t, b.PitchSlope(flow), c.PitchSlope(flow), 1e-9)
		require.InEpsilon(t, b.YawSlope(nil), c.YawSlope(nil), 1e-12)
	})
}

// Lengths times k give volume and slopes times k³ and the same factors; width and height swapped swap
// pitch and yaw with the other sign; nose for tail gives the same couple in the reversed flow.
func TestScaleSwapAndReversal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBody(t)
		k := rapid.Float64Range(0.1, 10).Draw(t, "scale")
		flow := Flow(func(x float64) float64 { return 1 + 0.2*x })
		var large, swapped, reversed Body
		for i, s := range b.Stations {
			large.Stations = append(large.Stations, Station{k * s.X, k * s.Width, k * s.Height, k * s.Z})
			swapped.Stations = append(swapped.Stations, Station{s.X, s.Height, s.Width, s.Z})
			r := b.Stations[len(b.Stations)-1-i]
			reversed.Stations = append(reversed.Stations, Station{-r.X, r.Width, r.Height, r.Z})
		}
		e := b.Effect(flow, flow)
		stretched := Flow(func(x float64) float64 { return flow(x / k) })
		require.InDelta(t, k*k*k*e.Pitch, large.Effect(stretched, nil).Pitch, 1e-8*k*k*k*b.PitchSlope(nil))
		require.InDelta(t, -e.Yaw, swapped.Effect(flow, flow).Pitch, 1e-8*math.Abs(b.YawSlope(nil)))
		require.InDelta(t, e.Pitch, reversed.Effect(func(x float64) float64 { return flow(-x) }, nil).Pitch, 1e-8*b.PitchSlope(nil))
	})
}
