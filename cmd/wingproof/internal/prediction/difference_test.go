package prediction

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
)

// pair is plain, and plain with a foreplane of 5 % more span.
func pair(t *testing.T, grids bool) (Setup, []Analysis) {
	t.Helper()
	base := plain()
	changed, err := base.SetSpan("foreplane", 3.15)
	require.NoError(t, err)
	s := Setup{CG: r3.Vec{X: 2.2}, Grids: grids}
	all, err := Analyse([]aero.Airframe{base, changed}, s)
	require.NoError(t, err)
	return s, all
}

// A difference on like grids is what the values say, and its error is well below that of either value: what the grids get
// wrong alike drops out.
func TestDifferencesHaveTheirOwnGridError(t *testing.T) {
	s, all := pair(t, true)
	differences, err := s.Differences(&all[1], &all[0])
	require.NoError(t, err)
	require.Len(t, differences, len(all[0].Numbers))
	smaller := 0
	for i, d := range differences {
		base, changed := all[0].Numbers[i], all[1].Numbers[i]
		require.Equal(t, base.Quantity, d.Quantity)
		require.Equal(t, base.Unit, d.Unit)
		if math.IsNaN(base.Value) {
			require.True(t, math.IsNaN(d.Value), d.Quantity)
			continue
		}
		require.InDelta(t, changed.Value-base.Value, d.Value, 1e-12, d.Quantity)
		require.LessOrEqual(t, d.Grid, base.Grid+changed.Grid+1e-12, d.Quantity)
		if d.Grid < 0.5*base.Grid {
			smaller++
		}
	}
	require.Greater(t, smaller, len(differences)/2)
	for _, d := range differences {
		if d.Quantity == evidence.NeutralPoint { // more foreplane moves it ahead by far more than the grid is unsure of
			require.Negative(t, d.Value)
			require.Less(t, 10*d.Grid, -d.Value)
		}
	}
}

// The estimated error of a difference covers the difference on twice the panels.
func TestDifferenceHoldsOnAFinerGrid(t *testing.T) {
	s, all := pair(t, true)
	differences, err := s.Differences(&all[1], &all[0])
	require.NoError(t, err)
	fine := s
	fine.Grids, fine.Lattice.Density = false, 2
	finer, err := Analyse([]aero.Airframe{all[0].Airframe, all[1].Airframe}, fine)
	require.NoError(t, err)
	for i, d := range differences {
		if math.IsNaN(d.Value) {
			continue
		}
		require.InDelta(t, finer[1].Numbers[i].Value-finer[0].Numbers[i].Value, d.Value, d.Grid+1e-9, d.Quantity)
	}
}

func TestWithoutGridsNoErrorIsClaimed(t *testing.T) {
	s, all := pair(t, false)
	differences, err := s.Differences(&all[1], &all[0])
	require.NoError(t, err)
	for _, d := range differences {
		require.True(t, math.IsNaN(d.Grid), d.Quantity)
	}
	own, err := all[0].Further(s.Quantities())
	require.NoError(t, err)
	require.InDelta(t, all[0].Value(evidence.NeutralPoint), own[4].Value, 1e-12)
}
