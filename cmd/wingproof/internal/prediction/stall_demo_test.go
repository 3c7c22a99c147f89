package prediction

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// The invented aircraft of the demo with its invented polars: at full size and clean the foreplane goes first with a modest margin,
// the model's goes earlier. The figures are its own, held so that a change is seen.
func TestStallOfTheDemo(t *testing.T) {
	p, err := program.Load("../demo/scenario")
	require.NoError(t, err)
	for _, a := range p.Aerofoils {
		require.NotEmpty(t, a.Polar, a.Name)
		for _, r := range a.Polar {
			require.Equal(t, "invented", r.Source, a.Name)
		}
	}
	airframe, _, err := p.Airframe(p.Configurations()[0])
	require.NoError(t, err)
	s := StallSetup(Setup{CG: r3.Vec{X: 3.75}})
	all, err := Analyse([]aero.Airframe{airframe}, s)
	require.NoError(t, err)
	cases, missing, err := Stall(p, &all[0], s)
	require.NoError(t, err)
	require.Empty(t, missing)

	governing, ok := GoverningStall(cases)
	require.True(t, ok)
	require.Equal(t, "full size, aft CG, in trim, all contaminated", governing.Name)
	margin, ok := governing.Order.Margin.Value()
	require.True(t, ok)
	require.InDelta(t, 4.0, margin/deg, 0.2)
	atStop, ok := GoverningStallTrim(cases)
	require.True(t, ok)
	left, ok := atStop.Trim.Left.Value()
	require.True(t, ok)
	require.InDelta(t, 0.4, left/deg, 0.3)
	for _, h := range []Handling{AftStop, AftTrimmed, ForwardTrimmed} {
		full, model := caseOf(t, cases, evidence.FullSize, h, AllClean), caseOf(t, cases, evidence.ModelScale, h, AllClean)
		require.Positive(t, full.Order.Margin.Low, h)
		require.Less(t, model.Order.Foreplane.High, full.Order.Foreplane.Low, h)
		require.Less(t, model.ForeplaneReynolds, 0.3*full.ForeplaneReynolds)
	}
	require.True(t, slices.ContainsFunc(governing.Notes, func(n string) bool { return contains(n, `surface "strake" is swept by more than 40°`) }))
}

// A wake along the body, as for cruise, passes the wing closer and takes margin away.
func TestStallWakeMatters(t *testing.T) {
	margin := func(s Setup) StallCase {
		a := analysed(t, sectioned(), s)
		cases, _, err := Stall(stallProgram(), a, s)
		require.NoError(t, err)
		return caseOf(t, cases, evidence.FullSize, AftTrimmed, AllClean)
	}
	stream, along := stallSetup(), stallSetup()
	along.Lattice.Wake = 0
	a, b := margin(stream), margin(along)
	require.Greater(t, a.Order.Margin.Low, b.Order.Margin.High)
}
