package demo

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// Real greatest lifts lie about the predicted ones as far as theory says of itself: one error at both CGs of a configuration, most of it common to
// all. Over many seeds its root mean square is that of bias, levels and interaction together.
func TestGreatestLiftIsDrawnAboutThePrediction(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeScenario(dir, 1))
	p, err := program.Load(dir)
	require.NoError(t, err)
	st, err := predicted(context.Background(), p)
	require.NoError(t, err)
	errors := study.TheoryErrors(p, st.Configurations[0].Airframe.Reference.MeanChord)
	c := st.Configurations[0]
	const seeds = 400
	sum := 0.0
	for seed := range uint64(seeds) {
		truth := truthOf(seed, c, errors)
		var off [2]float64
		for i, predicted := range c.FullSize.ModelLifts {
			off[i] = truth.foreplaneLift(predicted.CG)/predicted.Lift - 1
		}
		require.InDelta(t, off[0], off[1], 1e-12)
		sum += off[0] * off[0]
	}
	// 6 % of bias, 2 % and 0.5 % of foreplane and winglet, 1 % of the configuration: 0.0643; of 400 draws within 11 % (three standard deviations).
	require.InEpsilon(t, 0.0643*0.0643, sum/seeds, 0.22)
	i := slices.IndexFunc(errors, func(e decide.TheoryError) bool { return e.Quantity == evidence.MaxLift })
	require.Equal(t, map[string]float64{"foreplane": 0.02, "winglet": 0.005}, errors[i].Level)
}

// A hand-made model: the elevator takes 0.1 rad at no lift and 0.5 rad for each unit of it, so that a stop at 0.4 rad ends at a lift coefficient of 0.6.
func TestGreatestLiftEndsAtTheElevatorStop(t *testing.T) {
	truth := configurationTruth{stop: 0.4, letsGo: []study.LiftAt{{CG: 3.6, Lift: 0.7}, {CG: 3.8, Lift: 0.9}}, derivatives: aero.Derivatives{
		Reference: aero.Reference{Area: 12, Span: 8, MeanChord: 1.5}, MomentPoint: 3.6,
		At:        aero.Coefficients{Pitch: -0.05},
		ByAlpha:   aero.Coefficients{Lift: 4, Pitch: -1},
		ByControl: map[string]aero.Coefficients{stability.Elevator: {Pitch: 0.5}},
	}}
	ends := truth.greatestLift(3.6)
	require.InDelta(t, 0.6, ends.Lift, 1e-12)
	require.True(t, ends.AtStop)
	truth.stop = 0.5 // a lift coefficient of 0.8, more than the foreplane allows
	require.Equal(t, liftTruth{CG: 3.6, Lift: 0.7}, truth.greatestLift(3.6))
	require.InDelta(t, 0.66, truth.foreplaneLift(3.56), 1e-12, "straight on ahead of the foremost")
	require.InDelta(t, 0.8, truth.foreplaneLift(3.7), 1e-12)
}

// No card comes closer to the stall than a quarter above its speed, the loads of turns and pull-ups counted, but for the decelerations. Speeds for a
// stalling speed of 20 m/s.
func TestCardsKeepAwayFromTheStall(t *testing.T) {
	for _, card := range cardsOf(sortie{slow: true}, 20) {
		switch card.Kind {
		case rehearse.Deceleration:
			require.GreaterOrEqual(t, card.Speed, 1.25*20)
		case rehearse.PullUp:
			require.GreaterOrEqual(t, card.Speed*card.Speed, 1.25*1.25*20*20*card.Size, "lift grows with the load factor")
		default:
			load := 1 / math.Cos(card.Bank)
			require.GreaterOrEqual(t, card.Speed*card.Speed, 1.25*1.25*20*20*load-1e-9, card.Kind)
		}
	}
}
