package plots_test

import (
	"math"

	"wingproof/plots"
)

// Invented data, small and fixed, for the golden figures and the structure tests.

func at(value, low, high float64) *plots.Interval {
	return &plots.Interval{Value: value, Low: low, High: high}
}

func marginData() plots.MarginData {
	unknown := plots.NotDetermined()
	return plots.MarginData{
		Limits: []plots.Limit{{Name: "aft margin", Value: 5, AtLeast: true}, {Name: "rotation", Value: 22}},
		Rows: []plots.Row{
			{Group: "foreplane small, winglet mid", Label: "aft loading", Measured: at(9.1, 7.8, 10.6), Predicted: at(7.4, 3.2, 11.6), Anchored: at(8.7, 6.1, 11.3)},
			{Group: "foreplane small, winglet mid", Label: "forward loading", Measured: at(18.2, 16.4, 20.1), Predicted: at(16.5, 12.3, 20.7), Anchored: at(17.8, 15.0, 20.6)},
			{Group: "foreplane large, winglet mid", Label: "aft loading", Measured: at(2.2, math.Inf(-1), 6.8), Predicted: at(1.1, -3.1, 5.3), Anchored: at(2.6, -0.2, 5.4)},
			{Group: "foreplane large, winglet tall", Label: "aft loading", Measured: &unknown, Predicted: at(0.8, -3.4, 5.0), Anchored: at(2.2, -1.4, 5.8)},
			{Group: "foreplane large, winglet tall", Label: "forward loading"},
		},
	}
}

// line samples y = f(x) at n places with a band of half width w(x).
func line(from, to float64, n int, f, w func(float64) float64) plots.Curve {
	var c plots.Curve
	for i := range n {
		x := from + (to-from)*float64(i)/float64(n-1)
		c.X, c.Y = append(c.X, x), append(c.Y, f(x))
		if w != nil {
			c.Low, c.High = append(c.Low, f(x)-w(x)), append(c.High, f(x)+w(x))
		}
	}
	return c
}

// scatter returns points about a curve with a repeatable pattern of departures.
func scatter(from, to float64, n int, f func(float64) float64, size float64) (x, y []float64) {
	for i := range n {
		t := from + (to-from)*(float64(i)+0.5)/float64(n)
		x, y = append(x, t), append(y, f(t)+size*math.Sin(7.3*float64(i)+0.4))
	}
	return x, y
}

// deviations are standard deviations between one and two times the least, in a repeatable pattern.
func deviations(n int, least float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = least * (1.5 + 0.5*math.Sin(5.1*float64(i)))
	}
	return out
}

func liftData() plots.LiftCurvesData {
	slope := func(a, b float64) func(float64) float64 { return func(x float64) float64 { return a + b*x } }
	band := func(x float64) float64 { return 0.015 + 2.5*(x-0.08)*(x-0.08) }
	x, y := scatter(0.01, 0.16, 22, slope(0.12, 4.61), 0.03)
	return plots.LiftCurvesData{Panels: []plots.LiftPanel{
		{Configuration: "foreplane small, winglet mid", Alpha: x, Lift: y, AlphaSD: deviations(len(x), 0.0035), LiftSD: deviations(len(x), 0.008), Fit: line(0.0, 0.17, 9, slope(0.12, 4.61), band),
			Lattice: line(0, 0.17, 2, slope(0.10, 4.72), nil), Slope: at(4.61, 4.4, 4.82), LatticeSlope: at(4.72, 4.32, 5.12)},
		{Configuration: "foreplane large, winglet mid", Alpha: x[:9], Lift: y[:9], Fit: line(0.0, 0.17, 9, slope(0.11, 4.9), band),
			Lattice: line(0, 0.17, 2, slope(0.10, 5.01), nil), Slope: at(4.9, 4.2, 5.6)},
		{Configuration: "foreplane large, winglet tall", Lattice: line(0, 0.17, 2, slope(0.10, 5.05), nil), LatticeSlope: at(4.72, 4.72, 4.72)},
	}}
}

func polarData() plots.DragPolarData {
	f := func(cl float64) float64 { return 0.031 + 0.052*(cl-0.1)*(cl-0.1) }
	x, y := scatter(0.25, 1.05, 18, f, 0.003)
	return plots.DragPolarData{Panels: []plots.PolarPanel{
		{Configuration: "foreplane small, winglet mid", Lift: x, Drag: y, LiftSD: deviations(len(x), 0.012), DragSD: deviations(len(x), 0.0012), ZeroLiftDrag: at(0.0315, 0.0290, 0.0340),
			Fit:     line(0.2, 1.1, 13, f, func(cl float64) float64 { return 0.002 + 0.004*(cl-0.6)*(cl-0.6) }),
			Lattice: line(0.2, 1.1, 13, func(cl float64) float64 { return 0.029 + 0.048*cl*cl }, nil)},
		{Configuration: "foreplane large, winglet tall"},
	}}
}

func trimData() plots.TrimCrossingData {
	f := func(x float64) float64 { return 0.9 * (4.21 - x) }
	theory, other := 4.17, 4.25
	return plots.TrimCrossingData{MeanChord: 1.05, MeanChordLeadingEdge: 3.92, Panels: []plots.TrimPanel{
		{Configuration: "foreplane small, winglet mid", CG: []float64{3.9, 3.98, 4.08}, Predicted: &theory,
			Slope: []plots.Interval{*at(0.275, 0.24, 0.31), *at(0.21, 0.17, 0.25), *at(0.115, 0.085, 0.145)},
			Line:  line(3.85, 4.35, 9, f, func(x float64) float64 { return 0.02 + 0.8*(x-3.98)*(x-3.98) }), NeutralPoint: *at(4.21, 4.15, 4.29)},
		{Configuration: "foreplane large, winglet mid", CG: []float64{3.9, 3.93}, Predicted: &other,
			Slope: []plots.Interval{*at(0.2, 0.1, 0.3), *at(0.19, 0.09, 0.29)}, NeutralPoint: plots.NotDetermined(),
			Line: line(3.85, 4.35, 9, func(x float64) float64 { return 0.2 - 0.33*(x-3.9) }, func(x float64) float64 { return 0.1 + 2*math.Abs(x-3.915) })},
	}}
}

func levelData() plots.LevelComparisonData {
	return plots.LevelComparisonData{Choice: "winglet", Panels: []plots.QuantityPanel{
		{Name: "static margin at the aft loading", Unit: "% of chord", Limits: []plots.Limit{{Name: "aft margin", Value: 5, AtLeast: true}}, Rows: []plots.Row{
			{Label: "small", Predicted: at(6.9, 2.7, 11.1), Anchored: at(8.2, 5.3, 11.1)},
			{Label: "mid", Measured: at(9.1, 7.8, 10.6), Predicted: at(7.4, 3.2, 11.6), Anchored: at(8.7, 6.1, 11.3)},
			{Label: "tall", Predicted: at(7.7, 3.5, 11.9), Anchored: at(9.0, 6.0, 12.0)}}},
		{Name: "directional stiffness", Unit: "per radian", Limits: []plots.Limit{{Name: "yaw", Value: 0.03, AtLeast: true}}, Rows: []plots.Row{
			{Label: "small", Anchored: at(0.028, 0.019, 0.037)}, {Label: "mid", Anchored: at(0.047, 0.038, 0.056)}, {Label: "tall", Anchored: at(0.066, 0.055, 0.077)}}},
		{Name: "span efficiency", Unit: "-", Rows: []plots.Row{
			{Label: "small", Anchored: at(0.86, 0.81, 0.91)}, {Label: "mid", Anchored: at(0.91, 0.86, 0.96)}, {Label: "tall", Anchored: at(0.95, 0.89, 1.01)}}},
		{Name: "greatest bending of the spar over allowable", Unit: "-", Limits: []plots.Limit{{Name: "spar", Value: 1}}, Rows: []plots.Row{
			{Label: "small", Anchored: at(0.88, 0.8, 0.96)}, {Label: "mid", Anchored: at(0.93, 0.84, 1.02)}, {Label: "tall", Anchored: at(1.09, 1.01, 1.17)}}},
	}}
}

func bendingData() plots.BendingRatioData {
	series := func(name string, k float64) plots.BendingSeries {
		s := plots.BendingSeries{Configuration: name}
		for i := range 15 {
			y := 0.2 + 0.28*float64(i)
			r := k * (0.95 - 0.02*(y-1.2)*(y-1.2))
			s.Station, s.Ratio = append(s.Station, y), append(s.Ratio, plots.Interval{Value: r, Low: 0.92 * r, High: 1.08 * r})
		}
		return s
	}
	return plots.BendingRatioData{Part: "main spar", Series: []plots.BendingSeries{
		series("winglet small", 0.86), series("winglet mid", 0.96), series("winglet tall", 1.15)}}
}

func outline(name string, mirrored bool, cuts ...[6]float64) plots.Outline {
	o := plots.Outline{Name: name, Mirrored: mirrored}
	for _, c := range cuts {
		o.Stations = append(o.Stations, plots.Cut{LeadingEdge: plots.Position{c[0], c[1], c[2]}, TrailingEdge: plots.Position{c[3], c[4], c[5]}})
	}
	return o
}

func viewData() plots.ThreeViewData {
	strake := outline("strake", true, [6]float64{2.1, 0.3, 0, 5.0, 0.3, 0}, [6]float64{3.3, 1.2, 0, 5.0, 1.2, 0.02})
	strake.Panels = [][]plots.Position{{{2.1, 0.3, 0}, {3.5, 0.3, 0}, {4.1, 1.2, 0}, {3.3, 1.2, 0}}}
	return plots.ThreeViewData{
		Name: "baseline", OtherName: "winglet tall",
		Surfaces: []plots.Outline{
			outline("foreplane", true, [6]float64{0.6, 0, 0.3, 1.0, 0, 0.3}, [6]float64{0.65, 1.0, 0.3, 1.0, 1.0, 0.3}, [6]float64{0.7, 1.9, 0.3, 0.98, 1.9, 0.3}),
			strake,
			outline("wing", true, [6]float64{3.3, 1.2, 0.02, 5.0, 1.2, 0.02}, [6]float64{4.0, 2.6, 0.05, 5.1, 2.6, 0.05}, [6]float64{4.8, 4.2, 0.08, 5.4, 4.2, 0.08}),
			outline("winglet", true, [6]float64{4.8, 4.2, 0.08, 5.4, 4.2, 0.08}, [6]float64{5.3, 4.35, 0.9, 5.7, 4.35, 0.9}),
		},
		Other: []plots.Outline{
			outline("winglet", true, [6]float64{4.8, 4.2, 0.08, 5.4, 4.2, 0.08}, [6]float64{5.45, 4.4, 1.25, 5.8, 4.4, 1.25}),
		},
		Wheels: []plots.Wheel{{Name: "nose", At: plots.Position{1.1, 0, -0.75}, Radius: 0.12}, {Name: "left", At: plots.Position{4.3, -0.95, -0.72}, Radius: 0.16}, {Name: "right", At: plots.Position{4.3, 0.95, -0.72}, Radius: 0.16}},
		Marks:  []plots.Mark{{Kind: plots.CentreOfGravity, Name: "CG, aft loading", X: 3.62, Z: 0.1}, {Kind: plots.NeutralPoint, Name: "neutral point", X: 3.98, Z: 0.1}},
	}
}

// kind is one figure of the package on its sample data.
type kind struct {
	name string
	draw func() (plots.Figure, error)
	says []string // words that must stand in the drawing: axis labels with units, names of series
}

func kinds() []kind {
	return append(judgedKinds(), []kind{
		{"margin", func() (plots.Figure, error) { return plots.Margin(marginData()) },
			[]string{"Static margin", "static margin, % of the mean aerodynamic chord", "measured in flight", "predicted", "anchored by flights", "aft loading", "forward loading", "foreplane small, winglet mid", "foreplane large, winglet tall", "not determined", "no data", "aft margin: at least 5", "rotation: at most 22"}},
		{"lift-curves", func() (plots.Figure, error) { return plots.LiftCurves(liftData()) },
			[]string{"Lift curves, trimmed", "angle of attack, degrees", "lift coefficient CL, pure number", "test points", "fit with 95 % band", "theory, trimmed", "foreplane small, winglet mid", "not flown", "4.61 (4.40 to 4.82)"}},
		{"drag-polar", func() (plots.Figure, error) { return plots.DragPolar(polarData()) },
			[]string{"Drag polars", "lift coefficient CL, pure number", "drag coefficient CD, pure number", "fit with 95 % band", "no drag points"}},
		{"trim-crossing", func() (plots.Figure, error) { return plots.TrimCrossing(trimData()) },
			[]string{"centre of gravity, m aft of datum", "dδe/dCL, degrees", "neutral point 4.210", "neutral point not determined", "neutral point by theory"}},
		{"level-comparison", func() (plots.Figure, error) { return plots.LevelComparison(levelData()) },
			[]string{"Levels of winglet side by side", "% of chord", "per radian", "pure number", "Directional stiffness", "small", "mid", "tall", "aft margin: at least 5", "spar: at most 1"}},
		{"bending-ratio", func() (plots.Figure, error) { return plots.BendingRatio(bendingData()) },
			[]string{"main spar", "station of the part, m", "bending moment over allowable, pure number", "winglet tall", "limit: ratio 1", "breaks the limit"}},
		{"three-view", func() (plots.Figure, error) { return plots.ThreeView(viewData()) },
			[]string{"Top view", "Side view from the left", "Front view", "x aft of datum, m", "y to the right, m", "z above datum, m", "foreplane", "strake", "wing", "winglet", "baseline", "winglet tall", "centre of gravity", "neutral point", "wheel"}},
		{"three-view-lattice", func() (plots.Figure, error) { return plots.ThreeView(latticeViewData()) },
			[]string{"hinge line", "panels of the lattice", "fuselage", "the same in both", "baseline, where it differs", "winglet tall", "elevator", "rudder"}},
		{"three-view-mistakes", func() (plots.Figure, error) { return plots.ThreeView(mistakenViewData()) },
			[]string{"look here", "inboard of station", "behind its trailing edge"}},
		{"span-load", func() (plots.Figure, error) { return plots.SpanLoad(spanLoadData()) },
			[]string{"Load along the span", "1 g at 105 kt", "load c·cl over mean chord, pure number", "section lift coefficient cl, pure number", "distance from the plane of symmetry, m", "distance along the winglet from its root, m", "Winglet", "wing", "foreplane", "foreplane tip 1.90 m", "foreplane tip 2.15 m", "(baseline)", "foreplane large, winglet tall"}},
		{"stall-order", func() (plots.Figure, error) { return plots.StallOrder(stallData()) },
			[]string{"Full size, aft CG, clean: foreplane lets go first by 2.1°", "Foreplane at 14.3°", "Wing at 14.3°", "section lift coefficient cl, pure number", "angle of attack, degrees", "lift coefficient on the wing's area, pure number", "lift stops rising at 12.2°", "first station at its maximum at 14.3°", "4.27 m first, at 14.3°"}},
		{"stall-overview", func() (plots.Figure, error) { return plots.StallOverview(stallOverviewData()) },
			[]string{"Which surface lets go first", "← wing first", "foreplane first →", "margin, degrees of angle of attack", "aft CG, contaminated", "full size", "model", "no data"}},
		{"sweep", func() (plots.Figure, error) { return plots.Sweep(sweepData()) },
			[]string{"Span efficiency against winglet height", "winglet height, m", "span efficiency, pure number", "foreplane small", "foreplane mid", "foreplane large", "baseline", "at least 0.88", "error of the discretisation"}},
		{"time-history", func() (plots.Figure, error) { return plots.StripChart(historyData()) },
			[]string{"F05, elevator doublet", "time, s", "elevator, °", "pitch rate, °/s", "pitch angle, °", "measured", "fitted", "measured less fitted"}},
		{"level-differences", func() (plots.Figure, error) { return plots.LevelDifferences(differenceData()) },
			[]string{"Winglet: what changes against mid", "← less than mid", "more than mid →", "difference, %", "difference, points of % chord", "Induced drag", "small", "tall", "not determined"}},
		{"strip-chart", func() (plots.Figure, error) { return plots.StripChart(stripData()) },
			[]string{"monday.csv", "time, s", "airspeed, m/s", "height above the field, m", "attitude, degrees", "pitch", "bank", "load factor, pure number", "test point, kept", "dropped", "something is lost here", "something to know", "climb", "doublet, elevator", "glide"}},
	}...)
}
