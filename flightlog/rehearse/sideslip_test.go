package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// With crossed controls a sideslip of 4° to 8° stands within 3 s of the first rudder and holds to the end of the card, on either side, on a
// constant heading.
func TestCrossedSideslipsStandAndHold(t *testing.T) {
	ac := model(3.9)
	speed := 1.6 * ac.StallSpeed(atmosphere.SeaLevelDensity)
	for _, rudder := range []float64{4.5, -4.5, 6.5, -6.5, 8.5, -8.5} {
		log, err := Fly(ac, []Card{
			{Kind: Climb, Speed: 23, Duration: 20}, {Kind: Sideslip, Speed: speed, Duration: 14, Size: rudder * degree, Crossed: true},
		}, still(), perfect(), seeded(1))
		require.NoError(t, err)
		s := log.Stretches[1]
		first, end := within(log, s.End-7, s.End) // the card flies level for 4 s, so the rudder has been moving for 3
		last := log.Truth.Beta[end-1]
		require.InDelta(t, math.Copysign(6, rudder), last/degree, 2)
		for i := first; i < end; i++ {
			require.InDelta(t, last/degree, log.Truth.Beta[i]/degree, 0.4, "rudder %g°, %.1f s before the end", rudder, s.End-log.Time[i])
			require.InDelta(t, log.Truth.Roll[end-1]/degree, log.Truth.Roll[i]/degree, 1.5)
			require.Less(t, math.Abs(log.Columns[atYawRate][i]), 1.5*degree)
		}
		require.Less(t, math.Abs(wrap(log.Truth.Heading[end-1]-log.Truth.Heading[first])), 2*degree)
		require.Greater(t, s.To-s.From, 6.0, "found to be steady")
	}
}

// The same by every aircraft on the sheet in light gusts: mean sideslip and its slope over the steady part stay what statics say.
func TestSideslipsOfTheSheetsBalance(t *testing.T) {
	for name, ac := range everyone() {
		stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
		w := DefaultWeather()
		log, err := Fly(ac, LateralCards(stall), w, perfect(), seeded(2))
		require.NoError(t, err)
		f := frame(t, ac)
		slips := 0
		for _, s := range log.Stretches {
			if s.Card.Kind != Sideslip {
				continue
			}
			slips++
			require.Greater(t, s.To-s.From, 5.0, name)
			first, end := within(log, s.From, s.To)
			var beta, roll, yaw float64
			for i := first; i < end; i++ {
				n := float64(end - first)
				b, a, r := log.Truth.Beta[i], log.Truth.Aileron[i], log.Truth.Rudder[i]
				beta += b / n
				roll += (f.d.ByBeta.Roll*b + f.aileron.Roll*a + f.rudd.Roll*r) / n
				yaw += (f.d.ByBeta.Yaw*b + f.aileron.Yaw*a + f.rudd.Yaw*r) / n
			}
			require.True(t, math.Abs(beta) > 2.5*degree && math.Abs(beta) < 10*degree, "%s: %.1f°", name, beta/degree)
			require.InDelta(t, 0, roll, 1e-3, name)
			require.InDelta(t, 0, yaw, 4e-4, name)
		}
		require.Equal(t, 8, slips)
	}
}

func TestCrossedIsChecked(t *testing.T) {
	for _, c := range []struct {
		card Card
		says string
	}{
		{Card{Kind: Level, Speed: 20, Duration: 30, Crossed: true}, "belong to a sideslip"},
		{Card{Kind: Sideslip, Speed: 20, Duration: 5, Crossed: true}, "no time to slip"},
	} {
		_, err := Fly(model(3.9), []Card{c.card}, still(), perfect(), seeded(1))
		require.ErrorContains(t, err, c.says)
	}
}
