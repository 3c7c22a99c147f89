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
	for _, p := range d.Panels {
		if err := p.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, p.Configuration, err)
		}
		x.add(p.Lift...)
		x.add(p.Fit.X...)
		y.add(p.Drag...)
		y.add(p.Fit.Y...)
		if len(p.Lift) == 0 {
			x.add(p.Lattice.X...)
			y.add(p.Lattice.Y...)
		}
	}
	xs, ys := niceAxis("lift coefficient CL, pure number", x, 6), niceAxis("drag coefficient CD, pure number", y, 6)
	var panels []curvePanel
	var fits, lattices []Curve
	var alt strings.Builder
	for _, p := range d.Panels {
		fits, lattices = append(fits, p.Fit), append(lattices, p.Lattice)
		panels = append(panels, p.panel(xs, ys))
		fmt.Fprintf(&alt, "%s: %s. ", p.Configuration, p.note()+"; "+pointsWords(len(p.Lift), p.Flights))
	}
	head := header{title: title, note: "From glides; lower and flatter is better.", key: curveKey("theory", fits, lattices)}
	return compose(title, alt.String(), paintTiles(head, 3, panels))
}

func (p PolarPanel) check() error {
	return checkCurves(p.Lift, p.Drag, p.Flights, p.Fit, p.Lattice, "zero-lift drag", p.ZeroLiftDrag)
}

func (p PolarPanel) note() string {
	if p.ZeroLiftDrag == nil {
		return "no fit"
	}
	return "drag at no lift " + p.ZeroLiftDrag.words(4)
}

func (p PolarPanel) panel(x, y axis) curvePanel {
	out := curvePanel{title: p.Configuration, notes: []string{p.note(), pointsWords(len(p.Lift), p.Flights)}, x: x, y: y}
	out.things = []plot.Plotter{
		bandOf{p.Fit, fitMark()},
		pointsOf{p.Lift, p.Drag, measuredMark(), 1.7},
		lineOf{p.Fit, fitMark()},
		lineOf{p.Lattice, predictedMark()},
		spokenPoints(p.Configuration, p.Flights, p.Lift, p.Drag, func(i int) string {
			return fmt.Sprintf("lift coefficient %s, drag coefficient %s", number(p.Lift[i], 3), number(p.Drag[i], 4))
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
