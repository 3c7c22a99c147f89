package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// motionProblem has limits on the motions of the scenario of false freezes, whose Dutch roll has a closed form.
func motionProblem(t *testing.T) (scenario, Problem) {
	s := readScenario(t, "every_limit_close")
	p := s.problem()
	p.Seed, p.Draws = 5, 4000
	p.Limits = []Limit{{Name: "damping", Quantity: evidence.DutchRollDamping, AtLeast: at(0.11), Evidence: "analysis"},
		{Name: "frequency", Quantity: evidence.DutchRollFrequency, AtLeast: at(1.5), Evidence: "analysis"}}
	p.Parts = nil
	return s, p
}

// The response about the beliefs against the motions in full, draw by draw: where they differ the probability moves by less
// than what Monte Carlo leaves.
func TestResponseOfMotionsAgainstFullComputation(t *testing.T) {
	s, p := motionProblem(t)
	th, requirements, err := assumedBy(p)
	require.NoError(t, err)
	b := &belief{theory: th, observed: &observations{}, mean: th.mean}
	j, err := judge(p, b, requirements)
	require.NoError(t, err)
	drawn := newTable(p, b, requirements)
	w := &world{problem: p, requirements: requirements, theory: th, n: p.Draws}
	for c := range th.space.configs {
		for r, requirement := range requirements {
			if requirement.built != nil {
				continue
			}
			full := w.motions(s, requirement, c, drawn)
			holds := 0
			for i := range p.Draws {
				if full.least[i] >= *requirement.AtLeast {
					holds++
				}
			}
			require.InDelta(t, float64(holds)/float64(p.Draws), j.verdicts[c][r].Probability, 0.01)
			spread := newQuantiles(full.least)
			require.InEpsilon(t, spread.at(0.5), j.verdicts[c][r].Median, 0.01)
		}
	}
}

// A spiral that dies away never doubles; one that grows doubles in ln 2 over its rate.
func TestSpiralIsJudgedByItsRate(t *testing.T) {
	_, p := motionProblem(t)
	rate := 0.05
	p.Limits = []Limit{{Name: "spiral", Quantity: evidence.SpiralTimeToDouble, AtLeast: at(12), Evidence: "analysis"}}
	p.Errors = append(p.Errors, TheoryError{Quantity: evidence.DihedralEffect, Bias: 0.001})
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.DihedralEffect] = -0.1
	}
	p.Motions = func(map[string]string, map[string]float64, Flown) (map[string]float64, error) {
		return map[string]float64{evidence.SpiralRate: rate}, nil
	}
	v := mustJudge(t, p)
	near(t, v.Configurations[0].Limits[0].Median, math.Ln2/0.05, 1e-9, "ln 2 / rate")
	require.Equal(t, 1.0, v.Configurations[0].Limits[0].Probability)
	rate = -0.05
	v = mustJudge(t, p)
	require.True(t, v.Configurations[0].Limits[0].Range().AlwaysEndless())
	require.Equal(t, "endless", inUnit(v.Configurations[0].Limits[0].Median, "s", evidence.SpiralTimeToDouble))
}

// Limits on speeds and on trim room, without any error, against the formulas worked by hand: mass 667 kg at CG 3.8277 m, S 13 m²,
// CL 1.2: V = √(2·667·9.80665/(1.225·13·1.2)) = 26.164 m/s. Rotation: arm 0.53234 m, Cm 0.6, chord 1.68:
// √(2·667·9.80665·0.53234/(1.225·13·1.68·0.6)) = 20.829 m/s. Trim at 38 m/s: CL = 2·667·9.80665/(1.225·38²·13) = 0.56889; elevator
// 0.05 − 1.0·(3.82766 − 4.02)·0.56889 = 0.15942; room 0.40 − 0.15942 = 0.24058 rad.
func TestSpeedsAndTrimRoomByHand(t *testing.T) {
	p := Problem{Draws: 10, Choices: []Choice{{Name: "winglet", Levels: []string{"mid"}}}, Limits: []Limit{
		{Name: "stall", Quantity: evidence.StallingSpeed, AtMost: at(30)}, {Name: "rotation", Quantity: evidence.RotationSpeed, AtMost: at(30)},
		{Name: "room", Quantity: evidence.ElevatorRoom, AtLeast: at(0)}}}
	p.Predictions = []Prediction{{Levels: map[string]string{"winglet": "mid"}, NoseUpStop: 0.40, Values: map[string]float64{
		evidence.MaxLift: 1.2, evidence.RotationMoment: 0.6, evidence.NeutralPoint: 4.02, evidence.ElevatorTrimRate: -1.0, evidence.ZeroLiftElevator: 0.05}}}
	for quantity := range p.Predictions[0].Values {
		p.Errors = append(p.Errors, TheoryError{Quantity: quantity})
	}
	p.Aircraft = Aircraft{MeanChord: 1.68, WingArea: 13, ApproachSpeed: 38, EmptyMass: Figure{Value: 590}, EmptyX: Figure{Value: 4.01}, EmptyZ: Figure{Value: 0.15},
		Loadings: []Loading{{Name: "light", Flies: true, Items: []Item{{"pilot", 65, 2.15, 0.25}, {"fuel", 12, 3.95, 0.05}}}},
		Gear:     &Gear{NoseX: 0.95, MainX: 4.36, Track: 2.3, GroundZ: -0.85}}
	v := mustJudge(t, p)
	for i, want := range []float64{26.164, 20.829, 0.24058} {
		near(t, v.Configurations[0].Limits[i].Median, want, 6e-4, "by hand")
	}
	p.Aircraft.ApproachSpeed = 0
	_, err := Judge(p)
	require.ErrorContains(t, err, `limit "room": elevator_room needs the approach speed`)
	p.Limits = p.Limits[:2]
	p.Aircraft.WingArea = 0
	_, err = Judge(p)
	require.ErrorContains(t, err, "wing area")
}

// A flight in which the wing of the model let go first fails stall order in its configuration, whatever theory says, and no other.
func TestWingThatLetsGoFirstFailsStallOrder(t *testing.T) {
	p := testProblem()
	p.Draws = 1000
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.StallOrderMargin] = 0.2
	}
	p.Errors = append(DefaultErrors(testChord, p.Choices)[:0:0], p.Errors...)
	p.Limits = append(p.Limits, Limit{Name: "stall order", Quantity: evidence.StallOrderMargin, AtLeast: at(0), Evidence: "analysis"})
	low, high, ok := p.Aircraft.flyingRange()
	require.True(t, ok)
	tall := levelsOf("winglet=tall foreplane=long")
	p.WingFirst = []WingFirst{{Levels: tall, CG: high + 0.1, Flights: []string{"F11", "F14"}}}
	require.Equal(t, 1.0, limitOf(t, mustJudge(t, p), "foreplane=long, winglet=tall", "stall order").Probability, "aft of every loading it says nothing")
	p.WingFirst = []WingFirst{{Levels: tall, CG: low, Flights: []string{"F12"}}}
	once := limitOf(t, mustJudge(t, p), "foreplane=long, winglet=tall", "stall order")
	require.Equal(t, 0.5, once.Probability, "one stall may have been seen wrong")
	require.Contains(t, once.Where, "fly the stall once more")
	p.WingFirst = append(p.WingFirst, WingFirst{Levels: tall, CG: high, Flights: []string{"F13"}})
	v := mustJudge(t, p)
	for _, c := range v.Configurations {
		l := limitOf(t, v, c.Configuration, "stall order")
		if c.Configuration != "foreplane=long, winglet=tall" {
			require.Equal(t, 1.0, l.Probability)
			continue
		}
		require.Zero(t, l.Probability)
		require.Contains(t, l.Where, "F12")
		require.Equal(t, Out, c.State)
	}
}
