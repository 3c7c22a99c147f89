package study

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/reduce"
)

// trimmed is a flight of idle points from fast to slow whose elevator follows lift with a slope [rad], and two level
// points that lie off that line, as power shifts trim.
func trimmed(slope float64) []reduce.TestPoint {
	var points []reduce.TestPoint
	for i, lift := range []float64{0.25, 0.4, 0.55, 0.75, 0.95} {
		points = append(points, reduce.TestPoint{Kept: true, Power: reduce.Idle, Lift: lift, Elevator: 0.02 + slope*lift + 0.003*float64(i%2)})
	}
	return append(points,
		reduce.TestPoint{Kept: true, Power: reduce.Level, Lift: 0.3, Elevator: 0.4},
		reduce.TestPoint{Kept: true, Power: reduce.Level, Lift: 0.6, Elevator: 0.1},
		reduce.TestPoint{Kept: false, Power: reduce.Idle, Lift: 0.5, Elevator: -2})
}

func TestElevatorAgainstTheLattice(t *testing.T) {
	const predicted = 0.3
	require.Empty(t, whyStrange(trimmed(0.3), predicted, 0.15, "box"))
	require.Empty(t, whyStrange(trimmed(0.15), predicted, 0.15, "box"), "half is within what theory and CG may err")
	require.Contains(t, whyStrange(trimmed(-0.3), predicted, 0.15, "box"), "the sign of the elevator column in [logger.box] is wrong")
	require.Contains(t, whyStrange(trimmed(-0.3), predicted, 0.15, "box"), "where theory asks for +17.2°")
	require.Contains(t, whyStrange(trimmed(3), predicted, 0.15, "box"), "look at column, unit and calibration of the elevator in [logger.box]")
	require.Contains(t, whyStrange(trimmed(0.03), predicted, 0.2, "box"), "look at column, unit and calibration")
	require.Empty(t, whyStrange(trimmed(0.06), predicted, 0.14, "box"), "the neutral point may lie 0.11 chords ahead of its prediction: just what flights are for")
	require.Contains(t, whyStrange(trimmed(0.3), -predicted, 0.15, "box"), "the sign", "an elevator behind the wing works the other way round")

	require.Contains(t, whyStrange(trimmed(0), predicted, 0.15, "box"), "look at column", "another column than the elevator's")
	require.Empty(t, whyStrange(trimmed(0), 0.02, 0.15, "box"), "so little travel may drown")

	require.Empty(t, whyStrange(trimmed(-0.05), predicted, 0.02, "box"), "near the neutral point the sign is open")
	require.Empty(t, whyStrange(trimmed(0.03), predicted, 0.07, "box"), "and so is the size")
	require.Empty(t, whyStrange(trimmed(-0.3)[:3], predicted, 0.15, "box"), "three points are no line")
	require.Empty(t, whyStrange(nil, predicted, 0.15, "box"))
	require.Empty(t, whyStrange(trimmed(-0.3), 0, 0.15, "box"), "an aircraft without an elevator")
	require.Empty(t, whyStrange(trimmed(-0.3), math.NaN(), 0.15, "box"))
}

func TestLiftThatNoModelFlies(t *testing.T) {
	points := trimmed(0.3)
	require.Empty(t, strangeLift(points))
	require.Empty(t, strangeLift(nil))
	for _, factor := range []float64{13, 0.01, -1} {
		wrong := slices.Clone(points)
		for i := range wrong {
			wrong[i].Lift *= factor
		}
		require.Contains(t, strangeLift(wrong), "look at the unit of the airspeed, at the mass and at length_ratio")
	}
}

func TestNamesInTheOrderOfPeople(t *testing.T) {
	names := []string{"F10", "F2", "flight 12b", "flight 12", "F1", "F02", "", "flight 3", "Flug", "2026-03-14", "2026-03-4"}
	slices.SortFunc(names, inOrder)
	require.Equal(t, []string{"", "2026-03-4", "2026-03-14", "F1", "F02", "F2", "F10", "Flug", "flight 3", "flight 12", "flight 12b"}, names)
}

// whyStrange drops whether it is the sign.
func whyStrange(points []reduce.TestPoint, predicted, margin float64, logger string) string {
	why, _ := strangeElevator(points, predicted, margin, logger)
	return why
}
