package decide

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// marginContrasts are the contrasts of one limit on the static margin of the test aircraft, which is least with low fuel and greatest with full.
func marginContrasts(t *testing.T, least, most *float64) []Contrast {
	t.Helper()
	p := testProblem()
	p.Draws, p.Built, p.Parts = 4000, nil, nil
	p.Limits = []Limit{{Name: "margin", Quantity: evidence.StaticMargin, AtLeast: least, AtMost: most, Evidence: "analysis"}}
	list, err := contrastsOf(p, "winglet", map[string]string{"foreplane": "long"})
	require.NoError(t, err)
	var out []Contrast
	for _, x := range list {
		if x.Limit == "margin" {
			out = append(out, x)
		}
	}
	require.Len(t, out, 3)
	return out
}

// A limit with two bounds is set against the baseline on the side that binds the baseline: as a limit with that bound alone would be.
func TestContrastsTakeTheSideThatBinds(t *testing.T) {
	least, most := marginContrasts(t, at(0), nil), marginContrasts(t, nil, at(0))
	low, high := least[1].Value, most[1].Value // mid is the baseline
	require.Greater(t, high.Median, low.Median+1, "the loadings must differ for the sides to")
	for name, c := range map[string]struct {
		least, most float64
		binds       string
		like        []Contrast
	}{
		"most draws break the upper":       {low.Median - 5, high.Median - 1, BindsAtMost, most},
		"most draws break the lower":       {low.Median + 1, high.Median + 5, BindsAtLeast, least},
		"none breaks either, less above":   {low.Median - 400, high.Median + 200, BindsAtMost, most},
		"none breaks either, less below":   {low.Median - 200, high.Median + 400, BindsAtLeast, least},
		"both break, the upper more often": {low.Median - 1, high.Median - 2, BindsAtMost, most},
	} {
		for i, x := range marginContrasts(t, at(c.least), at(c.most)) {
			require.Equal(t, c.binds, x.Binding, name)
			require.Equal(t, map[string]float64{BindsAtLeast: c.least, BindsAtMost: c.most}[c.binds], *x.Bound, name)
			require.Equal(t, c.like[i].Value, x.Value, "%s, %s", name, x.Level)
			require.Equal(t, c.like[i].Difference, x.Difference, "%s, %s", name, x.Level)
		}
	}
}

// The board states the same side and the same numbers.
func TestContrastsBindAsTheBoardDoes(t *testing.T) {
	p := testProblem()
	p.Draws = 2000
	list, err := contrastsOf(p, "winglet", map[string]string{"foreplane": "long"})
	require.NoError(t, err)
	v := mustJudge(t, p)
	for _, x := range list {
		if x.Limit == "" {
			require.Empty(t, x.Binding)
			require.Nil(t, x.Bound)
			continue
		}
		l := limitOf(t, v, x.Against, x.Limit)
		require.Equal(t, l.Binding, x.Binding)
		if x.Difference == nil {
			require.Equal(t, l.Range(), x.Value)
		}
	}
}

// A spiral that grows at 0.05 per second doubles in ln 2/0.05 = 13.86 s; one that dies away in no time. What is endless has no difference to a
// number, nor to another endless one, and nothing of 1000 is left.
func TestContrastsWithTheEndlessAreNoNumbers(t *testing.T) {
	_, p := motionProblem(t)
	choice := p.Choices[0]
	require.GreaterOrEqual(t, len(choice.Levels), 2)
	p.Limits = []Limit{{Name: "spiral", Quantity: evidence.SpiralTimeToDouble, AtLeast: at(12), Evidence: "analysis"}}
	p.Errors = append(p.Errors, TheoryError{Quantity: evidence.DihedralEffect, Bias: 0.001})
	for _, prediction := range p.Predictions {
		prediction.Values[evidence.DihedralEffect] = -0.1
	}
	others := map[string]string{}
	for _, c := range p.Choices[1:] {
		others[c.Name] = c.Levels[0]
	}
	contrasts := func(baseRate, otherRate float64) (base, other Contrast) {
		choice.Baseline, p.Choices[0].Baseline = choice.Levels[0], choice.Levels[0]
		p.Motions = func(levels map[string]string, _ map[string]float64, _ Flown) (map[string]float64, error) {
			if levels[choice.Name] == choice.Baseline {
				return map[string]float64{evidence.SpiralRate: baseRate}, nil
			}
			return map[string]float64{evidence.SpiralRate: otherRate}, nil
		}
		list, err := contrastsOf(p, choice.Name, others)
		require.NoError(t, err)
		for _, x := range list {
			switch {
			case x.Limit != "spiral":
			case x.Difference == nil:
				base = x
			default:
				other = x
			}
		}
		text, err := json.Marshal(list)
		require.NoError(t, err)
		require.NotRegexp(t, `[: -](1000|9[89]\d(\.\d+)?)[,}]`, string(text))
		return base, other
	}
	base, other := contrasts(-0.05, 0.05)
	require.True(t, base.Value.AlwaysEndless())
	near(t, other.Value.Median, math.Ln2/0.05, 1e-9, "ln 2 / rate")
	require.Equal(t, "no longer endless", other.EndlessDifference())
	require.True(t, math.IsInf(other.Difference.Median, -1) && math.IsInf(other.Difference.High, -1))
	base, other = contrasts(0.05, -0.05)
	near(t, base.Value.Median, math.Ln2/0.05, 1e-9, "ln 2 / rate")
	require.Equal(t, "becomes endless", other.EndlessDifference())
	_, other = contrasts(-0.05, -0.04)
	require.Equal(t, "endless as well", other.EndlessDifference())
	require.True(t, math.IsNaN(other.Difference.Median))
	_, other = contrasts(0.05, 0.07)
	require.Empty(t, other.EndlessDifference())
	near(t, other.Difference.Median, math.Ln2/0.07-math.Ln2/0.05, 1e-9, "ln 2 over one rate less the other")
}

// Draws of which some have no number: the median of 10, 20, 30, none, none is 30, and at 97.5 % there is none; below the middle all is as ever.
func TestRangesOfDrawsWithoutANumber(t *testing.T) {
	r := rangeOf(unending([]float64{30, endless, 10, endless, 20}, "s"))
	require.Equal(t, 30.0, r.Median)
	near(t, r.Low, 11, 1e-9, "a tenth of the way from 10 to 20")
	require.True(t, math.IsInf(r.High, 1) && math.IsInf(r.Width(), 1))
	require.Equal(t, Range{Median: 1200, Low: 1200, High: 1200}, rangeOf(unending([]float64{1200}, "N")))
	require.True(t, rangeOf(unending([]float64{30, endless}, "m/s")).Endless())
	none := math.Inf(1)
	here, there := []float64{30, 12, none, none}, []float64{20, 10, none, 5} // 10, 2, 0, none
	d := differenceOf(here, there, rangeOf(here), rangeOf(there))
	near(t, d.Low, 0.15, 1e-9, "0.075 of the way from 0 to 2")
	require.True(t, math.IsInf(d.High, 1))
}

// (12 − 8)/(12 − 9) from below, (15 − 12)/(16 − 12) from above; what is endless lies infinitely far.
func TestRoomToABound(t *testing.T) {
	r := Range{Median: 12, Low: 9, High: 16}
	near(t, r.Room(8, BindsAtLeast), 4.0/3, 1e-12, "half widths below the middle")
	near(t, r.Room(15, BindsAtMost), 0.75, 1e-12, "half widths above it")
	r = Range{Median: math.Inf(1), Low: 9, High: math.Inf(1)}
	require.True(t, math.IsInf(r.Room(8, BindsAtLeast), 1) && math.IsInf(r.Room(8, BindsAtMost), -1))
}
