package study

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
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

// A turned slope far ahead of the neutral point shows that the logger's map is wrong for every flight that was read with it; one close to it
// says that its own flight may be unstable, and costs no other. A flight with another logger is not touched.
func TestATurnedElevatorCostsEveryFlightOfItsLogger(t *testing.T) {
	flown := func(sizes map[string]float64, margins map[string]float64) *Study {
		s := &Study{Configurations: []Configuration{{NeutralPoint: 1, ElevatorTrimRate: -2}}}
		s.Configurations[0].Airframe.Reference.MeanChord = 1
		for _, name := range []string{"F1", "F2", "F3"} {
			logger := "box"
			if name == "F3" {
				logger = "crate"
			}
			f := Flight{Flight: program.Flight{Name: name, Logger: logger, CG: 1 - margins[name]}, Used: true}
			f.Reduction.Points = trimmed(2 * margins[name] * sizes[name])
			s.Flights = append(s.Flights, f)
		}
		s.checkElevators()
		return s
	}
	used := func(s *Study) (out []bool) {
		for _, f := range s.Flights {
			out = append(out, f.Used)
		}
		return out
	}
	s := flown(map[string]float64{"F1": -1, "F2": -1, "F3": 1}, map[string]float64{"F1": 0.2, "F2": 0.04, "F3": 0.2})
	require.Equal(t, []bool{false, false, true}, used(s))
	require.Contains(t, s.Flights[1].Why, "flight F1 shows that the sign of the elevator column in [logger.box] is wrong")
	s = flown(map[string]float64{"F1": -1, "F2": 1, "F3": 1}, map[string]float64{"F1": 0.08, "F2": 0.2, "F3": 0.2})
	require.Equal(t, []bool{false, true, true}, used(s), "F1 alone may lie behind its neutral point")
}
