package main

import (
	"context"
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// A folder that lacks what a figure shows has no such figure, or one that says what is missing; never an error.
func TestJudgedFiguresOfFoldersThatLackSomething(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "reed")
	require.NoError(t, program.New(dir, program.NewOptions{Name: "Reed (invented)"}))
	for name, c := range map[string]struct {
		change    func(*program.Program)
		envelopes int
		says      string
		contrasts int
	}{
		"as it begins": {func(*program.Program) {}, 1, "from theory alone", 1},
		"no limits":    {func(p *program.Program) { p.Limits = nil }, 1, "No aft limit is computed: program.toml asks for no least static margin. No forward limit is computed", 0},
		"no loadings":  {func(p *program.Program) { p.Limits, p.Loadings = nil, nil }, 0, "", 0},
		"no weights": {func(p *program.Program) {
			p.Limits, p.FullSize.EmptyMass = nil, program.Figure{}
		}, 0, "", 0},
		"one size":  {func(p *program.Program) { p.Choices[0].Levels = []program.Level{{Name: p.Choices[0].Baseline}} }, 1, "aft limit", 0},
		"no choice": {func(p *program.Program) { p.Choices = nil }, 1, "aft limit", 0},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := program.Load(dir)
			require.NoError(t, err)
			c.change(p)
			p.Parts = nil // they name limits and choices
			st, err := study.Run(context.Background(), p, study.Options{Until: study.Judged, Keep: keep.Open(dir, "a test")})
			require.NoError(t, err)
			envelope, err := envelopeFigures(st)
			require.NoError(t, err)
			require.Len(t, envelope, c.envelopes)
			if c.envelopes > 0 {
				require.Contains(t, envelope[0].Alt, c.says)
			}
			drawn := 0
			for _, choice := range p.Choices {
				contrasts, err := contrastFigures(st, choice)
				require.NoError(t, err)
				drawn += len(contrasts)
			}
			require.Equal(t, c.contrasts, drawn)
			timeline, err := timelineFigures(context.Background(), st)
			require.NoError(t, err)
			require.Empty(t, timeline)
			modes, err := modesPlaneFigures(st)
			require.NoError(t, err)
			require.Empty(t, modes)
		})
	}
}

// 600 kg at 4 m, a pilot of 100 kg at 2 m, 80 kg of fuel at 3.6 m: full (2400 + 200 + 288)/780 = 3.70256 m; half burnt
// (2400 + 200 + 144)/740 = 3.70811 m; empty 2600/700 = 3.71429 m. A tank counts as fuel whatever it is called; a refuelling hose does not.
func TestFuelBurnsByHand(t *testing.T) {
	full := program.FullSize{EmptyMass: program.Figure{Value: 600}, EmptyX: program.Figure{Value: 4}}
	l := program.Loading{Items: []program.Item{{What: "pilot", Mass: 100, X: 2}, {What: "Fuel, left and right", Mass: 80, X: 3.6}}}
	burn, ok := fuelBurn(full, l)
	require.True(t, ok)
	for i, want := range map[int][2]float64{0: {780, 3.70256}, 4: {740, 3.70811}, 8: {700, 3.71429}} {
		require.InDelta(t, want[0], burn.Mass[i], 1e-9)
		require.InDelta(t, want[1], burn.CG[i], 5e-6)
	}
	l.Items[1].What = "refuelling hose"
	_, ok = fuelBurn(full, l)
	require.False(t, ok)
	l.Items[1].SpanTo = 1.2
	_, ok = fuelBurn(full, l)
	require.True(t, ok)
}

// Theory alone says 10 ± 1. With the same draws any difference is what a flight told; the board after a single flight has more draws, and
// its ends scatter by themselves.
func TestFlightsTellMoreThanDrawsScatter(t *testing.T) {
	step := func(median, low, high float64) study.TimelineStep {
		return study.TimelineStep{Limits: [][]decide.LimitVerdict{{{Median: median, Low: low, High: high}}}}
	}
	endless := step(math.Inf(1), 30, math.Inf(1))
	theory, scattered, told := step(10, 9, 11), step(10.01, 9.05, 10.96), step(10.2, 9.6, 10.8)
	for _, c := range []struct {
		steps []study.TimelineStep
		want  bool
	}{
		{[]study.TimelineStep{theory}, false},
		{[]study.TimelineStep{theory, scattered}, false},
		{[]study.TimelineStep{theory, told}, true},
		{[]study.TimelineStep{theory, theory, scattered}, false},
		{[]study.TimelineStep{theory, scattered, scattered}, true},
		{[]study.TimelineStep{endless, endless}, false},
		{[]study.TimelineStep{endless, step(math.Inf(1), 30.4, math.Inf(1))}, false},
		{[]study.TimelineStep{endless, step(40, 25, math.Inf(1))}, true},
		{[]study.TimelineStep{endless, endless, step(40, 25, 60)}, false}, // the last of several has more draws and is not compared
		{[]study.TimelineStep{endless, step(40, 25, 60), endless}, true},
	} {
		require.Equal(t, c.want, toldByFlights(study.Timeline{Steps: c.steps}, 0))
	}
}

// A level of the Dutch roll ends at the worst of its three bounds: at ζ 0.08 the product 0.15 asks for ω 1.875, at ζ 0.5 the least
// frequency 0.4 does, being above 0.3.
func TestDutchRollBoundaryIsTheWorstOfThree(t *testing.T) {
	b := swingBoundary(0.08, 0.15, 0.4)
	require.Equal(t, 0.08, b.X[1])
	require.InDelta(t, 1.875, b.Y[1], 1e-12)
	for i, x := range b.X[1:] {
		require.InDelta(t, math.Max(0.4, 0.15/x), b.Y[i+1], 1e-12)
	}
	require.Equal(t, 2.0, b.X[len(b.X)-1])
	without := swingBoundary(0.02, 0, 0.4)
	require.Equal(t, 0.4, without.Y[1])
}

func TestJudgedNumbersInReadersUnits(t *testing.T) {
	at := func(v float64) *float64 { return &v }
	speed := decide.LimitVerdict{Quantity: evidence.StallingSpeed, Unit: "m/s", AtMost: at(40), Median: 36, Low: 30, High: math.Inf(1)}
	unit, factor := limitUnit(speed)
	require.Equal(t, "kt", unit)
	i := judgedInterval(speed, factor)
	require.InDelta(t, 69.9784, i.Value, 1e-4) // 36·3600/1852
	require.True(t, math.IsInf(i.High, 1))
	spiral := decide.LimitVerdict{Quantity: evidence.SpiralTimeToDouble, Unit: "s", AtLeast: at(8), Median: math.Inf(1), Low: 30, High: math.Inf(1)}
	i = judgedInterval(spiral, 1)
	require.True(t, math.IsNaN(i.Value))
	require.Equal(t, 30.0, i.Low)
	both := decide.LimitVerdict{Quantity: evidence.ShortPeriodDamping, Unit: "-", AtLeast: at(0.3), AtMost: at(2), Median: 0.5, Low: 0.4, High: 0.7}
	require.InDelta(t, 2.0, roomRatio(both), 1e-12) // (0.5 − 0.3)/(0.5 − 0.4) against (2 − 0.5)/(0.7 − 0.5) = 7.5
	both.Binding = decide.BindsAtMost
	require.InDelta(t, 7.5, roomRatio(both), 1e-12)
	require.True(t, math.IsInf(roomRatio(spiral), 1))
	require.Zero(t, roomRatio(speed), "it may never be reached")
}
