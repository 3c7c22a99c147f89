package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
)

const degrees = 180 / math.Pi

// LiftCurvesData is the trimmed lift curve of every flown configuration.
type LiftCurvesData struct {
	Title  string // empty: "Lift curves, trimmed"
	Panels []LiftPanel
}

// LiftPanel is one configuration. Alpha is in radians, lift is the lift coefficient; Fit and Lattice hold
// angle of attack in X and lift coefficient in Y.
type LiftPanel struct {
	Configuration string
	Alpha, Lift   []float64 // test points of all flights used
	Flights       []string  // the flight of each test point; nil: not known
	Fit           Curve     // fitted line with its 95 % band; no points: nothing fitted
	Lattice       Curve     // trimmed lattice line; no points: not computed
	Slope         *Interval // fitted trimmed slope, 1/rad
	LatticeSlope  *float64  // trimmed, 1/rad
}

// LiftCurves draws a panel per configuration: test points, the fitted line with its band, and the
// trimmed line of the lattice, like for like.
//
// A panel without points says so; no panels at all is ErrNoData.
func LiftCurves(d LiftCurvesData) (Figure, error) {
	title := or(d.Title, "Lift curves, trimmed")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	x, y := emptySpan(), emptySpan()
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Configuration, err)
		}
		x.add(times(p.Alpha, degrees)...)
		y.add(p.Lift...)
		x.add(times(p.Fit.X, degrees)...)
		y.add(p.Fit.Y...)
		if len(p.Alpha) == 0 {
			x.add(times(p.Lattice.X, degrees)...)
			y.add(p.Lattice.Y...)
		}
	}
	xs, ys := niceAxis("angle of attack, degrees", x, 6), niceAxis("lift coefficient CL, pure number", y, 6)
	var panels []curvePanel
	var fits, lattices []Curve
	var alt strings.Builder
	for _, p := range d.Panels {
		fits, lattices = append(fits, p.Fit), append(lattices, p.Lattice)
		panels = append(panels, p.panel(xs, ys))
		fmt.Fprintf(&alt, "%s: %s. ", p.Configuration, strings.Join(p.notes(), "; "))
	}
	head := header{title: title, note: "Slopes are per radian of angle of attack, elevator moving with it as in steady flight. The band holds errors that all points share.", key: curveKey("theory, trimmed", fits, lattices)}
	return compose(title, alt.String(), paintTiles(head, 3, panels))
}

// curveKey explains points, fit with its band and the line of theory, each where some panel has it.
func curveKey(theory string, fits, lattices []Curve) []keyEntry {
	fit := lineKey("fit", fitMark(), false)
	for _, f := range fits {
		if f.Low != nil {
			fit = lineKey("fit with 95 % band", fitMark(), true)
		}
	}
	key := []keyEntry{pointKey("test points", measuredMark()), fit}
	for _, l := range lattices {
		if len(l.X) > 0 {
			return append(key, lineKey(theory, predictedMark(), false))
		}
	}
	return key
}

// fitMark is the measured look with a heavier line, since test points lie under it.
func fitMark() mark { return markOf(disc{}, measuredInk, measuredBand, 1.6) }

func (p LiftPanel) check() error {
	return checkCurves(p.Alpha, p.Lift, p.Flights, p.Fit, p.Lattice, "slope", p.Slope)
}

// checkCurves checks what a panel of test points, fit and theory holds; named is the number in its note, or nil.
func checkCurves(x, y []float64, flights []string, fit, lattice Curve, name string, named *Interval) error {
	if err := checkSeries("test points", x, y); err != nil {
		return err
	}
	if flights != nil && len(flights) != len(x) {
		return fmt.Errorf("%d test points and %d flights; want the flight of each point, or none", len(x), len(flights))
	}
	if err := fit.check("fit"); err != nil {
		return err
	}
	if named != nil {
		if err := named.check(); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return lattice.check("lattice line")
}

func (p LiftPanel) notes() []string {
	var out []string
	if p.Slope != nil {
		out = append(out, "flights "+p.Slope.words(2))
	} else {
		out = append(out, "no fit")
	}
	if p.LatticeSlope != nil {
		out[0] += ", theory " + number(*p.LatticeSlope, 2)
	}
	return append(out, pointsWords(len(p.Alpha), p.Flights))
}

// pointsWords says how many test points there are, and of how many flights where that is known.
func pointsWords(n int, flights []string) string {
	if n == 0 {
		return "no test points"
	}
	seen := map[string]bool{}
	for _, f := range flights {
		seen[f] = true
	}
	return Sample{Points: n, Flights: len(seen)}.words()
}

// spokenPoints lets test points say their numbers, each with its flight where that is known.
func spokenPoints(name string, flights []string, x, y []float64, words func(i int) string) spoken {
	return spoken{x, y, func(i int) string {
		of := "test point"
		if flights != nil {
			of += " of " + flights[i]
		}
		return said(words(i), name, of)
	}}
}

func (p LiftPanel) panel(x, y axis) curvePanel {
	out := curvePanel{title: p.Configuration, notes: p.notes(), x: x, y: y}
	fit := p.Fit.scaled(degrees, 1)
	out.things = []plot.Plotter{
		bandOf{fit, fitMark()},
		pointsOf{times(p.Alpha, degrees), p.Lift, measuredMark(), 1.7},
		lineOf{fit, fitMark()},
		lineOf{p.Lattice.scaled(degrees, 1), predictedMark()},
		spokenPoints(p.Configuration, p.Flights, times(p.Alpha, degrees), p.Lift, func(i int) string {
			return fmt.Sprintf("%s°, lift coefficient %s", number(p.Alpha[i]*degrees, 1), number(p.Lift[i], 3))
		}),
		spokenCurve(fit, liftSaid(p.Configuration, "fit")),
		spokenCurve(p.Lattice.scaled(degrees, 1), liftSaid(p.Configuration, "theory")),
	}
	if len(p.Alpha) == 0 {
		out.empty = "no test points: not flown, or every flight left out"
	}
	return out
}

func liftSaid(configuration, of string) func(float64, Interval) string {
	return func(x float64, y Interval) string {
		return said(of+" "+computed(y, 3), configuration, "lift coefficient at "+number(x, 1)+"°")
	}
}

// computed writes a number of a curve; one without a band is bare, since the key says what it is.
func computed(i Interval, decimals int) string {
	if i.Low == i.High {
		return number(i.Value, decimals)
	}
	return i.words(decimals)
}
