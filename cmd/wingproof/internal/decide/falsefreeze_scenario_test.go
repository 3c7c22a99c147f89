package decide

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// scenarios are those of the study, in the order in which they were first run.
func scenarios() []string { return []string{"every_limit_close", "sound_baseline"} }

// scenario is what the study of false freezes draws, flies and counts, as fixed in testdata/false_freeze.
type scenario struct {
	Seeds     []uint64 `json:"seeds"`
	Programs  int      `json:"programs_per_seed"`
	Draws     int      `json:"draws"`
	Arms      []arm    `json:"arms"`
	Claims    claims   `json:"claims"`
	Choices   []Choice `json:"choices"`
	Predicted map[string]map[string]float64
	Errors    []TheoryError
	Aircraft  Aircraft
	Motion    struct {
		Speed   float64 `json:"true_airspeed"`
		Density float64
		Span    float64
	}
	Limits []Limit
	Built  struct {
		Part, Surface string
		SD            float64
		RootMoment    float64 `json:"root_moment"`
		Semispan      float64
	}
	Parts   []Part
	Flights flightPlan
	Scales  struct {
		After   int     `json:"after_flight"`
		SDTimes float64 `json:"sd_times"`
	}
}

type arm struct {
	Name  string  `json:"name"`
	Times float64 `json:"model_errors_times"`
}

type claims struct {
	Arm          string  `json:"arm"`
	FalseFreezes float64 `json:"false_freezes_at_most"`
	FalseOuts    float64 `json:"false_outs_at_most"`
	Hours        float64 `json:"hours_cleared_at_least"`
	Near         float64 `json:"margins_within_one_sd_at_least"`
}

type flightPlan struct {
	Order []struct {
		Winglet, Foreplane string
		CG                 float64
	}
	TrimSlope struct {
		measured
		SharedCG float64 `json:"shared_cg_m"`
	} `json:"trim_slope"`
	Direct      []measured
	DegreesFrom int `json:"degrees_from"`
}

// measured is what one flight tells of one number.
type measured struct {
	Quantity string
	SD       float64
	Real     float64            `json:"real_over_stated"`
	Shared   map[string]float64 `json:"shared_relative"`
}

func readScenario(t *testing.T, name string) scenario {
	t.Helper()
	text, err := os.ReadFile("testdata/false_freeze/" + name + ".json")
	require.NoError(t, err)
	var s scenario
	require.NoError(t, json.Unmarshal(text, &s))
	return s
}

// problem is the program before any flight.
func (s scenario) problem() Problem {
	p := Problem{Draws: s.Draws, LengthRatio: 0.25, Choices: s.Choices, Errors: s.Errors, Aircraft: s.Aircraft, Limits: s.Limits, Motions: s.dutchRoll}
	for _, levels := range product(s.Choices) {
		values := map[string]float64{}
		factor := 0.0
		for quantity, v := range s.Predicted[evidence.Name(levels)] {
			if quantity == "bending_factor" {
				factor = v
				continue
			}
			values[quantity] = v
		}
		root := s.Built.RootMoment * factor
		p.Predictions = append(p.Predictions, Prediction{Levels: levels, Values: values,
			Bending: map[string][]BendingStation{s.Built.Surface: {{0, root}, {s.Built.Semispan / 2, root / 4}, {s.Built.Semispan, 0}}}})
	}
	m := s.Built.RootMoment
	p.Built = []Built{{Part: s.Built.Part, Surface: s.Built.Surface, SD: s.Built.SD,
		Allowable: []BendingStation{{0, m}, {s.Built.Semispan / 2, 0.3 * m}, {s.Built.Semispan, 0.05 * m}}}}
	for _, part := range s.Parts {
		part.ShapedByStated, part.MustPassStated = true, true
		p.Parts = append(p.Parts, part)
	}
	return p
}

// dutchRoll is frequency and damping by the textbook approximation with two degrees of freedom (Etkin, from memory):
// ω² = q·S·b·Cn_β/Iz, 2ζω = −q·S·b²·Cn_r/(2·V·Iz) − q·S·CY_β/(m·V).
func (s scenario) dutchRoll(_ map[string]string, beliefs map[string]float64, in Flown) (map[string]float64, error) {
	m, area := s.Motion, s.Aircraft.WingArea
	force := m.Density * m.Speed * m.Speed / 2 * area
	omega := math.Sqrt(math.Max(1e-3, force*m.Span*beliefs[evidence.DirectionalStiffness]/in.Iz))
	twice := -force*m.Span*m.Span*beliefs[evidence.YawDamping]/(2*m.Speed*in.Iz) - force*beliefs[evidence.SideForceSlope]/(in.Mass*m.Speed)
	return map[string]float64{evidence.DutchRollFrequency: omega, evidence.DutchRollDamping: twice / (2 * omega)}, nil
}
