package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog/statistic"
)

// flight is the points of one flight at one CG, in a fixed order, each with its weight.
type flight struct {
	name   string
	cg     float64
	points []Point
	weight []float64

	distance float64 // of glides that are played down as a whole; see number
}

// share is by how much the glides of a flight count.
func (f flight) share() float64 { return outlierWeight(f.distance) }

// sameCG is the distance below which two CGs are one, full-size m.
const sameCG = 1e-6

// comparePoints is a total order of points, so that the order in which they came does not matter.
func comparePoints(a, b Point) int {
	return cmp.Or(strings.Compare(a.Flight, b.Flight), cmp.Compare(a.CG, b.CG), cmp.Compare(a.Lift, b.Lift),
		cmp.Compare(a.Elevator, b.Elevator), cmp.Compare(a.Alpha, b.Alpha), cmp.Compare(a.Drag, b.Drag),
		cmp.Compare(a.LiftSD, b.LiftSD), cmp.Compare(a.ElevatorSD, b.ElevatorSD), cmp.Compare(a.AlphaSD, b.AlphaSD),
		cmp.Compare(a.DragSD, b.DragSD), strings.Compare(a.Power, b.Power), cmp.Compare(a.Reynolds, b.Reynolds),
		cmp.Compare(a.Airspeed, b.Airspeed))
}

// usable returns the points for which values are finite, of the one power state that most flights flew,
// sorted; and words for what was left out.
func usable(points []Point, values func(Point) []float64) ([]Point, string, []string) {
	var kept []Point
	for _, p := range points {
		if allFinite(p.CG) && allFinite(values(p)...) {
			kept = append(kept, p)
		}
	}
	var warnings []string
	if lost := len(points) - len(kept); lost > 0 {
		warnings = append(warnings, fmt.Sprintf("%s left out: a value is missing or not a number", count(lost, "point")))
	}
	slices.SortFunc(kept, comparePoints)
	power, others := commonPower(kept)
	if len(others) > 0 {
		warnings = append(warnings, fmt.Sprintf("power moves trim: only points with power %s are used; power %s left out", power, strings.Join(others, ", ")))
		kept = slices.DeleteFunc(kept, func(p Point) bool { return p.Power != power })
	}
	return kept, power, warnings
}

// powers lists the power states in a fixed order.
func powers(points []Point) []string {
	var out []string
	for _, p := range points {
		if !slices.Contains(out, p.Power) {
			out = append(out, p.Power)
		}
	}
	slices.Sort(out)
	return out
}

// thrustOf ranks the states of power by how much thrust there is.
func thrustOf(power string) int { return slices.Index([]string{"idle", "level", "full"}, power) }

// commonPower returns the state that most flights flew, and the others. Of states with equally many flights idle comes first, because thrust
// is in neither its lift nor its trim, then level, then full.
func commonPower(points []Point) (string, []string) {
	type tally struct {
		power           string
		flights, points int
	}
	var tallies []tally
	for _, power := range powers(points) {
		these := slices.DeleteFunc(slices.Clone(points), func(p Point) bool { return p.Power != power })
		tallies = append(tallies, tally{power, len(flightNames(these)), len(these)})
	}
	slices.SortStableFunc(tallies, func(a, b tally) int {
		return cmp.Or(cmp.Compare(b.flights, a.flights), cmp.Compare(thrustOf(a.power), thrustOf(b.power)), cmp.Compare(b.points, a.points))
	})
	var others []string
	for i := 1; i < len(tallies); i++ {
		others = append(others, tallies[i].power)
	}
	if len(tallies) == 0 {
		return "", nil
	}
	return tallies[0].power, others
}

// flightNames lists the flights of sorted points.
func flightNames(points []Point) []string {
	var names []string
	for _, p := range points {
		if !slices.Contains(names, p.Flight) {
			names = append(names, p.Flight)
		}
	}
	slices.Sort(names)
	return names
}

// groupFlights cuts sorted points into flights; a flight flown at two CGs counts as two.
func groupFlights(points []Point) []flight {
	var out []flight
	for _, p := range points {
		last := len(out) - 1
		if last < 0 || out[last].name != p.Flight || p.CG-out[last].cg > sameCG {
			out = append(out, flight{name: p.Flight, cg: p.CG})
			last++
		}
		out[last].points = append(out[last].points, p)
		out[last].weight = append(out[last].weight, 1)
	}
	return out
}

// statedWeights sets each point's weight from its stated standard deviations, with slope dy/dCL to carry
// that of CL over. Weights have mean one, so that residuals keep their unit, and no point counts for more
// than four times the median: a stated error of nearly nothing is not believed.
func statedWeights(flights []flight, r relation) {
	for _, f := range flights {
		for j := range f.weight {
			f.weight[j] = 1
		}
	}
	slope := plainSlope(flights, r)
	var variances []float64
	for _, f := range flights {
		for _, p := range f.points {
			variances = append(variances, square(positive(r.responseSD(p)))+square(slope*positive(p.LiftSD)))
		}
	}
	if len(variances) == 0 || slices.Min(variances) <= 0 {
		return
	}
	floor := median(variances) / 4
	sum := 0.0
	for i, v := range variances {
		variances[i] = 1 / math.Max(v, floor)
		sum += variances[i]
	}
	next := 0
	for _, f := range flights {
		for j := range f.points {
			f.weight[j] = variances[next] * float64(len(variances)) / sum
			next++
		}
	}
}

// plainSlope is dy/dCL inside flights, all flights alike; 0 where nothing spans any lift.
func plainSlope(flights []flight, r relation) float64 {
	sxx, sxy := 0.0, 0.0
	for _, f := range flights {
		l := flightLine(f, r)
		sxx += l.sxx
		sxy += l.sxy
	}
	if sxx == 0 {
		return 0
	}
	return sxy / sxx
}

// prepared is what every fit against CL starts from.
type prepared struct {
	lines    []line
	flights  []flight
	points   []Point // used, after the cut of the linear range
	power    string
	warnings []string
}

// prepare weighs the points, plays outliers down, keeps the linear range and draws each flight's own line.
func prepare(points []Point, r relation) prepared {
	kept, power, warnings := usable(points, func(p Point) []float64 { return []float64{p.Lift, r.response(p)} })
	out := prepared{power: power, warnings: warnings}
	flights := groupFlights(kept)
	statedWeights(flights, r)
	playDown(flights, r)
	flights, words := linearRange(flights, r)
	out.warnings = append(out.warnings, words...)
	statedWeights(flights, r)
	out.warnings = append(out.warnings, playDown(flights, r)...)
	out.flights = flights
	for _, f := range flights {
		out.points = append(out.points, f.points...)
		out.lines = append(out.lines, flightLine(f, r))
	}
	return out
}

// prepareStraight is prepare for flights of few points along a line that is straight as far as it is flown: no search for the linear range,
// and wild points are told by the slope of all flights.
func prepareStraight(points []Point, r relation) prepared {
	kept, power, warnings := usable(points, func(p Point) []float64 { return []float64{p.Lift, r.response(p)} })
	out := prepared{power: power, warnings: warnings, flights: groupFlights(kept), points: kept}
	statedWeights(out.flights, r)
	out.warnings = append(out.warnings, playDownTogether(out.flights, r)...)
	for _, f := range out.flights {
		out.lines = append(out.lines, flightLine(f, r))
	}
	return out
}

func square(x float64) float64 { return x * x }

// positive returns a standard deviation that can be used: 0 for one that is missing or senseless.
func positive(sd float64) float64 {
	if sd > 0 && !math.IsInf(sd, 0) {
		return sd
	}
	return 0
}

// median of at least one value; the argument stays as it is.
func median(values []float64) float64 {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func allFinite(values ...float64) bool { return statistic.Finite(values...) }
