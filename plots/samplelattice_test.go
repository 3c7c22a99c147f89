package plots_test

import (
	"math"

	"wingproof/plots"
)

// Invented data in the shape of what a lattice gives.

const rad = math.Pi / 180

// quads lays a lattice of n by m panels over the first and last station of an outline.
func quads(o plots.Outline, n, m int) [][]plots.Position {
	at := func(i, k int) plots.Position {
		s, t := float64(i)/float64(n), float64(k)/float64(m)
		a, b := o.Stations[0], o.Stations[len(o.Stations)-1]
		var p plots.Position
		for j := range p {
			le, te := a.LeadingEdge[j]+s*(b.LeadingEdge[j]-a.LeadingEdge[j]), a.TrailingEdge[j]+s*(b.TrailingEdge[j]-a.TrailingEdge[j])
			p[j] = le + t*(te-le)
		}
		return p
	}
	var out [][]plots.Position
	for i := range n {
		for k := range m {
			out = append(out, []plots.Position{at(i, k), at(i+1, k), at(i+1, k+1), at(i, k+1)})
		}
	}
	return out
}

func latticeViewData() plots.ThreeViewData {
	d := viewData()
	for i := range d.Surfaces {
		d.Surfaces[i].Panels = quads(d.Surfaces[i], 8, 4)
	}
	d.Other[0].Panels = quads(d.Other[0], 6, 4)
	d.Surfaces[0].Hinges = []plots.Hinge{{Control: "elevator", Line: []plots.Position{{0.9, 0.15, 0.3}, {0.91, 1.75, 0.3}}}}
	d.Surfaces[2].Hinges = []plots.Hinge{{Control: "aileron", Line: []plots.Position{{4.85, 2.7, 0.05}, {5.2, 4.0, 0.08}}}}
	d.Surfaces[3].Hinges = []plots.Hinge{{Control: "rudder", Line: []plots.Position{{5.27, 4.23, 0.2}, {5.55, 4.33, 0.8}}}}
	d.Other[0].Hinges = []plots.Hinge{{Control: "rudder", Line: []plots.Position{{5.27, 4.23, 0.2}, {5.65, 4.37, 1.1}}}}
	d.Body = []plots.BodySection{{0.2, 0.1, 0.15, 0.05}, {0.8, 0.5, 0.6, 0.08}, {2.2, 0.72, 1.05, 0.15}, {3.4, 0.7, 1.0, 0.2}, {4.6, 0.6, 0.7, 0.2}, {5.2, 0.35, 0.4, 0.2}}
	return d
}

// mistakenViewData has stations swapped, edges swapped, and a wing that droops.
func mistakenViewData() plots.ThreeViewData {
	d := viewData()
	d.Other, d.Title = nil, "Three views with three mistakes"
	wing := &d.Surfaces[2]
	wing.Stations = append(wing.Stations[:1:1], wing.Stations[2], wing.Stations[1])
	fore := &d.Surfaces[0].Stations[2]
	fore.LeadingEdge, fore.TrailingEdge = fore.TrailingEdge, fore.LeadingEdge
	d.Surfaces[1].Stations[1].LeadingEdge[2], d.Surfaces[1].Stations[1].TrailingEdge[2] = -0.25, -0.25
	return d
}

// surface is an elliptic-looking load with strips from a to b and a dent or bump where the foreplane's tip passes.
func surface(name string, own bool, a, b, root, tip, peak, tipAt, doubt float64) plots.SurfaceLoad {
	s := plots.SurfaceLoad{Surface: name, OwnLength: own}
	const n = 28
	for i := range n {
		t := (float64(i) + 0.5) / n
		y := a + t*(b-a)
		chord := root + t*(tip-root)
		shape := math.Sqrt(math.Max(0.02, 1-math.Pow(t, 3)))
		if tipAt > 0 {
			shape *= 1 + 0.13*math.Tanh((y-tipAt)/0.2)
		}
		s.Station, s.Chord, s.SectionLift = append(s.Station, y), append(s.Chord, chord), append(s.SectionLift, peak*shape)
		s.Error = append(s.Error, doubt)
	}
	if doubt == 0 {
		s.Error = nil
	}
	return s
}

func spanLoadData() plots.SpanLoadData {
	series := func(name string, tip, wing, fore, height, side float64) plots.SpanLoadSeries {
		return plots.SpanLoadSeries{Configuration: name, ForeplaneTip: tip, Surfaces: []plots.SurfaceLoad{
			surface("foreplane", false, 0, tip, 0.40, 0.28, fore, 0, 0.015),
			surface("wing", false, 0.3, 4.2, 1.9, 0.6, wing, tip, 0.01),
			surface("winglet", true, 0, height, 0.60, 0.38, side, 0, 0.02),
		}}
	}
	base := series("foreplane small, winglet mid", 1.90, 0.46, 0.78, 0.83, 0.36)
	base.Baseline = true
	return plots.SpanLoadData{Condition: "1 g at 105 kt, aft CG, trimmed", MeanChord: 1.05, Series: []plots.SpanLoadSeries{
		series("foreplane large, winglet tall", 2.15, 0.43, 0.72, 1.18, 0.31), base}}
}

// breaking is a lift curve that bends over at a peak angle.
func breaking(slope, peak float64) plots.Curve {
	return line(-2*rad, 18*rad, 41, func(a float64) float64 {
		t := a / (peak * rad)
		if t < 0.7 {
			return 0.02 + slope*a
		}
		return 0.02 + slope*peak*rad*(0.7+0.15*(1-math.Pow((1-t)/0.3, 2)))
	}, nil)
}

func stallData() plots.StallOrderData {
	side := func(load plots.SurfaceLoad, most func(y float64) float64, scale float64) plots.StallSurface {
		s := plots.StallSurface{Station: load.Station}
		for i, y := range load.Station {
			s.SectionLift, s.Maximum = append(s.SectionLift, math.Min(scale*load.SectionLift[i], most(y))), append(s.Maximum, most(y))
		}
		return s
	}
	fore := side(surface("foreplane", false, 0, 1.9, 0.4, 0.28, 1.78, 0, 0), func(y float64) float64 {
		if y > 0.15 && y < 1.75 {
			return 1.72 - 0.04*y
		}
		return 1.42 - 0.04*y
	}, 1)
	fore.Critical = &plots.CriticalStation{Station: 0.17, Alpha: 11.4 * rad}
	fore.Lift, fore.Event = breaking(1.1, 12.2), *at(12.2*rad, 11.3*rad, 13.1*rad)
	wing := side(surface("wing", false, 0.3, 4.4, 1.9, 0.6, 1.18, 1.9, 0), func(y float64) float64 { return 1.48 - 0.045*y }, 1)
	wing.Critical = &plots.CriticalStation{Station: 4.27, Alpha: 14.3 * rad}
	wing.Lift, wing.Event = breaking(4.6, 16.5), *at(14.3*rad, 13.2*rad, 15.4*rad)
	for i := range wing.SectionLift {
		if wing.Station[i] > 3.4 {
			wing.SectionLift[i] = math.Min(wing.Maximum[i], wing.Maximum[i]-0.25*(4.27-wing.Station[i]))
		}
	}
	return plots.StallOrderData{Case: "full size, aft CG, clean", Alpha: 14.3 * rad, Margin: *at(2.1*rad, 0.9*rad, 3.3*rad), Foreplane: fore, Wing: wing}
}

func stallOverviewData() plots.StallOverviewData {
	row := func(group, label string, value, low, high float64) plots.Row {
		return plots.Row{Group: group, Label: label, Predicted: at(value*rad, low*rad, high*rad)}
	}
	beyond := plots.Interval{Value: math.NaN(), Low: 2.4 * rad, High: math.Inf(1)}
	return plots.StallOverviewData{Rows: []plots.Row{
		row("full size", "aft CG, clean", 2.1, 0.9, 3.3),
		row("full size", "forward CG, clean", 3.4, 2.0, 4.8),
		row("full size", "aft CG, contaminated", -0.8, -2.3, 0.7),
		{Group: "full size", Label: "forward CG, contaminated", Predicted: at(0.5*rad, -1.1*rad, 2.1*rad), Anchored: at(0.9*rad, -0.3*rad, 2.1*rad)},
		row("model", "aft CG, clean", 4.9, 3.2, 6.6),
		{Group: "model", Label: "forward CG, clean", Predicted: &beyond},
		{Group: "model", Label: "aft CG, contaminated"},
	}}
}

func sweepData() plots.SweepData {
	lineOf := func(name string, k float64) plots.SweepLine {
		return plots.SweepLine{Level: name, Curve: line(0.4, 1.4, 6, func(h float64) float64 { return k + 0.14*math.Sqrt(h) }, func(h float64) float64 { return 0.004 + 0.004*h })}
	}
	return plots.SweepData{Quantity: "span efficiency", Unit: "-", Size: "winglet height", SizeUnit: "m",
		Lines:    []plots.SweepLine{lineOf("foreplane small", 0.775), lineOf("foreplane mid", 0.768), lineOf("foreplane large", 0.748)},
		Limit:    &plots.Limit{Name: "span efficiency", Value: 0.88, AtLeast: true},
		Baseline: &plots.SweepBaseline{Size: 0.8, Value: 0.768 + 0.14*math.Sqrt(0.8)}}
}

func differenceData() plots.LevelDifferencesData {
	unknown := plots.NotDetermined()
	two := func(a, b *plots.Interval) []plots.Row {
		return []plots.Row{{Label: "small", Predicted: a}, {Label: "tall", Predicted: b}}
	}
	return plots.LevelDifferencesData{Choice: "winglet", Baseline: "mid", Condition: "cruise, 120 kt at 1500 m, aft CG", Quantities: []plots.QuantityDifference{
		{Quantity: "induced drag", Unit: "%", Rows: two(at(3.9, 3.1, 4.7), at(-3.2, -3.9, -2.5))},
		{Quantity: "total drag", Unit: "%", Rows: []plots.Row{{Label: "small", Measured: at(0.6, -2.4, 3.6), Predicted: at(0.4, -0.3, 1.1)}, {Label: "tall", Predicted: at(0.2, -0.6, 1.0)}}},
		{Quantity: "bending moment at the wing root", Unit: "%", Rows: two(at(-1.8, -2.1, -1.5), at(2.4, 2.0, 2.8))},
		{Quantity: "directional stiffness", Unit: "%", Rows: two(at(-17, -19, -15), at(14, 12, 16))},
		{Quantity: "static margin, aft loading", Unit: "points of % chord", Rows: two(at(-0.5, -0.8, -0.2), &unknown)},
	}}
}
