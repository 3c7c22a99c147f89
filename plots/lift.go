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
// angle of attack in X and lift coefficient in Y. A standard deviation of a test point is that of the point by itself: its bar holds
// no error that it shares with others, which belongs to the band of the fit.
type LiftPanel struct {
	Configuration string
	Alpha, Lift   []float64 // test points of all flights used
	AlphaSD       []float64 // of each test point by itself, rad; nil: not known
	LiftSD        []float64 // the same, of its lift coefficient
	Flights       []string  // the flight of each test point; nil: not known
	Fit           Curve     // fitted line with its 95 % band; no points: nothing fitted
	Lattice       Curve     // trimmed lattice line; no points: not computed
	Slope         *Interval // fitted trimmed slope, 1/rad
	LatticeSlope  *Interval // trimmed, 1/rad, with the stated error of the theory; a bare value states none
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
	var all []testPoints
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Configuration, err)
		}
		all = append(all, p.points())
		x.add(times(p.Alpha, degrees)...)
		y.add(p.Lift...)
		x.add(times(p.Fit.X, degrees)...)
		y.add(p.Fit.Y...)
		if len(p.Alpha) == 0 {
			x.add(times(p.Lattice.X, degrees)...)
			y.add(p.Lattice.Y...)
		}
	}
	reachBars(all, &x, &y)
	xs, ys := niceAxis("angle of attack, degrees", x, 6), niceAxis("lift coefficient CL, pure number", y, 6)
	var panels []curvePanel
	var fits, lattices []Curve
	var alt strings.Builder
	for _, p := range d.Panels {
		fits, lattices = append(fits, p.Fit), append(lattices, p.Lattice)
		panels = append(panels, p.panel(xs, ys))
		fmt.Fprintf(&alt, "%s: %s. ", p.Configuration, strings.Join(p.notes(), "; "))
	}
	head := header{title: title, note: curveNote("Slopes are per radian of angle of attack, elevator moving with it as in steady flight.", all, fits, lattices,
		"The line of theory has no band; the error of its slope, where stated, stands above."), key: curveKey("theory, trimmed", all, fits, lattices)}
	return compose(title, alt.String(), paintTiles(head, 3, panels))
}

// fitMark is the measured look with a heavier line, since test points lie under it.
func fitMark() mark { return markOf(disc{}, measuredInk, measuredBand, 1.6) }

func (p LiftPanel) check() error {
	if p.LatticeSlope != nil {
		if err := p.LatticeSlope.check(); err != nil {
			return fmt.Errorf("slope of theory: %w", err)
		}
	}
	return checkCurves(testPoints{p.Alpha, p.Lift, p.AlphaSD, p.LiftSD, p.Flights}, p.Fit, p.Lattice, "slope", p.Slope)
}

// points are the test points in the units of the axes.
func (p LiftPanel) points() testPoints {
	return testPoints{times(p.Alpha, degrees), p.Lift, times(p.AlphaSD, degrees), p.LiftSD, p.Flights}
}

func (p LiftPanel) notes() []string {
	var out []string
	if p.Slope != nil {
		out = append(out, "flights "+p.Slope.words(2))
	} else {
		out = append(out, "no fit")
	}
	if p.LatticeSlope != nil {
		out = append(out, "theory "+p.LatticeSlope.words(2))
	}
	return append(out, p.points().words())
}

func (p LiftPanel) panel(x, y axis) curvePanel {
	out := curvePanel{title: p.Configuration, notes: p.notes(), x: x, y: y}
	fit, lattice, points := p.Fit.scaled(degrees, 1), p.Lattice.scaled(degrees, 1), p.points()
	out.things = []plot.Plotter{
		bandOf{lattice, predictedMark()},
		bandOf{fit, fitMark()},
		barsOf{points},
		pointsOf{points.x, points.y, measuredMark(), dotSize},
		lineOf{fit, fitMark()},
		lineOf{lattice, predictedMark()},
		points.spoken(p.Configuration, func(i int) string {
			return fmt.Sprintf("%s°, CL %s", withOwn(points.x[i], half(points.xSD, i), 1), withOwn(points.y[i], half(points.ySD, i), 3))
		}),
		spokenCurve(fit, liftSaid(p.Configuration, "fit")),
		spokenCurve(lattice, liftSaid(p.Configuration, "theory")),
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
