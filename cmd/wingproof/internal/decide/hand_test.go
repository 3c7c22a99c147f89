package decide

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// byHand reads the figures of a hand-worked example: "name = figure  # how".
func byHand(t *testing.T, file string) map[string]float64 {
	t.Helper()
	text, err := os.ReadFile("../../../../testdata/hand/" + file)
	require.NoError(t, err)
	figures := map[string]float64{}
	for _, line := range strings.Split(string(text), "\n") {
		line, _, _ = strings.Cut(line, "#")
		name, value, ok := strings.Cut(line, "=")
		if !ok {
			continue
		}
		figures[strings.TrimSpace(name)], err = strconv.ParseFloat(strings.TrimSpace(value), 64)
		require.NoError(t, err, line)
	}
	return figures
}

func TestJudgingByHand(t *testing.T) {
	h := byHand(t, "judging.txt")
	t.Run("anchoring", func(t *testing.T) { anchoringByHand(t, h) })
	t.Run("loadings and wheels", func(t *testing.T) { weightsByHand(t, h) })
	t.Run("spar", func(t *testing.T) {
		moment := []BendingStation{{0, h["spar_root_bending"]}, {2, h["spar_mid_bending"]}, {4, 0}}
		allowable := []BendingStation{{0, h["spar_root_allowable"]}, {2, h["spar_mid_allowable"]}, {4, 1000}}
		ratio, at, err := worstRatio(moment, allowable)
		require.NoError(t, err)
		near(t, ratio, h["spar_ratio_mid"], 5e-8, "spar by hand")
		require.Equal(t, 2.0, at)
		near(t, interpolate(moment, 3)/interpolate(allowable, 3), h["spar_ratio_outer"], 5e-8, "spar by hand")
	})
}

// anchoringByHand updates a neutral point. Its slope is flown at a known trim rate, so that it measures the neutral point itself.
func anchoringByHand(t *testing.T, h map[string]float64) {
	long, short := map[string]string{"foreplane": "long"}, map[string]string{"foreplane": "short"}
	values := func(np float64) map[string]float64 {
		return map[string]float64{evidence.NeutralPoint: np, evidence.ElevatorTrimRate: -1}
	}
	p := Problem{Choices: []Choice{{Name: "foreplane", Levels: []string{"long", "short"}}},
		Predictions: []Prediction{{Levels: long, Values: values(h["lattice_long"])}, {Levels: short, Values: values(h["lattice_short"])}},
		Errors: []TheoryError{{Quantity: evidence.ElevatorTrimRate}, {Quantity: evidence.NeutralPoint, Bias: h["bias_sd"],
			Level: map[string]float64{"foreplane": h["level_sd"]}, FullSize: map[string]float64{"reynolds": h["reynolds_sd"], "power": h["power_sd"]}}}}
	s, err := newSpace(p)
	require.NoError(t, err)
	th, err := newTheory(s, p.Errors, nil)
	require.NoError(t, err)
	sd := h["measured_own_sd"]
	b := anchored(t, th, []TrimSlopes{{Levels: long, CG: []float64{3.8}, Slope: []float64{h["measured_long"] - 3.8}, Covariance: [][]float64{{sd * sd}},
		Common: map[string][]float64{"cg": {h["measured_shared_sd"]}}, Degrees: math.Inf(1), Power: "idle"}}, nil)
	q := th.quantity(evidence.NeutralPoint)
	near(t, b.mean[q][0], h["anchored_long"], 5e-8, "update by hand")
	near(t, b.sd(q, 0), h["anchored_long_sd"], 5e-8, "update by hand")
	near(t, b.mean[q][1], h["anchored_short"], 5e-8, "update by hand")
	near(t, b.sd(q, 1), h["anchored_short_sd"], 5e-8, "update by hand")
	near(t, b.fullSD(q, 0), h["full_long_sd"], 5e-8, "full size by hand")
}

func weightsByHand(t *testing.T, h map[string]float64) {
	e := empty{h["empty_mass"], h["empty_x"], h["empty_z"]}
	pilot := Item{"pilot", h["pilot_mass"], h["pilot_x"], h["pilot_z"]}
	fuel := func(mass float64) Item { return Item{"fuel", mass, h["fuel_x"], h["fuel_z"]} }
	low := loaded(e, Loading{Items: []Item{pilot, fuel(h["low_fuel_mass"])}})
	full := loaded(e, Loading{Items: []Item{pilot, fuel(h["full_fuel_mass"])}})
	near(t, low.mass, h["low_mass"], 1e-9, "loading by hand")
	near(t, low.x, h["low_cg_x"], 5e-8, "loading by hand")
	near(t, full.mass, h["full_mass"], 1e-9, "loading by hand")
	near(t, full.x, h["full_cg_x"], 5e-8, "loading by hand")
	travel := series{least: []float64{low.x}, most: []float64{full.x}}.travel(h["mean_chord"])
	near(t, travel.most[0], h["fuel_travel_percent"], 5e-6, "travel by hand")
	a := Aircraft{MeanChord: h["mean_chord"], Gear: &Gear{NoseX: h["nose_x"], MainX: h["main_x"], Track: h["track"], GroundZ: h["ground_z"]}}
	margin := requirement{Limit: Limit{Quantity: evidence.StaticMargin}}.evaluator(a, 0, nil)
	out := make([]float64, 1)
	margin(0, &sample{beliefs: [][]float64{{h["anchored_long"]}}, loaded: loadedDraws{[]float64{full.mass}, []float64{full.x}, []float64{full.z}}}, out)
	near(t, out[0], h["aft_margin_percent"], 5e-4, "margin by hand")
	near(t, a.Gear.tipBack(e)*180/math.Pi, h["tip_back_deg"], 5e-5, "tip-back by hand")
	near(t, a.Gear.noseShare(e), h["nose_share_percent"], 5e-5, "nose share by hand")
	near(t, a.Gear.overturn(e)*180/math.Pi, h["overturn_deg"], 5e-3, "overturn by hand")
}
