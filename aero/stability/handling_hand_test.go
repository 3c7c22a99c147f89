package stability

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// Every line of the file was worked with a pocket calculator, to the six figures that stand there.
func TestHandWorkedMotions(t *testing.T) {
	text, err := os.ReadFile("../../testdata/hand/modes.txt")
	require.NoError(t, err)
	lines := 0
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		lines++
		fields := strings.Split(line, "|")
		require.Len(t, fields, 4, "line %d", i+1)
		got := worked(t, strings.Fields(fields[0]), numbersIn(t, fields[1]))
		for name, want := range numbersIn(t, fields[2]) {
			require.InDelta(t, want, got[name], 1e-5*math.Max(1, math.Abs(want)), "line %d: %s", i+1, line)
		}
	}
	require.Greater(t, lines, 40)
}

// numbersIn reads "name number name number".
func numbersIn(t *testing.T, text string) map[string]float64 {
	words := strings.Fields(text)
	out := map[string]float64{}
	for i := 0; i+1 < len(words); i += 2 {
		v, err := strconv.ParseFloat(words[i+1], 64)
		require.NoError(t, err)
		out[words[i]] = v
	}
	return out
}

// worked computes what a line asks for.
func worked(t *testing.T, kind []string, in map[string]float64) map[string]float64 {
	switch kind[0] {
	case "time_to_double":
		return map[string]float64{"time": timeToDouble(in["root"])}
	case "load_factor_per_alpha":
		d := aero.Derivatives{Reference: aero.Reference{Area: in["area"]}, ByAlpha: aero.Coefficients{Lift: in["slope"]}}
		return map[string]float64{"load": LoadFactorPerAlpha(d, Body{Mass: in["mass"]}, Condition{Density: in["density"], Speed: in["speed"]})}
	case "reals":
		p := ofReals(Decay{in["a"]}, Decay{in["b"]})
		return map[string]float64{"square": p.square, "damping": p.damping, "frequency": p.frequency()}
	case "control_anticipation":
		n := Modes{ShortPeriod: oscillation(in["real"], in["imag"])}.HandlingNumbers(in["load"])
		return map[string]float64{"anticipation": n.ControlAnticipation, "damping": n.ShortPeriodDamping}
	case "level":
		levels := numbersOf(kind[2], in).Levels(FlightPhase(kind[1]))
		require.Len(t, levels, 1)
		return map[string]float64{"level": float64(levels[0].Level)}
	}
	require.Fail(t, "unknown kind", kind[0])
	return nil
}

// numbersOf knows one motion only.
func numbersOf(motion string, in map[string]float64) HandlingNumbers {
	nan := math.NaN()
	n := HandlingNumbers{nan, nan, nan, nan, nan, nan, nan, nan, nan, nan, nan}
	switch motion {
	case "short_period":
		n.ShortPeriodDamping, n.ShortPeriodFrequency, n.LoadFactorPerAlpha = in["damping"], in["frequency"], in["load"]
		n.ControlAnticipation = in["frequency"] * in["frequency"] / in["load"]
	case "phugoid":
		n.PhugoidDamping, n.PhugoidTimeToDouble = in["damping"], in["double"]
	case "dutch_roll":
		n.DutchRollDamping, n.DutchRollFrequency = in["damping"], in["frequency"]
	case "roll":
		n.RollTimeConstant = in["constant"]
	case "spiral":
		n.SpiralTimeToDouble = in["double"]
	}
	return n
}
