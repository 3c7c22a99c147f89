package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// trimmingProblem is one configuration with every limit that bounds the CG, and errors on every belief.
func trimmingProblem() Problem {
	p := Problem{Seed: 5, Draws: 40000, Choices: []Choice{{Name: "winglet", Levels: []string{"mid"}}}, Limits: []Limit{
		{Name: "aft margin", Quantity: evidence.StaticMargin, AtLeast: at(5)}, {Name: "nose-up room", Quantity: evidence.StaticMargin, AtMost: at(30)},
		{Name: "room", Quantity: evidence.ElevatorRoom, AtLeast: at(0.05)}, {Name: "rotation", Quantity: evidence.RotationSpeed, AtMost: at(22)},
		{Name: "nose share", Quantity: evidence.NoseGearShare, AtMost: at(18)}}}
	p.Predictions = []Prediction{{Levels: map[string]string{"winglet": "mid"}, NoseUpStop: 0.40, Values: map[string]float64{
		evidence.RotationMoment: 0.6, evidence.NeutralPoint: 4.02, evidence.ElevatorTrimRate: -1.0, evidence.ZeroLiftElevator: 0.05}}}
	for quantity := range p.Predictions[0].Values {
		p.Errors = append(p.Errors, TheoryError{Quantity: quantity, Relative: quantity != evidence.ZeroLiftElevator, Bias: 0.02})
	}
	p.Aircraft = Aircraft{MeanChord: 1.68, WingArea: 13, ApproachSpeed: 38, EmptyMass: Figure{Value: 667}, EmptyX: Figure{Value: 3.8}, EmptyZ: Figure{Value: 0.15},
		Loadings: []Loading{{Name: "light", Flies: true}}, Gear: &Gear{NoseX: 0.95, MainX: 4.36, Track: 2.3, GroundZ: -0.85}}
	return p
}

// The other road: an aircraft whose CG stands just there, known exactly, keeps the limit with 95 %, and on which side it breaks tells Aft.
func TestAtItsStationALimitHoldsWithNinetyFivePercent(t *testing.T) {
	p := trimmingProblem()
	list, err := cgLimitsOf(p, []float64{667})
	require.NoError(t, err)
	require.Len(t, list, 5)
	aft := map[string]bool{"aft margin": true, "nose-up room": false, "room": false, "rotation": false, "nose share": false}
	for _, x := range list {
		require.Equal(t, aft[x.Limit], x.Aft, x.Limit)
		outward := 0.02
		if !x.Aft {
			outward = -0.02
		}
		for by, ask := range map[float64]func(float64){
			0: func(p float64) {
				require.True(t, math.Abs(p-0.95) < 2e-3 || x.Quantity == evidence.NoseGearShare, "%s: %g", x.Limit, p)
			},
			outward:  func(p float64) { require.Less(t, p, 0.95, x.Limit) },
			-outward: func(p float64) { require.Greater(t, p, 0.95, x.Limit) },
		} {
			p.Aircraft.EmptyX.Value = x.CG[0] + by
			ask(limitOf(t, mustJudge(t, p), x.Configuration, x.Limit).Probability)
		}
	}
}

// Without errors the stations are those worked by hand: 4.02 − 0.05·1.68 = 3.936 m; 4.02 − 0.30·1.68 = 3.516 m; CL 0.56889 of the test above,
// 4.02 − (0.40 − 0.05 − 0.05)/0.56889 = 3.49266 m; 4.36 − ½·1.225·22²·13·1.68·0.6/(667·9.80665) = 3.76612 m; 4.36 − 0.18·3.41 = 3.7462 m. Heavier by a
// tenth: CL 0.62578, 3.54060 m; arm 0.53989 m.
func TestStationsOfLimitsByHand(t *testing.T) {
	p := trimmingProblem()
	p.Draws = 2
	for i := range p.Errors {
		p.Errors[i].Bias = 0
	}
	list, err := cgLimitsOf(p, []float64{667, 733.7})
	require.NoError(t, err)
	for i, want := range [][2]float64{{3.936, 3.936}, {3.516, 3.516}, {3.49266, 3.54060}, {3.76612, 3.82011}, {3.7462, 3.7462}} {
		near(t, list[i].CG[0], want[0], 2e-5, "by hand")
		near(t, list[i].CG[1], want[1], 2e-5, "by hand, heavier")
	}
}

// Some configurations judged alone give the numbers of the board, to the last bit; FlightsNeed is the board's own.
func TestLimitsOfSomeConfigurationsAreTheBoards(t *testing.T) {
	p := testProblem()
	p.Draws = 2000
	p.TrimSlopes = []TrimSlopes{slopesAt(levelsOf("winglet=mid foreplane=long"), 4.18, testRate, 0.01, []float64{3.7, 3.9}, "F1", "F2")}
	v := mustJudge(t, p)
	asked := []map[string]string{levelsOf("winglet=tall foreplane=short"), levelsOf("winglet=mid foreplane=long")}
	got, err := LimitVerdicts(p, asked)
	require.NoError(t, err)
	for i, levels := range asked {
		for k, want := range v.Configurations {
			if evidence.Name(want.Levels) != evidence.Name(levels) {
				continue
			}
			require.Len(t, got[i], len(v.Configurations[k].Limits))
			for l, limit := range v.Configurations[k].Limits {
				limit.FlightsNeed = false
				require.Equal(t, limit, got[i][l])
			}
		}
	}
	_, err = LimitVerdicts(p, []map[string]string{{"winglet": "huge"}})
	require.Error(t, err)
}
