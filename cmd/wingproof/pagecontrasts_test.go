package main

import (
	"context"
	"encoding/json"
	"errors"
	"maps"
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// spiralContrasts set a spiral that takes 12 s with the tall winglet against one that does not grow with the mid one.
func spiralContrasts() (decide.LimitVerdict, []decide.Contrast) {
	end, bound, sure := math.Inf(1), 8.0, 0.98
	x := func(level string, value decide.Range, d *decide.Range) decide.Contrast {
		return decide.Contrast{Choice: "winglet", Level: level, Limit: "spiral", Quantity: evidence.SpiralTimeToDouble, Unit: "s", Binding: decide.BindsAtLeast, Bound: &bound,
			Value: value, Difference: d, Probability: &sure}
	}
	return decide.LimitVerdict{Limit: "spiral", Quantity: evidence.SpiralTimeToDouble, Unit: "s", AtLeast: &bound}, []decide.Contrast{
		x("small", decide.Range{Median: end, Low: end, High: end}, &decide.Range{Median: math.NaN(), Low: -end, High: end}),
		x("mid", decide.Range{Median: end, Low: 40, High: end}, nil),
		x("tall", decide.Range{Median: 12, Low: 9, High: 15}, &decide.Range{Median: -end, Low: -end, High: -28}),
	}
}

// Against a baseline that is endless nothing costs a share of the room, and no stand-in for endless reaches a figure, a table or JSON.
func TestEndlessBaselineHasNoShareOfRoom(t *testing.T) {
	as, contrasts := spiralContrasts()
	limit, changes := contrastLimit(as, contrasts)
	require.True(t, changes)
	require.Equal(t, "endless (above 40 s)", limit.Words)
	require.Equal(t, "endless", limit.Levels[0].Words)
	require.Equal(t, "12 (9 to 15) s", limit.Levels[1].Words)
	f, err := plots.Contrasts(plots.ContrastsData{Choice: "winglet", Baseline: "mid", Limits: []plots.ContrastLimit{limit}})
	require.NoError(t, err)
	require.Contains(t, f.Alt, "mid: endless (above 40 s), so there is no room to take shares of; limit: at least 8 s; 98.0 % sure")
	require.Contains(t, f.Alt, "tall: 12 (9 to 15) s; limit kept 98.0 % sure")
	require.NotContains(t, f.Alt, "costs")
	require.NotRegexp(t, `99\d|1000|Inf|NaN`, f.Alt)

	rows := contrastTable(contrasts).rows
	require.Equal(t, []string{"", "", "", "", "", ""}, rows[0][7:13])
	require.Equal(t, []string{"", "40", "", "", "", ""}, rows[1][7:13])
	require.Equal(t, []string{"12", "9", "15", "", "", "-28", "0.98", "at_least", "8"}, rows[2][7:])
	as.Median, as.Low, as.High = math.Inf(1), 40, math.Inf(1)
	limits := limitTable(decide.Verdict{Configurations: []decide.ConfigurationVerdict{{Limits: []decide.LimitVerdict{as}}}}).rows
	require.Equal(t, []string{"", "40", ""}, limits[0][10:13])
	facts, err := report.FactsJSON(contrasts[2])
	require.NoError(t, err)
	require.Contains(t, string(facts), `"difference":{"median":null,"low":null,"high":-28}`)
	printed, err := json.Marshal([]any{contrasts[2], as})
	require.NoError(t, err)
	require.Contains(t, string(printed), `"difference":{"median":null,"low":null,"high":-28}`)
	require.Contains(t, string(printed), `"median":null,"low":40,"high":null`)
}

// A spiral that grows with neither size makes no difference to draw.
func TestSizesThatAreBothEndlessAreTheSame(t *testing.T) {
	as, contrasts := spiralContrasts()
	contrasts[1].Value = contrasts[0].Value
	_, changes := contrastLimit(as, contrasts[:2])
	require.False(t, changes)
}

// A baseline with a number leaves room, which a size that is never reached takes no share of.
func TestASizeThatIsNeverReachedStandsInWords(t *testing.T) {
	end, bound := math.Inf(1), 40.0
	as := decide.LimitVerdict{Limit: "rotation", Quantity: evidence.RotationSpeed, Unit: "m/s", AtMost: &bound}
	x := decide.Contrast{Limit: "rotation", Quantity: evidence.RotationSpeed, Unit: "m/s", Binding: decide.BindsAtMost, Bound: &bound}
	mid, small := x, x
	mid.Level, mid.Value = "mid", decide.Range{Median: 30, Low: 28, High: 32}
	small.Level, small.Value, small.Difference = "small", decide.Range{Median: end, Low: 45, High: end}, &decide.Range{Median: end, Low: 14, High: end}
	limit, changes := contrastLimit(as, []decide.Contrast{mid, small})
	require.True(t, changes)
	require.Empty(t, limit.Words)
	require.InDelta(t, 58.315, limit.Baseline, 1e-3) // 30·3600/1852
	require.InDelta(t, 77.754, limit.Bound.Value, 1e-3)
	require.Equal(t, "not reached (above 87.5 kt)", limit.Levels[0].Words)
	require.NoError(t, errOf(plots.Contrasts(plots.ContrastsData{Choice: "foreplane", Baseline: "mid", Limits: []plots.ContrastLimit{limit}})))
}

func errOf(_ plots.Figure, err error) error { return err }

// The bound that is drawn is the one that the values belong to, not the one that they happen to lie nearer to.
func TestContrastsDrawTheBoundThatBinds(t *testing.T) {
	least, most := 5.0, 24.0
	as := decide.LimitVerdict{Limit: "nose share", Quantity: evidence.NoseGearShare, Unit: "%", AtLeast: &least, AtMost: &most}
	x := decide.Contrast{Level: "mid", Limit: "nose share", Unit: "%", Binding: decide.BindsAtMost, Bound: &most, Value: decide.Range{Median: 12, Low: 11, High: 13}}
	limit, _ := contrastLimit(as, []decide.Contrast{x})
	require.Equal(t, plots.Limit{Name: "limit", Value: 24}, limit.Bound)
}

// One bad number costs its own figure and leaves the rest of the page standing, with a sentence; a context that ends leaves nothing.
func TestAFigureThatCannotBeDrawnIsLeftOut(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "reed")
	require.NoError(t, program.New(dir, program.NewOptions{Name: "Reed (invented)"}))
	p, err := program.Load(dir)
	require.NoError(t, err)
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged})
	require.NoError(t, err)
	whole, missing, err := pageFigures(context.Background(), st)
	require.NoError(t, err)
	require.Empty(t, missing)
	require.NotEmpty(t, whole.Levels)
	for c := range st.Verdict.Configurations {
		for l := range st.Verdict.Configurations[c].Limits {
			st.Verdict.Configurations[c].Limits[l].Low = math.NaN()
		}
	}
	figures, missing, err := pageFigures(context.Background(), st)
	require.NoError(t, err)
	require.Len(t, missing, 1)
	require.Regexp(t, `^not drawn: sizes side by side: .*a bound is NaN`, missing[0])
	require.Empty(t, figures.Levels)
	require.Contains(t, figures.NotDrawn["levels"], "a bound is NaN")
	require.Equal(t, whole.Geometry, figures.Geometry)
	require.Equal(t, whole.Contrasts, figures.Contrasts)
	content, err := pageContent(context.Background(), st, boardHead{})
	require.NoError(t, err)
	require.Contains(t, content.Warnings, missing[0])
	page, err := report.Laid(content)
	require.NoError(t, err)
	require.Contains(t, string(page), "Not drawn: sizes side by side")
	require.NotContains(t, string(page), "there is no choice with two or more levels")

	ended, end := context.WithCancel(context.Background())
	end()
	_, _, err = pageFigures(ended, st)
	require.ErrorIs(t, err, context.Canceled)
}

// A drawing that a context cuts short is no figure that cannot be drawn.
func TestACutDrawingIsNoMissingFigure(t *testing.T) {
	ctx, end := context.WithCancel(context.Background())
	var into []plots.Figure
	var f report.Figures
	missing, err := drawAll(ctx, nil, []figureDrawing{{"lift", "lift curves", &into, func(*study.Study) ([]plots.Figure, error) {
		end()
		return nil, errors.New("the lift curves stopped half way")
	}}}, &f)
	require.ErrorIs(t, err, context.Canceled)
	require.Empty(t, missing)
}

// What a comparison is kept by stays as it was asked.
func TestComparingLeavesTheQuestionAlone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "reed")
	require.NoError(t, program.New(dir, program.NewOptions{Name: "Reed (invented)"}))
	p, err := program.Load(dir)
	require.NoError(t, err)
	var m mistakes
	c := conditionOptions{}.condition(p, &m)
	require.NoError(t, m.err())
	require.NoError(t, c.momentPoint(p))
	levels := map[string]string{}
	for _, choice := range p.Choices {
		levels[choice.Name] = choice.Baseline
	}
	in := compareInputs{p.Name, p.Choices[0], maps.Clone(levels), c}
	_, err = in.compare(p)
	require.NoError(t, err)
	require.Equal(t, levels, in.Others)
}
