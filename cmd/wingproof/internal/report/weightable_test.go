package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/similitude"
	"wingproof/aero/weighing"
)

func weighingPart(kind weighing.Kind, of string, input, sd float64) weighing.Part {
	return weighing.Part{Source: weighing.Source{Kind: kind, Of: of}, InputSD: input, SD: sd}
}

func sampleWeigh() Weigh {
	return Weigh{
		Ratio: 0.25, Reference: aero.Reference{MeanChord: 1.6, MeanChordLeadingEdge: 3.6},
		Targets: []similitude.Row{{Quantity: "Ix", Target: 1.25}},
		Places:  []similitude.PlaceRow{{Quantity: "cg_x", Target: 0.95}},
		Missing: []string{"Iz: swing the model in yaw"}, Warnings: []string{"something rubs"}, Assumed: []string{"time_sd_s 0.15"},
		Result: weighing.Result{
			Numbers: []weighing.Number{
				{Quantity: weighing.Mass, Value: 16, SD: 0.005, Parts: []weighing.Part{weighingPart(weighing.Load, "level, nose", 0.004, 0.004), weighingPart(weighing.Load, "level, left", 0.003, 0.003)}},
				{Quantity: weighing.CGX, Value: 0.94, SD: 0.001, Parts: []weighing.Part{weighingPart(weighing.StationX, "nose", 0.002, 0.001)}},
				{Quantity: weighing.Ix, Value: 1, SD: 0.05, Air: 0.1, Parts: []weighing.Part{weighingPart(weighing.AirEstimate, "", 0.3, 0.04), weighingPart(weighing.PivotZ, "roll", 0.001, 0.03)}},
				{Quantity: weighing.Iy, Value: 1.44, SD: 0.02, Parts: []weighing.Part{weighingPart(weighing.PivotDistance, "pitch", 0.001, 0.02)}},
			},
			Swings: []weighing.Swung{{Name: "roll", Arm: 0.4, Period: 1.5, Number: weighing.Number{Value: 1, SD: 0.05, Air: 0.1, Parts: []weighing.Part{weighingPart(weighing.AirEstimate, "", 0.3, 0.03)}}}},
		},
	}
}

func TestWeighTable(t *testing.T) {
	var b strings.Builder
	require.NoError(t, sampleWeigh().Write(&b, 100))
	text := b.String()
	for line := range strings.SplitSeq(text, "\n") {
		require.LessOrEqual(t, len([]rune(line)), 100, line)
	}
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"mass 16.0000 ± 0.0098 kg",
		"CG aft of datum 940.0 ± 2.0 mm 3.760 m, 10.0 % of chord 950.0 mm, −10.0 ± 2.0 mm", // 940/0.25 = 3760; (3.76 − 3.60)/1.60
		"1.000 ± 0.098 kg·m² 1.250 kg·m², −20.0 ± 7.8 %",                                   // 1/1.25; 1.96·0.05/1.25
		"reading_g, level, nose (64 %)",                                                    // 0.004²/0.005²
		"x_mm, nose (100 %) x_mm, nose to 1.0 mm (now 2.0)",
		"no reading: the air's share is an",
		"0.100 ± 0.059 kg·m² (9.1 %)", // of 1.1 that swung
		"roll 1.500 s 400 mm",
		"missing: Iz: swing the model in yaw", "LOOK AGAIN: something rubs", "so taken (one standard deviation; common practice, no source): time_sd_s 0.15", "CAUTION: Battery",
	} {
		require.Contains(t, flat, want)
	}
	require.Contains(t, sampleWeigh().halving(sampleWeigh().Result.Numbers[3]), "pivot_mm, pitch to 0.50 mm (now 1.0), or put the axis about 300 mm from the CG") // √(1.44/16)
}

func TestAnEmptyWeighTableSaysSo(t *testing.T) {
	var b strings.Builder
	require.NoError(t, Weigh{Ratio: 0.25, Missing: []string{"the mass"}}.Write(&b, 80))
	require.Contains(t, b.String(), "nothing follows from this sheet yet")
	require.Contains(t, b.String(), "missing: the mass")
}
