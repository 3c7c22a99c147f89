package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/plots"
)

func TestStallFiguresShowEveryCaseAndTheGoverningOnes(t *testing.T) {
	p, err := program.Load("internal/demo/scenario")
	require.NoError(t, err)
	airframe, _, err := p.Airframe(p.Configurations()[0])
	require.NoError(t, err)
	s := prediction.StallSetup(prediction.Setup{CG: r3.Vec{X: 3.75}})
	s.Lattice.Density = 0.5
	all, err := prediction.Analyse([]aero.Airframe{airframe}, s)
	require.NoError(t, err)
	cases, _, err := prediction.Stall(p, &all[0], s)
	require.NoError(t, err)
	figures, err := stallFigures("the demo", cases, []plots.Limit{{Name: "stall order", Value: 0.02, AtLeast: true}})
	require.NoError(t, err)
	require.Len(t, figures, 3)
	require.Equal(t, "Which surface lets go first: the demo", figures[0].Title)
	require.Contains(t, figures[0].Alt, "model (may break a limit, never keep it), aft CG, in trim, clean: foreplane lets go first")
	require.Contains(t, figures[1].Title, "in trim, all contaminated: foreplane lets go first by")
	require.Contains(t, figures[2].Title, "Full size, aft CG, elevator at its nose-up stop")
	for _, f := range figures {
		require.NotEmpty(t, f.SVG)
		require.NotEmpty(t, f.Narrow)
	}

	none, err := stallFigures("nothing", nil, nil)
	require.NoError(t, err)
	require.Empty(t, none)
}

func TestBracketsAreDrawnAsIntervalsOrBounds(t *testing.T) {
	i := bracketInterval(stall.Bracket{Low: 0.1, High: 0.1}, 0.01)
	require.InDelta(t, 0.1, i.Value, 1e-15)
	require.InDelta(t, 2*1.959964*0.01, i.High-i.Low, 1e-12)
	i = bracketInterval(stall.Bracket{Low: 0.1, High: math.Inf(1)}, math.NaN())
	require.True(t, math.IsNaN(i.Value))
	require.Equal(t, 0.1, i.Low)
	require.True(t, math.IsInf(i.High, 1))
	i = bracketInterval(stall.Bracket{Low: 0.1, High: 0.1}, math.NaN())
	require.Equal(t, i.Low, i.High)
}
