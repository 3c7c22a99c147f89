package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/reduce"
	"wingproof/plots"
)

// twoGlides are a fit's points: one glide at idle, one level point with power, which has no drag.
func twoGlides() *study.Study {
	return &study.Study{
		Configurations: make([]study.Configuration, 1),
		Fits: []study.Fit{{Configuration: "winglet=mid", Points: []estimate.Point{
			{Flight: "F01", Power: string(reduce.Idle), Alpha: 0.05, AlphaSD: 0.005, Lift: 0.4, LiftSD: 0.01, Drag: 0.03, DragSD: 0.002, HasDrag: true},
			{Flight: "F02", Power: string(reduce.Level), Alpha: 0.10, AlphaSD: 0.010, Lift: 0.6, LiftSD: 0.02},
		}}},
	}
}

// Each test point carries its own standard deviations into the figures, times 1.96.
func TestFiguresOfCurvesHoldTheErrorsOfTheirPoints(t *testing.T) {
	said := func(figures []plots.Figure, err error) string {
		require.NoError(t, err)
		require.Len(t, figures, 1)
		var all []string
		for _, p := range figures[0].Points {
			all = append(all, p.Text)
		}
		return strings.Join(all, "\n")
	}
	lift := said(liftFigures(twoGlides()))
	require.Contains(t, lift, "test point of F01: 2.9 ± 0.6°, CL 0.400 ± 0.020") // 1.96·0.005 rad = 0.56°
	require.Contains(t, lift, "test point of F02: 5.7 ± 1.1°, CL 0.600 ± 0.039")
	drag := said(dragFigures(twoGlides()))
	require.Contains(t, drag, "test point of F01: CL 0.400 ± 0.020, CD 0.0300 ± 0.0039")
	require.NotContains(t, drag, "F02")

	unknown := twoGlides()
	unknown.Fits[0].Points[0].AlphaSD, unknown.Fits[0].Points[1].LiftSD = math.NaN(), math.Inf(1)
	lift = said(liftFigures(unknown))
	require.Contains(t, lift, "test point of F01: 2.9°, CL 0.400 ± 0.020")
	require.Contains(t, lift, "test point of F02: 5.7 ± 1.1°, CL 0.600")
}
