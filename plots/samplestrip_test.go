package plots_test

import (
	"math"

	"wingproof/plots"
)

// stripSeries samples a function of time.
func stripSeries(name string, from, to, step float64, f func(t float64) float64) plots.StripSeries {
	s := plots.StripSeries{Name: name}
	for i := 0; float64(i)*step <= to-from; i++ {
		t := from + float64(i)*step
		s.Time, s.Value = append(s.Time, t), append(s.Value, f(t))
	}
	return s
}

// stripData is an invented minute and a half of flight with a gap, a spike and one of each kind of mark.
func stripData() plots.StripChartData {
	speed := stripSeries("", 0, 90, 0.5, func(t float64) float64 {
		if t < 8 {
			return 0.1
		}
		return 22 + 4*math.Sin(t/9) + 0.4*math.Sin(7*t)
	})
	speed.Value[101] = 400
	speed.Time, speed.Value = append(append([]float64{}, speed.Time[:120]...), speed.Time[132:]...), append(append([]float64{}, speed.Value[:120]...), speed.Value[132:]...)
	return plots.StripChartData{
		Title: "monday.csv",
		Note:  "good, but no drag from 60 to 66 s: the airspeed has a gap there.",
		Panels: []plots.StripPanel{
			{Name: "airspeed", Unit: "m/s", Series: []plots.StripSeries{speed}},
			{Name: "height above the field", Unit: "m", Series: []plots.StripSeries{stripSeries("", 0, 90, 0.5, func(t float64) float64 { return 60 - 60*math.Cos(t/28) })}},
			{Name: "attitude", Unit: "degrees", Series: []plots.StripSeries{
				stripSeries("pitch", 0, 90, 0.5, func(t float64) float64 { return 6 + 5*math.Sin(t/9+1) }),
				stripSeries("bank", 0, 90, 0.5, func(t float64) float64 { return 25 * math.Max(0, math.Sin(t/12)) })}},
			{Name: "load factor", Series: []plots.StripSeries{stripSeries("", 0, 90, 0.5, func(t float64) float64 { return 1 + 0.2*math.Sin(3*t) })}},
			{Name: "never recorded", Unit: "m", Series: []plots.StripSeries{{}}},
		},
		Points:     []plots.StripPoint{{From: 20, To: 27, Kept: true}, {From: 33, To: 38}, {From: 70, To: 78, Kept: true}},
		Findings:   []plots.StripFinding{{From: 60, To: 66, Loss: true}, {From: 50.5, To: 50.5}},
		Manoeuvres: []plots.StripManoeuvre{{From: 12, To: 30, Name: "climb"}, {From: 31, To: 36, Name: "doublet, elevator"}, {From: 36.5, To: 40, Name: "doublet, aileron"}, {From: 68, To: 80, Name: "glide"}},
	}
}

// historyData is an invented doublet, measured and fitted, with what the fit leaves below.
func historyData() plots.StripChartData {
	rate := func(t float64) float64 { return 20 * math.Exp(-t) * math.Sin(3*t) }
	rest := func(t float64) float64 { return 0.8 * math.Sin(19*t) }
	left, flat := stripSeries("measured less fitted", 0, 5, 0.05, rest), stripSeries("measured less fitted", 0, 5, 0.05, func(float64) float64 { return 0 })
	return plots.StripChartData{
		Title: "F05, elevator doublet: measured and fitted",
		Note:  "winglet mid. Below each frame, on a scale of its own, what the fit leaves.",
		Panels: []plots.StripPanel{
			{Name: "elevator", Unit: "°", Series: []plots.StripSeries{stripSeries("", 0, 5, 0.05, func(t float64) float64 { return 3 * math.Copysign(1, 0.5-t) * math.Max(0, math.Copysign(1, 1-t)) })}},
			{Name: "pitch rate", Unit: "°/s", Left: &left, Series: []plots.StripSeries{stripSeries("measured", 0, 5, 0.05, func(t float64) float64 { return rate(t) + rest(t) }), stripSeries("fitted", 0, 5, 0.05, rate)}},
			{Name: "pitch angle", Unit: "°", Left: &flat, Series: []plots.StripSeries{stripSeries("measured", 0, 5, 0.05, math.Cos), stripSeries("fitted", 0, 5, 0.05, math.Cos)}},
		},
	}
}
