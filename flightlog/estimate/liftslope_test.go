package estimate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Two roads: the ends in closed form, and the least of the statistic over B searched on a grid.
func TestSteepnessAgainstASearch(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 9))
	for range 50 {
		f := pairFit{alpha: [2]float64{0.17 + 0.01*random.NormFloat64(), -0.08 * (1 + 0.2*random.NormFloat64())},
			elevator: [2]float64{0.1 * random.NormFloat64(), -1 + 0.1*random.NormFloat64()}, level: 0.2, trend: 90}
		s := pairSpread{alpha: 1e-4, elevator: 2e-4, ae: 5e-5 * random.NormFloat64()}
		const degree = 2.4
		set := f.steepness(s, degree)
		require.Equal(t, SetInterval, set.Set)
		statistic := func(a float64) float64 {
			least := math.Inf(1)
			for b := -2.0; b <= 2; b += 1e-4 {
				mean, trend := f.alpha[0]-a-b*f.elevator[0], f.alpha[1]-b*f.elevator[1]
				least = math.Min(least, (square(mean)/f.level+square(trend)/f.trend)/s.of(b))
			}
			return least
		}
		near(t, statistic(set.Low), square(degree), 1e-3, "search over B")
		near(t, statistic(set.High), square(degree), 1e-3, "search over B")
		require.Less(t, statistic(set.Value), 1e-4)
	}
}

// With an elevator slope that is known, the set is the usual one: value ± t·sd.
func TestSteepnessWithAKnownElevatorSlope(t *testing.T) {
	f := pairFit{alpha: [2]float64{0.17, -0.08}, elevator: [2]float64{0.1, -1}, level: 0.2, trend: 90}
	s := pairSpread{alpha: 1e-4}
	set := f.steepness(s, 2)
	near(t, set.Value, 0.17-0.08*0.1, 1e-15, "dα/dCL where dδe/dCL vanishes")
	near(t, set.High-set.Value, 2*set.SD, 1e-12, "normal theory")
	near(t, set.SD, math.Sqrt(1e-4*(0.2+90*0.01)), 1e-12, "level and trend are independent")
}

// Where the CG hardly changes the trim slope the set has no end, and the words say how much travel would do.
func TestLiftCurveSlopeWithoutAnEnd(t *testing.T) {
	p := flyProgramme(rand.New(rand.NewPCG(2, 2)), canard(), 3, 4, 4, []float64{2.350, 2.356}, Systematics{}, 0.2)
	p.pool()
	r := LiftCurveSlope(p.points[0], Systematics{}, p.scatter)
	require.Equal(t, NotDetermined, r.State)
	require.Nil(t, r.Low)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "CG travel of 6 mm")
}
