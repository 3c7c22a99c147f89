package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/reduce"
	"wingproof/plots"
)

// stationText names a CG at both sizes; ratio is model over full size.
func stationText(x, ratio float64) string {
	return fmt.Sprintf("CG %.3f m (model %.0f mm)", x, 1000*ratio*x)
}

// loadingOf takes the loading's name out of the method text of a margin.
func loadingOf(e evidence.Estimate) string {
	if e.Method == nil {
		return ""
	}
	_, rest, found := strings.Cut(*e.Method, "loading \"")
	if !found {
		return *e.Method
	}
	name, _, _ := strings.Cut(rest, "\"")
	return name
}

func trimFigures(st *study.Study) ([]plots.Figure, error) {
	if len(st.Fits) == 0 {
		return nil, nil
	}
	ref := st.Configurations[0].Airframe.Reference
	data := plots.TrimCrossingData{MeanChord: ref.MeanChord, MeanChordLeadingEdge: ref.MeanChordLeadingEdge}
	for _, f := range st.Fits {
		panel := plots.TrimPanel{Configuration: plainConfiguration(f.Configuration), CG: f.TrimSlopes.CG, Slope: slopeIntervals(f.TrimSlopes),
			NeutralPoint: resultInterval(f.NeutralPoint), Line: trimLine(f), Sample: plots.Sample{Points: f.NeutralPoint.Points, Flights: len(f.NeutralPoint.Flights)}}
		if c, ok := configurationNamed(st, f.Configuration); ok {
			panel.Predicted = evidence.Pointer(c.NeutralPoint)
		}
		data.Panels = append(data.Panels, panel)
	}
	figure, err := plots.TrimCrossing(data)
	return []plots.Figure{figure}, err
}

// slopeIntervals gives each trim slope its 95 % interval, shared errors included.
func slopeIntervals(t estimate.TrimSlopes) []plots.Interval {
	out := make([]plots.Interval, len(t.Slope))
	for i, slope := range t.Slope {
		low, high := study.SlopeInterval(t, i)
		out[i] = plots.Interval{Value: slope, Low: low, High: high}
	}
	return out
}

func resultInterval(r estimate.Result) plots.Interval {
	if r.Value == nil || r.State == estimate.NotDetermined || r.Low == nil || r.High == nil {
		return plots.NotDetermined()
	}
	return plots.Interval{Value: *r.Value, Low: *r.Low, High: *r.High}
}

func configurationNamed(st *study.Study, name string) (study.Configuration, bool) {
	for _, c := range st.Configurations {
		if c.Name == name {
			return c, true
		}
	}
	return study.Configuration{}, false
}

func liftFigures(st *study.Study) ([]plots.Figure, error) {
	if len(st.Fits) == 0 {
		return nil, nil
	}
	data := plots.LiftCurvesData{Title: liftTitle(st.Fits)}
	for _, f := range st.Fits {
		panel := plots.LiftPanel{Configuration: plainConfiguration(f.Configuration)}
		for _, p := range pointsAt(f.TrimmedLiftSlope.Power, f.Points) {
			panel.Alpha, panel.Lift, panel.Flights = append(panel.Alpha, p.Alpha), append(panel.Lift, p.Lift), append(panel.Flights, p.Flight)
			panel.AlphaSD, panel.LiftSD = append(panel.AlphaSD, ownSD(p.AlphaSD)), append(panel.LiftSD, ownSD(p.LiftSD))
		}
		band := estimate.LiftBand(f.Points, f.CG, f.Systematics, f.Scatter, alphaRange(panel.Alpha))
		panel.Fit = plots.Curve{X: band.Alpha, Y: band.Lift, Low: band.Low, High: band.High}
		if f.TrimmedLiftSlope.Value != nil {
			slope := resultInterval(f.TrimmedLiftSlope)
			panel.Slope = &slope
		}
		latticeLine(st, f, &panel)
		data.Panels = append(data.Panels, panel)
	}
	figure, err := plots.LiftCurves(data)
	return []plots.Figure{figure}, err
}

// pointsAt are the points flown at the power that a fit rests on, all of them where it names none: those of another power lie beside its line,
// since the propeller moves trim.
func pointsAt(power string, points []estimate.Point) []estimate.Point {
	if power == "" {
		return points
	}
	return slices.DeleteFunc(slices.Clone(points), func(p estimate.Point) bool { return p.Power != power })
}

// liftTitle names the power at which the points of all panels were flown, if it is one.
func liftTitle(fits []study.Fit) string {
	for _, f := range fits {
		if f.TrimmedLiftSlope.Power != string(reduce.Idle) {
			return ""
		}
	}
	return "Lift curves, trimmed, propeller idle"
}

// ownSD is the standard deviation of a test point by itself; one that is no number is not known, and draws no bar.
func ownSD(sd float64) float64 {
	if sd > 0 && !math.IsInf(sd, 1) {
		return sd
	}
	return 0
}

// alphaRange is 25 angles over the data and half a degree beyond.
func alphaRange(alpha []float64) []float64 {
	if len(alpha) == 0 {
		return nil
	}
	const beyond = 0.5 * math.Pi / 180
	low, high := alpha[0], alpha[0]
	for _, a := range alpha {
		low, high = math.Min(low, a), math.Max(high, a)
	}
	out := make([]float64, 25)
	for i := range out {
		out[i] = low - beyond + (high-low+2*beyond)*float64(i)/24
	}
	return out
}

// latticeLine adds the lattice's trimmed line at the CG of the fit, like for like.
func latticeLine(st *study.Study, f study.Fit, panel *plots.LiftPanel) {
	c, ok := configurationNamed(st, f.Configuration)
	if !ok || math.IsNaN(c.TrimmedLiftSlope) {
		return
	}
	d := stability.Moved(c.Derivatives, f.CG, c.Derivatives.MomentZ)
	slope, err := stability.TrimmedLiftSlope(d)
	if err != nil {
		return
	}
	panel.LatticeSlope = measuredRow(st, f.Configuration, "", evidence.TrimmedLiftSlope).Predicted // at the same CG
	if panel.LatticeSlope == nil {
		panel.LatticeSlope = &plots.Interval{Value: slope, Low: slope, High: slope}
	}
	for _, lift := range []float64{0.2, 0.9} {
		alpha, _, err := stability.Trim(d, lift)
		if err != nil {
			return
		}
		panel.Lattice.X, panel.Lattice.Y = append(panel.Lattice.X, alpha), append(panel.Lattice.Y, lift)
	}
}

func dragFigures(st *study.Study) ([]plots.Figure, error) {
	if len(st.Fits) == 0 {
		return nil, nil
	}
	data := plots.DragPolarData{Title: "Drag polars of the glides, propeller idle"}
	for _, f := range st.Fits {
		panel := plots.PolarPanel{Configuration: plainConfiguration(f.Configuration)}
		for _, p := range f.Points {
			if p.HasDrag && p.Power == string(reduce.Idle) {
				panel.Lift, panel.Drag, panel.Flights = append(panel.Lift, p.Lift), append(panel.Drag, p.Drag), append(panel.Flights, p.Flight)
				panel.LiftSD, panel.DragSD = append(panel.LiftSD, ownSD(p.LiftSD)), append(panel.DragSD, ownSD(p.DragSD))
			}
		}
		panel.Fit = polarCurve(f, panel.Lift)
		if f.ZeroLiftDrag.Value != nil {
			zero := resultInterval(f.ZeroLiftDrag)
			panel.ZeroLiftDrag = &zero
		}
		data.Panels = append(data.Panels, panel)
	}
	figure, err := plots.DragPolar(data)
	return []plots.Figure{figure}, err
}

// polarCurve is the fitted parabola with its band, from no lift to the highest lift coefficient of the data.
func polarCurve(f study.Fit, lift []float64) plots.Curve {
	if len(lift) == 0 {
		return plots.Curve{}
	}
	across := make([]float64, 25)
	for i := range across {
		across[i] = math.Max(0, slices.Max(lift)) * float64(i) / float64(len(across)-1)
	}
	band := estimate.DragBand(f.Points, f.Systematics, f.Scatter, across)
	return plots.Curve{X: band.Lift, Y: band.Drag, Low: band.Low, High: band.High}
}

// sparFigures draws the bending over what each built part carries, with the stated errors.
func sparFigures(st *study.Study) ([]plots.Figure, error) {
	var out []plots.Figure
	for _, b := range st.Program.Built {
		data := plots.BendingRatioData{Part: b.Part}
		for _, c := range st.Configurations {
			data.Series = append(data.Series, plots.BendingSeries{Configuration: plainConfiguration(c.Name), Station: b.Y, Ratio: ratioIntervals(st.BendingRatios(c, b))})
		}
		figure, err := plots.BendingRatio(data)
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

func ratioIntervals(ratios []study.Ratio) []plots.Interval {
	out := make([]plots.Interval, len(ratios))
	for i, r := range ratios {
		out[i] = plots.Interval(r)
	}
	return out
}
