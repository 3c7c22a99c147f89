package program

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// plate is a surface of two stations with chord 1, leading edges at a and b.
func plate(name string, a, b r3.Vec) aero.Surface {
	station := func(p r3.Vec) aero.Station {
		return aero.Station{LeadingEdge: p, TrailingEdge: r3.Add(p, r3.Vec{X: 1})}
	}
	return aero.Surface{Name: name, Stations: []aero.Station{station(a), station(b)}}
}

// A level plate from y 0 to 4 and an upright one at y, from below to above, meet along a line that is known: they cross
// exactly when the upright one lies within the span, shares a stretch of x, and reaches more than 2 % of the chord to both sides.
func TestCrossingOfALevelAndAnUprightPlate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, x := rapid.Float64Range(-1, 5).Draw(t, "y"), rapid.Float64Range(-2, 2).Draw(t, "x")
		below, above := rapid.Float64Range(-0.2, 1).Draw(t, "below"), rapid.Float64Range(-0.2, 1).Draw(t, "above")
		near := func(v, edge float64) bool { return math.Abs(v-edge) < 0.03 } // of a rim, where a contact begins
		if near(y, 0) || near(y, 4) || near(x, 0) || near(math.Abs(x), 1) || math.Abs(below-touching) < 1e-6 || math.Abs(above-touching) < 1e-6 || above+below < 0.01 {
			return
		}
		level := plate("level", r3.Vec{}, r3.Vec{Y: 4})
		upright := plate("upright", r3.Vec{X: x, Y: y, Z: -below}, r3.Vec{X: x, Y: y, Z: above})
		want := y > 0 && y < 4 && math.Abs(x) < 1 && below > touching && above > touching
		m, got := crossing(level, upright)
		require.Equal(t, want, got)
		_, other := crossing(upright, level)
		require.Equal(t, want, other, "either way round")
		_, lies := overlapping(level, upright)
		require.False(t, lies)
		if got {
			require.InDelta(t, 0, m.at.Z, 1e-9)
			require.InDelta(t, y, m.at.Y, 1e-9)
			require.Equal(t, []int{1, 1}, []int{m.station, m.other})
		}
	})
}

// Plates in one plane share area or do not; a centimetre apart counts as one plane, ten do not.
func TestPlatesInOnePlane(t *testing.T) {
	level := plate("level", r3.Vec{}, r3.Vec{Y: 4})
	for _, c := range []struct {
		from, to r3.Vec
		want     bool
	}{
		{r3.Vec{X: 0.5, Y: 1}, r3.Vec{X: 0.5, Y: 3}, true},
		{r3.Vec{X: 0.5, Y: 1, Z: 0.01}, r3.Vec{X: 0.5, Y: 3, Z: 0.01}, true},
		{r3.Vec{X: 0.5, Y: 1, Z: 0.1}, r3.Vec{X: 0.5, Y: 3, Z: 0.1}, false},
		{r3.Vec{X: 1.2, Y: 1}, r3.Vec{X: 1.2, Y: 3}, false},
		{r3.Vec{Y: 4}, r3.Vec{Y: 5}, false}, // a common edge
	} {
		other := plate("other", c.from, c.to)
		_, got := overlapping(level, other)
		require.Equal(t, c.want, got, "%v", c.from)
		_, crosses := crossing(level, other)
		require.False(t, crosses, "%v", c.from)
	}
}

// The wake of a foreplane runs straight back: what counts is its height over the chord behind it.
func TestHeightOfTheWake(t *testing.T) {
	behind := plate("wing", r3.Vec{X: 5}, r3.Vec{X: 5, Y: 4, Z: 0.4})
	behind.Stations[0].TrailingEdge.Z = -0.05
	station, gap, ok := nearestWake(plate("fore", r3.Vec{Z: 0.3}, r3.Vec{Y: 2, Z: 0.3}), behind)
	require.True(t, ok)
	require.Equal(t, 2, station)
	require.InDelta(t, 0.1, gap, 1e-12) // at y 2 m the wing's leading edge stands at z 0.2 m
	_, gap, ok = nearestWake(plate("fore", r3.Vec{Z: -0.02}, r3.Vec{Y: 2, Z: 0.9}), behind)
	require.True(t, ok)
	require.Zero(t, gap, "inside the height of the root chord")
	_, _, ok = nearestWake(plate("fore", r3.Vec{X: 8}, r3.Vec{X: 8, Y: 2}), behind)
	require.False(t, ok, "nothing behind it")
}
