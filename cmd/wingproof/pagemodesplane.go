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
	"wingproof/plots"
)

// planePhase is the category of flight phases that the full-size motions, which are those of the cruise, are set beside.
const planePhase = stability.PhaseB

// modesPlaneFigures draw short period and Dutch roll of the full-size aircraft, as they follow from the flights of each combination, on the
// planes that MIL-F-8785C states its levels on. Without a flight, or where nothing of these motions is known, there is nothing to draw.
func modesPlaneFigures(st *study.Study) ([]plots.Figure, error) {
	short, swing := shortPeriodPanel(st), dutchRollPanel(st)
	if len(short.Places)+len(swing.Places) == 0 {
		return nil, nil
	}
	figure, err := plots.ModesPlane(plots.ModesPlaneData{Title: "Short period and Dutch roll against MIL-F-8785C",
		Note: fmt.Sprintf("Class I, category %s, controls held, cruise at the aftmost loading. The numbers of the specification were seen in secondary copies only "+
			"(the methods name them). A level is a guide: it says nothing of stalls or of whether the aircraft may be flown.", planePhase),
		Panels: []plots.ModesPanel{short, swing}})
	return []plots.Figure{figure}, err
}

// shortPeriodPanel is frequency over load factor per angle of attack; a bound on control anticipation is a line ω² = bound·n/α.
func shortPeriodPanel(st *study.Study) plots.ModesPanel {
	panel := plots.ModesPanel{Name: "Short period", Log: true, X: "load factor per angle of attack n/α, g per radian", Y: "undamped frequency, rad/s"}
	for _, b := range boundsOn(evidence.ControlAnticipation) {
		line := plots.ModesBoundary{Level: stability.LevelWords(b.Level), SideY: -1}
		if b.Most {
			line.SideY = 1
		}
		const points = 25
		for k := range points {
			load := math.Pow(10, 2.3*float64(k)/(points-1)) // 1 to 200 g per rad
			line.X, line.Y = append(line.X, load), append(line.Y, math.Sqrt(b.Bound*load))
		}
		panel.Boundaries = append(panel.Boundaries, line)
	}
	var lacking []string
	for _, f := range st.Fits {
		frequency, load, ok := shortPeriodOf(st, f.Configuration)
		if !ok {
			lacking = append(lacking, plainConfiguration(f.Configuration))
			continue
		}
		levels := func(w, n float64) int {
			return motionLevel(stability.HandlingNumbers{ControlAnticipation: w * w / n, ShortPeriodFrequency: w, LoadFactorPerAlpha: n}, stability.ShortPeriodMotion)
		}
		panel.Places = append(panel.Places, planePlace(st, f.Configuration, load, frequency, func(x, y float64) int { return levels(y, x) }))
	}
	panel.Lacking = lackingWords(lacking)
	return panel
}

// shortPeriodOf is the frequency at full size, and n/α = CL_α/CL, which it is in level flight: the slope that the flights tell over the lift of
// the cruise, whose own error is that of the mass.
func shortPeriodOf(st *study.Study, configuration string) (frequency, load plots.Interval, ok bool) {
	f := fullSizeMotion(st, configuration, estimate.ShortPeriodFrequency)
	slope := measuredOf(st, configuration, evidence.LiftCurveSlope, evidence.ModelScale)
	if f == nil || slope == nil || f.At.LiftCoefficient == nil || !(*f.At.LiftCoefficient > 0) || !(*f.Value > 0) || !(*slope.Value > 0) {
		return frequency, load, false
	}
	lift, s := *f.At.LiftCoefficient, *intervalOf(*slope)
	mass := st.Program.FullSize.Mass
	spread := evidence.Normal95 * mass.SD / math.Max(mass.Value, 1)
	value := s.Value / lift
	load = plots.Interval{Value: value, Low: value * (1 - math.Hypot(1-s.Low/s.Value, spread)), High: value * (1 + math.Hypot(s.High/s.Value-1, spread))}
	return *intervalOf(*f), load, true
}

// dutchRollPanel is frequency over damping; where a level ends is the worst of three bounds, on damping, on damping times frequency, on frequency.
func dutchRollPanel(st *study.Study) plots.ModesPanel {
	panel := plots.ModesPanel{Name: "Dutch roll", X: "damping ratio ζ, pure number", Y: "undamped frequency ω, rad/s"}
	damping, decay, frequency := boundsOn(evidence.DutchRollDamping), boundsOn(dutchRollDecay), boundsOn(evidence.DutchRollFrequency)
	for level := 1; level <= 3; level++ {
		line := swingBoundary(boundAt(damping, level), boundAt(decay, level), boundAt(frequency, level))
		line.Level = stability.LevelWords(level)
		if n := len(panel.Boundaries); n > 0 && slices.Equal(panel.Boundaries[n-1].X, line.X) && slices.Equal(panel.Boundaries[n-1].Y, line.Y) {
			panel.Boundaries[n-1].Level += " and " + strings.TrimPrefix(line.Level, "Level ")
			continue
		}
		panel.Boundaries = append(panel.Boundaries, line)
	}
	var lacking []string
	for _, f := range st.Fits {
		w := fullSizeMotion(st, f.Configuration, estimate.DutchRollFrequency)
		z := fullSizeMotion(st, f.Configuration, estimate.DutchRollDamping)
		if w == nil || z == nil {
			lacking = append(lacking, plainConfiguration(f.Configuration))
			continue
		}
		panel.Places = append(panel.Places, planePlace(st, f.Configuration, *intervalOf(*z), *intervalOf(*w), func(x, y float64) int {
			return motionLevel(stability.HandlingNumbers{DutchRollDamping: x, DutchRollFrequency: y}, stability.DutchRollMotion)
		}))
	}
	panel.Lacking = lackingWords(lacking)
	return panel
}

const dutchRollDecay = "dutch_roll_decay" // ζω, 1/s, as package stability names it

// swingBoundary is ω = max(least, decay/ζ) to the right of the least damping, and upright at it; bounds that are not stated are 0.
func swingBoundary(damping, decay, least float64) plots.ModesBoundary {
	const points, far, high = 40, 2.0, 20.0 // ζ and ω beyond which nothing is drawn
	out := plots.ModesBoundary{SideX: -1, SideY: -1, X: []float64{damping}, Y: []float64{high}}
	for k := range points {
		share := float64(k) / (points - 1)
		x := damping + (far-damping)*share*share
		y := least
		if decay > 0 {
			y = math.Max(least, decay/math.Max(x, 1e-6))
		}
		out.X, out.Y = append(out.X, x), append(out.Y, math.Min(high, y))
	}
	return out
}

func boundsOn(quantity string) []stability.HandlingBound {
	return slices.DeleteFunc(stability.HandlingBounds(planePhase), func(b stability.HandlingBound) bool { return b.Quantity != quantity })
}

// boundAt is the bound of a level, 0 where none is stated.
func boundAt(bounds []stability.HandlingBound, level int) float64 {
	for _, b := range bounds {
		if b.Level == level && !b.Most {
			return b.Bound
		}
	}
	return 0
}

// planePlace is a combination in a plane, with its level and those of the corners of its intervals.
func planePlace(st *study.Study, configuration string, x, y plots.Interval, level func(x, y float64) int) plots.ModesPlace {
	out := plots.ModesPlace{Name: plainConfiguration(configuration), X: x, Y: y, Main: configuration == evidence.Name(settledLevels(st))}
	here := level(x.Value, y.Value)
	best, worst := here, here
	for _, cx := range []float64{x.Low, x.High} {
		for _, cy := range []float64{y.Low, y.High} {
			if !math.IsInf(cx, 0) && !math.IsInf(cy, 0) {
				best, worst = min(best, level(cx, cy)), max(worst, level(cx, cy))
			}
		}
	}
	out.Levels = stability.LevelWords(here)
	if best != worst {
		out.Levels += ", within its intervals " + stability.LevelWords(best) + " to " + strings.TrimPrefix(stability.LevelWords(worst), "Level ")
	}
	return out
}

// motionLevel is the level of one motion; numbers of other motions are not looked at, and those left at zero are not known.
func motionLevel(n stability.HandlingNumbers, motion string) int {
	for _, v := range []*float64{&n.ShortPeriodDamping, &n.PhugoidDamping, &n.PhugoidTimeToDouble, &n.RollTimeConstant, &n.SpiralTimeToDouble} {
		*v = math.NaN()
	}
	for _, l := range n.Levels(planePhase) {
		if l.Motion == motion {
			return l.Level
		}
	}
	return stability.WorseThanLevel3
}

func lackingWords(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "not known from flights: " + strings.Join(names, "; ")
}

// fullSizeMotion is what the flights say of a motion at full size; nil where it is not determined.
func fullSizeMotion(st *study.Study, configuration, quantity string) *evidence.Estimate {
	return measuredOf(st, configuration, quantity, evidence.FullSize)
}

// measuredOf is the first measured number of a quantity that holds a value: of several roads what they say together.
func measuredOf(st *study.Study, configuration, quantity, scale string) *evidence.Estimate {
	for i, e := range st.Estimates {
		if e.Configuration == configuration && e.Quantity == quantity && e.Scale == scale && e.Origin == evidence.Measured && e.Value != nil && e.State != evidence.NotDetermined &&
			(e.Low != nil || e.High != nil) {
			return &st.Estimates[i]
		}
	}
	return nil
}
