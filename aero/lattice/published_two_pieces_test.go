package lattice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// TestWingletInTwoPieces: a winglet of two surfaces, the second on the tip of the first, is the same winglet in one.
func TestWingletInTwoPieces(t *testing.T) {
	for _, height := range []float64{0.2, 0.6} {
		one := solvedAt(t, spanTwo(winglets(height)...), 1)
		two := solvedAt(t, spanTwo(append(winglets(height/2),
			plateThrough("top", aero.RoleWinglet, "winglet", 1, [2]float64{1, height / 2}, [2]float64{1, height}))...), 1)
		require.Less(t, two.Panels(), 2*one.Panels())
		near(t, slopeOf(one), slopeOf(two), 0.002, "the same winglet in one piece")
		near(t, efficiencyOf(one), efficiencyOf(two), 0.003, "the same winglet in one piece")
	}
}
