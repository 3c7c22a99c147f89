package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/leastsquares"
)

// glideSet is the idle glides of one configuration, ready for a polar.
type glideSet struct {
	flights  []flight
	points   []Point
	speeds   bool    // every point knows its airspeed, so a flight's draw is metres a second of vertical air
	speed1   float64 // mean of V·√CL: the gliding speed at CL 1, m/s
	warnings []string
}

const idlePower = "idle"

// glideSteps is how often weights and parabola are found in turn.
const glideSteps = 12

// prepareGlides keeps points with drag flown at idle, weighs them and plays outliers down.
func prepareGlides(points []Point) glideSet {
	var idle []Point
	for _, p := range points {
		if p.HasDrag && p.Power == idlePower {
			idle = append(idle, p)
		}
	}
	kept, _, warnings := usable(idle, func(p Point) []float64 { return []float64{p.Lift, p.Drag} })
	g := glideSet{flights: groupByFlight(kept), points: kept, warnings: warnings}
	g.findSpeed()
	g.weigh()
	g.warnings = append(g.warnings, g.playDown()...)
	return g
}

// groupByFlight cuts sorted points into flights; drag is taken not to depend on the CG.
func groupByFlight(points []Point) []flight {
	var out []flight
	for _, p := range points {
		last := len(out) - 1
		if last < 0 || out[last].name != p.Flight {
			out = append(out, flight{name: p.Flight, cg: p.CG})
			last++
		}
		out[last].points = append(out[last].points, p)
		out[last].weight = append(out[last].weight, 1)
	}
	return out
}

// draught is how CD moves with a flight's draw of steady vertical air w: w/V·CL, with V = speed1/√CL. The speed of the
// point itself would not do: its error and that of CL are one, and the draw would soak it up.
func (g glideSet) draught(p Point) float64 {
	return p.Lift * math.Sqrt(math.Max(0, p.Lift)) / g.speed1
}

// findSpeed sets speed1; without airspeeds it is 1 and a draw has no unit.
func (g *glideSet) findSpeed() {
	g.speeds, g.speed1 = len(g.points) > 0, 0
	for _, p := range g.points {
		g.speeds = g.speeds && p.Airspeed > 0 && p.Lift > 0 && allFinite(p.Airspeed)
		g.speed1 += p.Airspeed * math.Sqrt(math.Max(0, p.Lift)) / float64(len(g.points))
	}
	if !g.speeds {
		g.speed1 = 1
	}
}

// weigh sets weights from the stated errors of CD, and of CL through a plain parabola.
func (g glideSet) weigh() {
	rows, response, _ := g.problem(true)
	fit, err := leastsquares.Linear(rows, response, nil)
	slope := func(Point) float64 { return 0 }
	if err == nil {
		slope = func(p Point) float64 { return fit.Coefficients[1] + 2*fit.Coefficients[2]*p.Lift }
	}
	var variances []float64
	for _, p := range g.points {
		variances = append(variances, square(positive(p.DragSD))+square(slope(p)*positive(p.LiftSD)))
	}
	if len(variances) == 0 || slices.Min(variances) <= 0 {
		return
	}
	floor, sum := median(variances)/4, 0.0
	for i, v := range variances {
		variances[i] = 1 / math.Max(v, floor)
		sum += variances[i]
	}
	next := 0
	for _, f := range g.flights {
		for j := range f.points {
			f.weight[j] = variances[next] * float64(len(variances)) / sum
			next++
		}
	}
}

// problem lays out the rows [1, CL, CL²], or [1, CL²] for a parabola about CL 0.
func (g glideSet) problem(offset bool) (rows [][]float64, response, weight []float64) {
	for _, f := range g.flights {
		for j, p := range f.points {
			row := []float64{1, p.Lift, p.Lift * p.Lift}
			if !offset {
				row = []float64{1, p.Lift * p.Lift}
			}
			rows, response, weight = append(rows, row), append(response, p.Drag), append(weight, f.weight[j])
		}
	}
	return rows, response, weight
}

// withinFlights fits the parabola with a draw of vertical air of its own for every flight of two points or
// more; what is left scatters inside flights.
func (g glideSet) withinFlights() (leastsquares.Fit, error) {
	rows, response, weight := g.problem(true)
	next := 0
	for i, f := range g.flights {
		if len(f.points) < 2 {
			continue
		}
		for k := range rows {
			rows[k] = append(rows[k], 0)
		}
		for j, p := range f.points {
			rows[g.firstRow(i)+j][3+next] = g.draught(p)
		}
		next++
	}
	return leastsquares.Linear(rows, response, weight)
}

// firstRow is the index of the first point of a flight.
func (g glideSet) firstRow(flightIndex int) int {
	n := 0
	for _, f := range g.flights[:flightIndex] {
		n += len(f.points)
	}
	return n
}

// playDown is the drag polar's form of the weights that playDown of a straight line gives.
func (g glideSet) playDown() []string {
	var base [][]float64
	n, largest := len(g.points), 0.0
	for _, p := range g.points {
		largest = math.Max(largest, math.Abs(p.Drag))
	}
	for _, f := range g.flights {
		base = append(base, slices.Clone(f.weight))
	}
	z := make([][]float64, len(g.flights))
	for range glideSteps {
		fit, err := g.withinFlights()
		if err != nil || fit.Degrees < 3 {
			return nil
		}
		residuals := g.cut(fit.Residuals, base)
		scale := madToSD * medianOf(residuals) * math.Sqrt(float64(n)/float64(fit.Degrees))
		if scale <= leastScatter*largest {
			return nil
		}
		for i, f := range g.flights {
			z[i] = make([]float64, len(f.points))
			for j := range f.points {
				z[i][j] = math.Abs(residuals[i][j]) / scale
				f.weight[j] = base[i][j] * outlierWeight(z[i][j])
			}
		}
	}
	return outlierWords(g.flights, z, relation{name: "drag"})
}

// cut deals residuals out to flights, times the root of the base weight.
func (g glideSet) cut(residuals []float64, base [][]float64) [][]float64 {
	out := make([][]float64, len(g.flights))
	next := 0
	for i, f := range g.flights {
		for j := range f.points {
			out[i] = append(out[i], math.Sqrt(base[i][j])*residuals[next])
			next++
		}
	}
	return out
}

// glideLabel starts a drag result.
func glideLabel(quantity, unit, method string, g glideSet) Result {
	r := label(quantity, unit, method, prepared{points: g.points, power: idlePower, warnings: g.warnings})
	r.Warnings = append(r.Warnings, "power idle: the drag of a stopped or windmilling propeller is in it and cannot be told apart by these glides")
	if w := attenuationWords(g); w != "" {
		r.Warnings = append(r.Warnings, w)
	}
	return r
}

// attenuationWords bounds how much the error of CL flattens the parabola: k falls by about 4·CL²·sd²/var(CL²).
func attenuationWords(g glideSet) string {
	n := float64(len(g.points))
	if n < 2 {
		return ""
	}
	mean, spread, noise := 0.0, 0.0, 0.0
	for _, p := range g.points {
		mean += p.Lift * p.Lift / n
	}
	for _, p := range g.points {
		spread += square(p.Lift*p.Lift-mean) / n
		noise += 4 * square(p.Lift*positive(p.LiftSD)) / n
	}
	if share := noise / spread; share > 0.01 {
		return fmt.Sprintf("the error of CL may make drag_due_to_lift up to %.0f %% too small; not corrected", math.Ceil(100*share))
	}
	return ""
}

// medianOf is the median of absolute values.
func medianOf(values [][]float64) float64 {
	var all []float64
	for _, row := range values {
		for _, v := range row {
			all = append(all, math.Abs(v))
		}
	}
	return median(all)
}
