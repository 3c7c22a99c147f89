package plots_test

import (
	"math"

	"wingproof/plots"
)

// Invented data for the figures of judged numbers at full size.

func timelineData() plots.TimelineData {
	narrowing := func(name string, own []int, middle, width float64) plots.TimelineSeries {
		s := plots.TimelineSeries{Name: name, Own: own}
		for _, n := range []int{0, 1, 2, 4, 6} {
			half := width / (1 + float64(n)/2)
			s.Flights, s.Interval = append(s.Flights, n), append(s.Interval, *at(middle, middle-half, middle+half))
		}
		return s
	}
	endless := narrowing("foreplane small, winglet mid", []int{1, 2, 5}, 30, 14)
	endless.Interval[0] = plots.Interval{Value: math.NaN(), Low: 20, High: math.Inf(1)}
	return plots.TimelineData{Flights: 6, Note: "At full size: 6 flights, 3 of them with foreplane small, winglet mid.", Panels: []plots.TimelinePanel{
		{Name: "aft margin", Where: "judged at light loading", Unit: "% of the mean chord", Limits: []plots.Limit{{Value: 5, AtLeast: true}}, Series: []plots.TimelineSeries{
			narrowing("foreplane small, winglet mid", []int{1, 2, 5}, 12, 6), narrowing("foreplane large, winglet mid", []int{3, 4, 6}, 7.5, 6)}},
		{Name: "roll time constant", Unit: "s", Limits: []plots.Limit{{Value: 1.4}}, Series: []plots.TimelineSeries{narrowing("foreplane small, winglet mid", []int{1, 2, 5}, 0.25, 0.06)}},
		{Name: "spiral time to double", Unit: "s", Limits: []plots.Limit{{Value: 8, AtLeast: true}}, Series: []plots.TimelineSeries{endless}},
		{Name: "Dutch roll damping", Unit: "-", Limits: []plots.Limit{{Value: 0.02, AtLeast: true}}, Series: []plots.TimelineSeries{narrowing("foreplane small, winglet mid", nil, 0.05, 0.045)}},
	}}
}

func envelopeData() plots.EnvelopeData {
	masses := []float64{600, 700, 800, 900, 1000}
	return plots.EnvelopeData{Configuration: "foreplane small, winglet mid", MeanChord: 1.2, MeanChordLeadingEdge: 3.6, GrossMass: 940, RowMass: 800,
		Note: "Limits are those of foreplane small, winglet mid.",
		Loadings: []plots.EnvelopeLoading{
			{Name: "light pilot", CG: *at(3.90, 3.88, 3.92), Mass: *at(667, 650, 684)},
			{Name: "two aboard", CG: *at(3.72, 3.71, 3.73), Mass: *at(900, 882, 918)}},
		Burns: []plots.EnvelopeBurn{{Loading: "two aboard", CG: []float64{3.72, 3.70, 3.67}, Mass: []float64{900, 850, 800}}},
		Limits: []plots.EnvelopeLimit{
			{Name: "aft margin", Aft: true, CG: []float64{3.97, 3.97, 3.97, 3.97, 3.97}, Mass: masses},
			{Name: "trim room", CG: []float64{3.50, 3.57, 3.62, 3.655, 3.68}, Mass: masses}},
		Rows: []plots.EnvelopeRow{
			{Configuration: "foreplane small, winglet mid", NeutralPoint: *at(4.10, 4.05, 4.15), Forward: 3.62, Aft: 3.97, Flown: []float64{3.7, 3.8, 3.9}},
			{Configuration: "foreplane large, winglet mid", NeutralPoint: *at(4.02, 3.95, 4.09), Forward: math.NaN(), Aft: 3.88}}}
}

func modesPlaneData() plots.ModesPlaneData {
	sloping := func(level string, bound, side float64) plots.ModesBoundary {
		b := plots.ModesBoundary{Level: level, SideY: side}
		for _, n := range []float64{1, 2, 5, 10, 20, 50, 100} {
			b.X, b.Y = append(b.X, n), append(b.Y, math.Sqrt(bound*n))
		}
		return b
	}
	return plots.ModesPlaneData{Note: "Invented bounds.", Panels: []plots.ModesPanel{
		{Name: "Short period", X: "load factor per angle of attack, g per radian", Y: "undamped frequency, rad/s", Log: true, Lacking: "not known from flights: foreplane large, winglet tall",
			Boundaries: []plots.ModesBoundary{sloping("Level 1", 0.09, -1), sloping("Level 1", 4, 1), sloping("Level 2", 0.04, -1)},
			Places: []plots.ModesPlace{
				{Name: "foreplane small, winglet mid", X: *at(12, 10.5, 13.5), Y: *at(4.9, 4.4, 5.4), Levels: "Level 1", Main: true},
				{Name: "foreplane large, winglet mid", X: *at(11, 9, 13), Y: *at(5.2, 4.6, 5.8), Levels: "Level 1"}}},
		{Name: "Dutch roll", X: "damping ratio, pure number", Y: "undamped frequency, rad/s",
			Boundaries: []plots.ModesBoundary{{Level: "Level 1", SideX: -1, SideY: -1, X: []float64{0.08, 0.08, 0.12, 0.2, 0.4, 2}, Y: []float64{20, 1.9, 1.25, 0.75, 0.4, 0.4}}},
			Places: []plots.ModesPlace{
				{Name: "foreplane small, winglet mid", X: *at(0.05, 0.03, 0.07), Y: *at(2.5, 2.3, 2.7), Levels: "Level 2", Main: true},
				{Name: "foreplane large, winglet mid", X: *at(0.11, 0.09, 0.13), Y: *at(3.1, 2.9, 3.3), Levels: "Level 1"}}},
	}}
}

func contrastData() plots.ContrastsData {
	return plots.ContrastsData{Choice: "winglet", Baseline: "mid", Note: "Not drawn: tip-back.", Limits: []plots.ContrastLimit{
		{Name: "directional", Unit: "per radian", Bound: plots.Limit{Value: 0.024, AtLeast: true}, Baseline: 0.043, Holds: "over 99.9 % sure", Levels: []plots.ContrastLevel{
			{Level: "small", Difference: *at(-0.015, -0.017, -0.013), Holds: "97.0 % sure"}, {Level: "tall", Difference: *at(0.09, 0.08, 0.1), Holds: "over 99.9 % sure"}}},
		{Name: "load on the main spar", Unit: "%", Bound: plots.Limit{Value: 100}, Baseline: 69, Levels: []plots.ContrastLevel{
			{Level: "small", Difference: *at(-1, -5, 3)}, {Level: "tall", Difference: *at(62, 52, 72), Holds: "under 1 % sure"}}},
		{Name: "stalling speed", Unit: "kt", Bound: plots.Limit{Value: 65}, Baseline: 67, Levels: []plots.ContrastLevel{
			{Level: "small", Difference: plots.NotDetermined()}, {Level: "tall", Difference: *at(-1, -2, 0)}}}}}
}

// judgedKinds are the figures of judged numbers on their sample data.
func judgedKinds() []kind {
	return []kind{
		{"timeline", func() (plots.Figure, error) { return plots.Timeline(timelineData()) },
			[]string{"What the flights told, flight by flight", "flights used", "% of the mean chord", "Aft margin", "limit: at least 5 % of the mean chord", "judged at light loading", "tightest: foreplane large, winglet mid", "limit: at most 1.4 s (above the frame)", "flight of that combination itself", "pure number"}},
		{"envelope", func() (plots.Figure, error) { return plots.Envelope(envelopeData()) },
			[]string{"Mass and centre of gravity at full size", "centre of gravity, m aft of datum", "mass, kg", "% of the mean aerodynamic chord", "light pilot", "two aboard", "aft margin", "trim room", "gross mass 940 kg", "Neutral point, and limits at 800 kg", "foreplane large, winglet mid", "CG flown with the model", "its fuel burning to empty tanks"}},
		{"modes-plane", func() (plots.Figure, error) { return plots.ModesPlane(modesPlaneData()) },
			[]string{"Short period", "Dutch roll", "load factor per angle of attack, g per radian", "undamped frequency, rad/s", "damping ratio, pure number", "Level 1", "foreplane small, winglet mid", "foreplane large, winglet mid", "end of a level, hatched side is worse", "not known from flights"}},
		{"contrasts", func() (plots.Figure, error) { return plots.Contrasts(contrastData()) },
			[]string{"Winglet at full size: what each size costs and gains", "← costs room", "gains room →", "difference in % of the room that mid has to the limit", "Directional", "Load on the main spar", "mid: 69.0 %", "room 31.0 to the limit, at most 100", "2.0 beyond the limit, at most 65", "not determined", "+62.0 (+52.0 to +72.0)", "under 1 % sure"}},
	}
}
