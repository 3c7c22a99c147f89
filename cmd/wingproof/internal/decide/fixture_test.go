package decide

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// An invented foreplane aircraft with three winglets and three foreplanes. All numbers are made up for
// the tests.
const (
	testChord   = 1.2
	testLeading = 3.6
	testRate    = -0.35 // rad per unit lift coefficient per metre
)

func at(v float64) *float64 { return &v }

func testChoices() []Choice {
	return []Choice{
		{Name: "winglet", Baseline: "mid", Levels: []string{"small", "mid", "tall"}},
		{Name: "foreplane", Baseline: "long", Levels: []string{"short", "long"}},
	}
}

// testPredictions makes neutral point, yaw stiffness and bending depend on the levels.
func testPredictions(choices []Choice) []Prediction {
	neutral := map[string]float64{"short": 0.05, "long": -0.04, "small": -0.005, "tall": 0.01}
	yaw := map[string]float64{"small": -0.030, "tall": 0.030}
	load := map[string]float64{"small": 0.93, "tall": 1.35}
	var list []Prediction
	for _, levels := range product(choices) {
		np, cn, factor := 4.20, 0.075, 1.0
		for _, level := range levels {
			np += neutral[level]
			cn += yaw[level]
			if f, ok := load[level]; ok {
				factor *= f
			}
		}
		list = append(list, Prediction{Levels: levels,
			Values: map[string]float64{
				evidence.NeutralPoint: np, evidence.ElevatorTrimRate: testRate, evidence.DirectionalStiffness: cn,
				evidence.LiftCurveSlope: 5.1, evidence.ZeroLiftDrag: 0.021,
			},
			Bending: map[string][]BendingStation{"wing": {{0, 30000 * factor}, {2, 12000 * factor}, {4, 0}}},
		})
	}
	return list
}

func testAircraft() Aircraft {
	return Aircraft{
		MeanChord: testChord, MeanChordLeadingEdge: testLeading,
		EmptyMass: Figure{Value: 600, SD: 6, Status: "estimated"},
		EmptyX:    Figure{Value: 4.28, SD: 0.010, Status: "estimated"},
		EmptyZ:    Figure{Value: 0.10, SD: 0.02, Status: "estimated"},
		Loadings: []Loading{
			{Name: "nobody aboard"},
			{Name: "one aboard, fuel low", Flies: true, Items: []Item{{"pilot", 80, 2.2, 0.2}, {"fuel", 15, 3.9, 0}}},
			{Name: "one aboard, full fuel", Flies: true, Items: []Item{{"pilot", 80, 2.2, 0.2}, {"fuel", 140, 3.9, 0}}},
		},
		Gear: &Gear{NoseX: 0.9, MainX: 4.62, Track: 2.3, GroundZ: -0.9},
	}
}

// testProblem has every kind of limit and of part.
func testProblem() Problem {
	choices := testChoices()
	return Problem{
		Seed: 1, LengthRatio: 0.25, Date: "2026-03-14", Choices: choices, Predictions: testPredictions(choices),
		Errors: DefaultErrors(testChord, choices), Aircraft: testAircraft(),
		Limits: []Limit{
			{Name: "aft margin", Quantity: evidence.StaticMargin, AtLeast: at(5), Evidence: "flight", Source: "common practice, no source"},
			{Name: "nose-up room", Quantity: evidence.StaticMargin, AtMost: at(40), Evidence: "flight"},
			{Name: "directional", Quantity: evidence.DirectionalStiffness, AtLeast: at(0.055), Evidence: "flight"},
			{Name: "lift slope", Quantity: evidence.LiftCurveSlope, AtLeast: at(4.2), Evidence: "analysis"},
			{Name: "drag", Quantity: evidence.ZeroLiftDrag, AtMost: at(0.040), Evidence: "analysis"},
			{Name: "tip-back", Quantity: evidence.TipBackAngle, AtLeast: at(15 * math.Pi / 180), Evidence: "analysis"},
			{Name: "nose share", Quantity: evidence.NoseGearShare, AtMost: at(24), AtLeast: at(5), Evidence: "analysis"},
			{Name: "overturn", Quantity: evidence.OverturnAngle, AtMost: at(63 * math.Pi / 180), Evidence: "analysis"},
			{Name: "fuel travel", Quantity: evidence.FuelTravel, AtMost: at(10), Evidence: "analysis"},
		},
		Built: []Built{{Part: "main-spar", Surface: "wing", SD: 0.03, Allowable: []BendingStation{{0, 36000}, {2, 15000}, {4, 1000}}}},
		Parts: []Part{
			{Name: "main spar", Stage: stageLaidUp, ShapedByStated: true, MustPassStated: true},
			{Name: "strake tank skin", Stage: stageDrawn, ShapedByStated: true, MustPass: []string{"aft margin", "fuel travel"}, MustPassStated: true},
			{Name: "gear well former", Stage: stageMould, ShapedByStated: true, MustPass: []string{"tip-back", "nose share", "overturn"}, MustPassStated: true},
			{Name: "winglet", Stage: stageDrawn, ShapedBy: []string{"winglet"}, ShapedByStated: true, MustPass: []string{"directional"}, MustPassStated: true},
			{Name: "foreplane skin", Stage: stagePlug, BuiltTo: map[string]string{"foreplane": "long"}, ShapedBy: []string{"foreplane"}, ShapedByStated: true, MustPass: []string{"aft margin"}, MustPassStated: true},
			{Name: "firewall", Stage: stageFitted, ShapedByStated: true, MustPassStated: true},
			{Name: "cable duct", Stage: stageDrawn, MustPassStated: true},
		},
	}
}

// slopesAt are trim slopes as theory would have them for a neutral point, without scatter, with a stated
// standard deviation in rad per unit lift coefficient.
func slopesAt(levels map[string]string, neutral, rate, sd float64, cgs []float64, flights ...string) TrimSlopes {
	s := TrimSlopes{Levels: levels, CG: cgs, Degrees: math.Inf(1), Flights: flights, Power: "idle"}
	for i, cg := range cgs {
		s.Slope = append(s.Slope, rate*(cg-neutral))
		row := make([]float64, len(cgs))
		row[i] = sd * sd
		s.Covariance = append(s.Covariance, row)
	}
	return s
}

// levelsOf reads "winglet=mid foreplane=long".
func levelsOf(text string) map[string]string {
	levels := map[string]string{}
	for _, word := range strings.Fields(text) {
		choice, level, _ := strings.Cut(word, "=")
		levels[choice] = level
	}
	return levels
}

func mustJudge(t testing.TB, p Problem) Verdict {
	t.Helper()
	v, err := Judge(p)
	require.NoError(t, err)
	return v
}

func rowOf(t testing.TB, v Verdict, part string) Row {
	t.Helper()
	for _, row := range v.Board {
		if row.Part == part {
			return row
		}
	}
	require.Failf(t, "no row", "part %q", part)
	return Row{}
}

func levelOf(t testing.TB, v Verdict, choice, level string) LevelVerdict {
	t.Helper()
	for _, l := range v.Levels {
		if l.Choice == choice && l.Level == level {
			return l
		}
	}
	require.Failf(t, "no level", "%s=%s", choice, level)
	return LevelVerdict{}
}

func limitOf(t testing.TB, v Verdict, configuration, limit string) LimitVerdict {
	t.Helper()
	for _, c := range v.Configurations {
		for _, l := range c.Limits {
			if c.Configuration == configuration && l.Limit == limit {
				return l
			}
		}
	}
	require.Failf(t, "no limit", "%s of %s", limit, configuration)
	return LimitVerdict{}
}
