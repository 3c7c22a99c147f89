package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// conditionOptions are the flags that say in what flight condition the lattice is asked; empty means not given.
type conditionOptions struct {
	lift, alpha, cg, cgZ, density, mach, wake, ground string
	speed, loadFactor                                 string
	untrimmed, noGridError                            bool
}

// addState adds the flags of state and grid.
func (o *conditionOptions) addState(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.lift, "lift", "", fmt.Sprintf("lift `COEFFICIENT` of the whole aircraft (default %g)", prediction.Lift))
	f.StringVar(&o.alpha, "alpha-deg", "", "angle of attack of the datum x axis in `DEGREES` instead of a lift coefficient; nothing is trimmed")
	f.StringVar(&o.speed, "speed-kt", "", "equivalent airspeed in `KNOTS` instead of a lift coefficient: that of the gross mass follows")
	f.StringVar(&o.loadFactor, "load-factor", "", "`FACTOR` of a pull-up at that speed, pitch rate included (default 1, level)")
	f.BoolVar(&o.untrimmed, "untrimmed", false, "reach the lift coefficient with the controls neutral")
	f.StringVar(&o.cg, "cg-mm", "", "moment point, full-size `MILLIMETRES` aft of datum (default: mean of the CGs flown, else of the loadings)")
	f.StringVar(&o.cgZ, "cg-z-mm", "", "its height, full-size `MILLIMETRES` above datum (default: that of the empty aircraft)")
	f.StringVar(&o.density, "density", "", "`FACTOR` on the number of panels in each direction (default 1)")
	f.StringVar(&o.mach, "mach", "", "Mach `NUMBER`, by Prandtl and Glauert's rule (default 0, incompressible)")
	f.BoolVar(&o.noGridError, "no-grid-error", false, "leave the error of the grid out, for speed")
}

// addAir adds the flags of wakes and ground.
func (o *conditionOptions) addAir(c *cobra.Command) {
	c.Flags().StringVar(&o.wake, "wake", "", "`DIRECTION` of the wakes: body (along the body x axis) or stream (default body)")
	c.Flags().StringVar(&o.ground, "ground-mm", "", "height of the datum over level ground, full-size `MILLIMETRES` (default: free air)")
}

// condition is the flight condition in SI.
type condition struct {
	setup     prediction.Setup
	why       string // where the moment point comes from
	given     bool   // the moment point was asked for
	alongFlow bool   // wakes run along the stream
	ground    float64
	manoeuvre string   // speed and load factor in words; empty when nobody asked
	warnings  []string // about what was asked for
}

// Bounds of what the flags take: beyond them flow parts, or the machine does not hold the matrix.
const (
	mostLift     = 3
	mostAlphaDeg = 30
	mostMach     = 0.7
	mostDensity  = 3
	leastDensity = 0.25
)

// condition reads the flags; what is wrong goes to m.
func (o conditionOptions) condition(p *program.Program, m *mistakes) condition {
	if o.lift != "" && o.alpha != "" {
		m.add("--lift and --alpha-deg together: give the lift coefficient or the angle of attack; the other one follows")
	}
	lift := m.number("--lift", o.lift, prediction.Lift, -mostLift, mostLift, "write a lift coefficient such as 0.5")
	alpha := m.number("--alpha-deg", o.alpha, 0, -mostAlphaDeg, mostAlphaDeg, "write degrees such as 3")
	c := condition{setup: prediction.Setup{Lift: lift, Untrimmed: o.untrimmed, Grids: !o.noGridError}}
	if lift == 0 { // zero means the default there
		c.setup.Lift = math.SmallestNonzeroFloat64
	}
	if o.alpha != "" {
		rad := alpha * math.Pi / 180
		c.setup.Alpha = &rad
	}
	o.manoeuvre(p, &c, m)
	var err error
	if c.setup.Body, err = prediction.BodyOf(p); err != nil {
		m.add("%v", err)
	}
	const far = 1e6
	z := p.FullSize.EmptyZ.Value
	c.setup.CG = r3.Vec{
		X: m.number("--cg-mm", o.cg, 0, -far, far, "write full-size millimetres aft of datum such as 4030") / 1000,
		Z: m.number("--cg-z-mm", o.cgZ, 1000*z, -far, far, "write full-size millimetres above datum such as 150") / 1000,
	}
	c.given = o.cg != ""
	c.warnings = farPoint(p, o.cg, c.setup.CG.X)
	c.setup.Lattice.Density = m.number("--density", o.density, 1, leastDensity, mostDensity, "write a factor on the number of panels each way such as 1.5")
	c.setup.Lattice.Mach = m.number("--mach", o.mach, 0, 0, mostMach, "write a Mach number such as 0.3")
	switch strings.ToLower(strings.TrimSpace(o.wake)) {
	case "", "body":
	case "stream":
		c.alongFlow = true
	default:
		m.add("--wake: %q is no direction of the wakes; write body or stream", o.wake)
	}
	if o.ground != "" {
		c.ground = m.number("--ground-mm", o.ground, 0, 1, 1e6, "write the height of the datum over the ground in full-size millimetres such as 1200") / 1000
		if c.alongFlow {
			m.add("--wake stream with --ground-mm: over the ground the stream runs along it, and so do the wakes; leave --wake out")
		}
	}
	return c
}

// farPoint warns of a moment point off the aircraft, such as one given in metres.
func farPoint(p *program.Program, given string, x float64) []string {
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range p.Surfaces {
		for _, st := range s.Stations {
			low, high = math.Min(low, st.LeadingEdge.X), math.Max(high, st.TrailingEdge.X)
		}
	}
	if given == "" || (x >= low && x <= high) {
		return nil
	}
	return []string{fmt.Sprintf("--cg-mm %s lies off the aircraft, whose surfaces run from %.0f to %.0f mm aft of datum", given, 1000*low, 1000*high)}
}

// momentPoint finds the moment point where none was given. Without any CG in the folder it lies a tenth of the mean chord
// ahead of the neutral point of the baseline.
func (c *condition) momentPoint(p *program.Program) error {
	if c.given {
		c.why = "as asked"
		return nil
	}
	if x, ok := prediction.ReferenceCG(p); ok {
		c.setup.CG.X, c.why = x, "mean of the CGs flown, else of the loadings that fly"
		return nil
	}
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil {
		return usageError{err}
	}
	solution, err := lattice.Solve(baseline, lattice.Options{})
	if err != nil {
		return usageError{err}
	}
	c.setup.CG.X = solution.NeutralPoint(lattice.State{}) - 0.1*baseline.Reference.MeanChord
	c.why = "the folder knows no CG: a tenth of the mean chord ahead of the baseline's neutral point"
	return nil
}

// mistakes gathers what is wrong with a command line, so that all of it is told at once.
type mistakes struct{ lines []string }

func (m *mistakes) add(format string, args ...any) {
	m.lines = append(m.lines, fmt.Sprintf(format, args...))
}

// err is nil without mistakes.
func (m *mistakes) err() error {
	if len(m.lines) == 0 {
		return nil
	}
	return usagef("%s", strings.Join(m.lines, "\n"))
}

// number reads the value of a flag; usual stands where none was given or it is wrong.
func (m *mistakes) number(flag, text string, usual, low, high float64, right string) float64 {
	if text == "" {
		return usual
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	switch {
	case err != nil && strings.Count(text, ",") == 1:
		right = "write the decimal point as a point: " + strings.Replace(text, ",", ".", 1)
		fallthrough
	case err != nil || math.IsNaN(v) || math.IsInf(v, 0):
		m.add("%s: %q is not a number; %s", flag, text, right)
		return usual
	case v < low || v > high:
		m.add("%s: %s lies outside %s to %s; %s", flag, text, short(low), short(high), right)
		return usual
	}
	return v
}

// short writes a number as people type it.
func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
