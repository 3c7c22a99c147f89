package main

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/plots"
)

// stallFigures draws the stall order of one configuration: all cases side by side against the limits [rad], then the case with the
// least margin and the one in which the elevator at its stop leaves least to the wing's maximum. Nothing is drawn without cases.
func stallFigures(configuration string, cases []prediction.StallCase, limits []plots.Limit) ([]plots.Figure, error) {
	if len(cases) == 0 {
		return nil, nil
	}
	overview, err := plots.StallOverview(stallOverview(configuration, cases, limits))
	if err != nil {
		return nil, err
	}
	out := []plots.Figure{overview}
	for _, c := range governingStalls(cases) {
		figure, err := plots.StallOrder(stallOrder(c))
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

// governingStalls are the cases to be drawn one by one: at most two, the least margin first.
func governingStalls(cases []prediction.StallCase) []prediction.StallCase {
	var out []prediction.StallCase
	for _, governing := range []func([]prediction.StallCase) (prediction.StallCase, bool){prediction.GoverningStall, prediction.GoverningStallTrim} {
		c, ok := governing(cases)
		if ok && (len(out) == 0 || out[0].Name != c.Name) {
			out = append(out, c)
		}
	}
	return out
}

// stallOverview lists full size before the model.
func stallOverview(configuration string, cases []prediction.StallCase, limits []plots.Limit) plots.StallOverviewData {
	data := plots.StallOverviewData{Title: "Which surface lets go first: " + plainConfiguration(configuration), Limits: limits}
	for _, size := range []string{evidence.FullSize, evidence.ModelScale} {
		for _, c := range cases {
			if c.Size != size {
				continue
			}
			margin := bracketInterval(c.Order.Margin, c.Deviation)
			group, label, _ := strings.Cut(c.Name, ", ")
			if size == evidence.ModelScale {
				group += " (may break a limit, never keep it)"
			}
			data.Rows = append(data.Rows, plots.Row{Group: group, Label: label, Predicted: &margin})
		}
	}
	return data
}

// bracketInterval is an angle with its 95 % interval, or its bound.
func bracketInterval(b stall.Bracket, deviation float64) plots.Interval {
	v, known := b.Value()
	if !known {
		return plots.Interval{Value: math.NaN(), Low: b.Low, High: b.High}
	}
	if !(deviation > 0) {
		deviation = 0
	}
	const half = 1.959964 // width of a 95 % interval of a normal distribution, in standard deviations
	return plots.Interval{Value: v, Low: v - half*deviation, High: v + half*deviation}
}

func stallOrder(c prediction.StallCase) plots.StallOrderData {
	o := c.Order
	foreplane := stallSurface(c, stall.Foreplane, "foreplane", o.FirstForeplane)
	wing := stallSurface(c, stall.Wing, "wing", o.FirstWing)
	foreplane.Event = bracketInterval(o.Foreplane, math.Abs(c.Common[prediction.SourceForeplaneMaximum]))
	wing.Event = bracketInterval(o.Wing, math.Abs(c.Common[prediction.SourceWingMaximum]))
	for _, p := range o.Curve {
		area := c.Reference.Area / 2 // the points hold one half of the aircraft
		foreplane.Lift.X, foreplane.Lift.Y = append(foreplane.Lift.X, p.Alpha), append(foreplane.Lift.Y, p.ForeplaneLift/area)
		wing.Lift.X, wing.Lift.Y = append(wing.Lift.X, p.Alpha), append(wing.Lift.Y, p.WingLift/area)
	}
	return plots.StallOrderData{Case: c.Name, Alpha: o.Sections.Alpha, Margin: bracketInterval(o.Margin, c.Deviation), Foreplane: foreplane, Wing: wing}
}

// stallSurface is the section frame of a part, from the plane of symmetry outward; strips without a section maximum are left out.
func stallSurface(c prediction.StallCase, part stall.Part, name string, first stall.Station) plots.StallSurface {
	strips := c.Order.Sections.Strips
	var order []int
	for i, s := range strips {
		if s.Part == part && !math.IsInf(s.MaxLift, 0) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(c.Stations[i], c.Stations[j]) })
	out := plots.StallSurface{Name: name}
	for _, i := range order {
		if n := len(out.Station); n > 0 && c.Stations[i] <= out.Station[n-1] {
			continue // two surfaces side by side: the first one stands for both
		}
		out.Station, out.SectionLift, out.Maximum = append(out.Station, c.Stations[i]), append(out.SectionLift, strips[i].Lift), append(out.Maximum, strips[i].MaxLift)
	}
	if alpha, known := first.Alpha.Value(); known && first.Strip >= 0 {
		out.Critical = &plots.CriticalStation{Station: c.Stations[first.Strip], Alpha: alpha}
	}
	return out
}
