package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot"
)

// DragPolarData is the drag polar of every configuration with power-off points.
type DragPolarData struct {
	Title  string // empty: "Drag polars, propeller drag excluded"
	Panels []PolarPanel
}

// PolarPanel is one configuration; Fit and Lattice hold lift coefficient in X and drag coefficient in Y.
type PolarPanel struct {
	Configuration string
	Lift, Drag    []float64 // test points, coefficients
	LiftSD        []float64 // standard deviation of the lift coefficient of each test point by itself; nil: not known
	DragSD        []float64 // the same, of its drag coefficient
	Flights       []string  // the flight of each test point; nil: not known
	Fit           Curve
	Lattice       Curve     // induced drag of the lattice plus stated profile drag; no points: not computed
	ZeroLiftDrag  *Interval // coefficient at CL 0
}

// DragPolar draws a panel per configuration: drag coefficient over lift coefficient with the fitted
// parabola and its band.
//
// A panel without points says so; no panels at all is ErrNoData.
func DragPolar(d DragPolarData) (Figure, error) {
	title := or(d.Title, "Drag polars, propeller drag excluded")
	if len(d.Panels) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	x, y := emptySpan(), emptySpan()
	y.add(0)
	var all []testPoints
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Configuration, err)
		}
		all = append(all, p.points())
		x.add(p.Lift...)
		x.add(p.Fit.X...)
		y.add(p.Drag...)
		y.add(p.Fit.Y...)
		if len(p.Lift) == 0 {
			x.add(p.Lattice.X...)
			y.add(p.Lattice.Y...)
		}
	}
	reachBars(all, &x, &y)
	xs, ys := niceAxis("lift coefficient CL, pure number", x, 6), niceAxis("drag coefficient CD, pure number", y, 6)
	var panels []curvePanel
	var fits, lattices []Curve
	var alt strings.Builder
	for _, p := range d.Panels {
		fits, lattices = append(fits, p.Fit), append(lattices, p.Lattice)
		panels = append(panels, p.panel(xs, ys))
		fmt.Fprintf(&alt, "%s: %s. ", p.Configuration, p.note()+"; "+p.points().words())
	}
	head := header{title: title, note: curveNote("From glides; lower and flatter is better.", all, fits, lattices,
		"The line of theory has no band: its error is not stated."), key: curveKey("theory", all, fits, lattices)}
	return compose(title, alt.String(), paintTiles(head, 3, panels))
}

func (p PolarPanel) check() error {
	return checkCurves(p.points(), p.Fit, p.Lattice, "zero-lift drag", p.ZeroLiftDrag)
}

func (p PolarPanel) points() testPoints {
	return testPoints{p.Lift, p.Drag, p.LiftSD, p.DragSD, p.Flights}
}

func (p PolarPanel) note() string {
	if p.ZeroLiftDrag == nil {
		return "no fit"
	}
	return "drag at no lift " + p.ZeroLiftDrag.words(4)
}

func (p PolarPanel) panel(x, y axis) curvePanel {
	out := curvePanel{title: p.Configuration, notes: []string{p.note(), p.points().words()}, x: x, y: y}
	points := p.points()
	out.things = []plot.Plotter{
		bandOf{p.Lattice, predictedMark()},
		bandOf{p.Fit, fitMark()},
		barsOf{points},
		pointsOf{p.Lift, p.Drag, measuredMark(), dotSize},
		lineOf{p.Fit, fitMark()},
		lineOf{p.Lattice, predictedMark()},
		points.spoken(p.Configuration, func(i int) string {
			return fmt.Sprintf("CL %s, CD %s", withOwn(p.Lift[i], half(p.LiftSD, i), 3), withOwn(p.Drag[i], half(p.DragSD, i), 4))
		}),
		spokenCurve(p.Fit, p.said("fit")),
		spokenCurve(p.Lattice, p.said("theory")),
	}
	if len(p.Lift) == 0 {
		out.empty = "no glides with the propeller at idle: no drag points"
	}
	return out
}

func (p PolarPanel) said(of string) func(float64, Interval) string {
	return func(x float64, y Interval) string {
		return said(of+" "+computed(y, 4), p.Configuration, "drag coefficient at lift coefficient "+number(x, 2))
	}
}
