package study

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// byHand reads testdata/hand/fullsize.txt: name = value, then the unit and how it was found.
func byHand(t *testing.T) map[string]float64 {
	t.Helper()
	file, err := os.Open("../../../../testdata/hand/fullsize.txt")
	require.NoError(t, err)
	defer file.Close()
	out := map[string]float64{}
	for lines := bufio.NewScanner(file); lines.Scan(); {
		name, rest, found := strings.Cut(lines.Text(), " = ")
		if !found || strings.HasPrefix(name, "#") {
			continue
		}
		value, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
		require.NoError(t, err, name)
		require.NotContains(t, out, name)
		out[name] = value
	}
	return out
}

// The judged speeds and the room without any error in what they rest on are those worked by hand.
func TestSlowLimitsByHand(t *testing.T) {
	h := byHand(t)
	f := FullSize{Beliefs: []Belief{
		{Quantity: evidence.MaxLift, Value: h["model_lift"], Step: h["step"], HasStep: true},
		{Quantity: evidence.RotationMoment, Value: h["rotation_moment"]},
	}}
	prediction := decide.Prediction{Levels: map[string]string{}, NoseUpStop: h["nose_up_stop"], Values: map[string]float64{
		evidence.NeutralPoint: h["neutral_point"], evidence.ElevatorTrimRate: h["trim_rate"], evidence.ZeroLiftElevator: h["zero_lift_elevator"]}}
	f.believe(&prediction)
	problem := decide.Problem{Seed: 1, Draws: 1000, Predictions: []decide.Prediction{prediction}, Aircraft: decide.Aircraft{
		MeanChord: h["chord"], WingArea: h["area"], ApproachSpeed: h["approach"], EmptyMass: decide.Figure{Value: 600}, EmptyX: decide.Figure{Value: 3.9},
		Gear:     &decide.Gear{NoseX: 1, MainX: h["main_wheels"], Track: 2, GroundZ: -1},
		Loadings: []decide.Loading{{Name: "foremost", Flies: true, Items: []decide.Item{{Mass: 200, X: 2.7}}}},
	}}
	for _, q := range []string{evidence.MaxLift, evidence.RotationMoment, evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.ZeroLiftElevator} {
		problem.Errors = append(problem.Errors, decide.TheoryError{Quantity: q})
	}
	bound := 0.1
	for _, q := range []string{evidence.StallingSpeed, evidence.RotationSpeed, evidence.ElevatorRoom} {
		problem.Limits = append(problem.Limits, decide.Limit{Name: q, Quantity: q, AtLeast: &bound, Evidence: "analysis"})
	}
	verdict, err := decide.Judge(problem)
	require.NoError(t, err)
	require.Len(t, verdict.Configurations[0].Limits, 3)
	for _, l := range verdict.Configurations[0].Limits {
		require.InEpsilon(t, h[l.Quantity], l.Median, 5e-6, l.Quantity)
		require.Equal(t, "foremost", l.Where)
	}
	require.InEpsilon(t, h["stalling_speed_kt"], h["stalling_speed"]/h["knot"], 5e-6)
	require.InEpsilon(t, h["rotation_speed_kt"], h["rotation_speed"]/h["knot"], 5e-6)
	require.InEpsilon(t, h["elevator_room_deg"], h["elevator_room"]*180/math.Pi, 5e-6)

	shift, ok := alongCG([]LiftAt{{h["cg"], h["forward_lift"]}, {3.8, h["aft_lift"]}}, h["flown_cg"])
	require.True(t, ok)
	require.InDelta(t, h["shift"], shift, 1e-12)
	_, ok = alongCG([]LiftAt{{3.6, 0.56}, {3.8, 0.66}}, 3.91)
	require.False(t, ok, "more than half the distance beyond")
	_, ok = alongCG([]LiftAt{{3.6, 0.56}, {3.61, 0.56}}, 3.6)
	require.False(t, ok, "one place of the CG tells no difference")
}
