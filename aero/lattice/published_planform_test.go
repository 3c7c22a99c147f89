package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

const degreeOf = math.Pi / 180

// planformRow is a row of an own table of converged values, printed to three decimals.
type planformRow struct {
	name                      string
	aspect, taper, sweep      float64 // sweep of the leading edge, rad
	slope, centre, efficiency float64
}

const ownPlanforms = "own converged computation: ¼–¾ lattice of 6×20 and 12×40 panels a side, extrapolated"

// TestUnsweptPlanformsToThreeDecimals: without a kink at the root both lattices converge fast, and agree to the last
// printed digit; the tolerance is half of it and 0.0001 for the panels.
func TestUnsweptPlanformsToThreeDecimals(t *testing.T) {
	const tolerance = 0.0006
	for _, c := range []planformRow{
		{"rectangular 1", 1, 1, 0, 1.460, 0.167, 1.000},
		{"rectangular 2", 2, 1, 0, 2.474, 0.209, 0.999},
		{"rectangular 3", 3, 1, 0, 3.145, 0.225, 0.997},
		{"rectangular 4", 4, 1, 0, 3.612, 0.232, 0.994},
		{"rectangular 5", 5, 1, 0, 3.954, 0.236, 0.989},
		{"rectangular 6", 6, 1, 0, 4.215, 0.239, 0.984},
		{"rectangular 8", 8, 1, 0, 4.586, 0.242, 0.972},
		{"rectangular 10", 10, 1, 0, 4.839, 0.244, 0.960},
		{"rectangular 12", 12, 1, 0, 5.022, 0.245, 0.948},
		{"tapered 6", 6, 0.5, quarterSweep(6, 0.5, 0), 4.342, 0.240, 0.998},
		{"tapered 8", 8, 0.5, quarterSweep(8, 0.5, 0), 4.728, 0.244, 0.996},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solvedAt(t, plainWing(c.aspect, c.taper, c.sweep), 1)
			near(t, c.slope, slopeOf(s), tolerance, ownPlanforms)
			near(t, c.centre, centreOf(s), tolerance, ownPlanforms)
			near(t, c.efficiency, efficiencyOf(s), tolerance, ownPlanforms)
		})
	}
}

// TestSweptPlanforms: the kink of a swept root makes every lattice converge to first order only. At the default density
// 0.15 % of the slope and 0.002 of place and efficiency are left.
func TestSweptPlanforms(t *testing.T) {
	for _, c := range []planformRow{
		{"untapered 45°", 5, 1, 45 * degreeOf, 3.188, 0.174, 0.905},
		{"Warren 12", 2 * math.Sqrt2, 1.0 / 3, 53.54 * degreeOf, 2.749, 0.306, 0.992},
		{"c/4 30°", 6, 0.5, quarterSweep(6, 0.5, 30*degreeOf), 4.037, 0.252, 0.981},
		{"c/4 45°", 6, 0.5, quarterSweep(6, 0.5, 45*degreeOf), 3.518, 0.289, 0.955},
		{"c/4 45°, aspect ratio 4", 4, 0.6, quarterSweep(4, 0.6, 45*degreeOf), 3.140, 0.244, 0.966},
		{"c/4 25°, aspect ratio 10", 10, 0.4, quarterSweep(10, 0.4, 25*degreeOf), 4.704, 0.274, 0.984},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solvedAt(t, plainWing(c.aspect, c.taper, c.sweep), 1)
			near(t, c.slope, slopeOf(s), 0.005, ownPlanforms)
			near(t, c.centre, centreOf(s), 0.002, ownPlanforms)
			near(t, c.efficiency, efficiencyOf(s), 0.002, ownPlanforms)
		})
	}
}

// TestWarrenTwelveAgainstTheBenchmark: the published pair is 2.743 and −3.10 about the apex, over the average chord.
//
// At the default density ours stands off by less than its own error of discretisation (what halving the density
// changes: 0.0034 and 0.012). Extrapolated to infinite density it goes to 2.748 and −3.105, 0.2 % above the
// published figures, and the other converged lattice (2.749) stands with it: the benchmark looks like the value of
// a coarser method, and is kept for what it is.
func TestWarrenTwelveAgainstTheBenchmark(t *testing.T) {
	const source = "benchmark planform Warren 12, lifting-surface values (from memory)"
	pair := func(density float64) (slope, moment float64) {
		s := solvedAt(t, plainWing(2*math.Sqrt2, 1.0/3, 53.54*degreeOf), density)
		d := s.Derivatives(State{}, r3.Vec{})
		average := d.Reference.Area / d.Reference.Span
		return d.ByAlpha.Lift, d.ByAlpha.Pitch * d.Reference.MeanChord / average
	}
	slope, moment := pair(1)
	near(t, 2.743, slope, 0.0034, source)
	near(t, -3.10, moment, 0.012, source)
	coarseSlope, coarseMoment := pair(0.5)
	near(t, 2.749, 2*slope-coarseSlope, 0.002, ownPlanforms)
	near(t, -3.102, 2*moment-coarseMoment, 0.005, "own converged computation, 16×60 panels a side")
}

// TestCircularPlateConverges: 1.790 is the exact lifting-surface value. Bays of the inscribed polygon, lift over the area of the
// circle: 10 give 1.7882, 20 give 1.7898, 40 give 1.7903.
func TestCircularPlateConverges(t *testing.T) {
	const source = "circular plate: W. Kinner, Ingenieur-Archiv 8 (1937); P. F. Jordan, 1971 (from memory)"
	for _, c := range []struct {
		bays      int
		tolerance float64
	}{{10, 0.002}, {20, 0.0005}, {40, 0.0005}} {
		near(t, 1.790, slopeOf(solvedAt(t, ellipticWing(4/math.Pi, 0.5, c.bays), 1)), c.tolerance, source)
	}
}

// TestSlenderDeltaLimits: slope → πA/2 and centre → ⅔ of the root chord as the aspect ratio goes to zero. At a given one
// the lattice is short of both by about 0.25 A; two aspect ratios extrapolated reach the limit of the slope. The centre
// converges to first order in the density too, so it is extrapolated in both.
func TestSlenderDeltaLimits(t *testing.T) {
	const source = "R. T. Jones, NACA Report 835, 1946 (from memory)"
	delta := func(aspect, density float64) (slope, centre float64) {
		root := 4 / (aspect * 1.001) // the tip is a thousandth of the root
		s := solvedAt(t, plainWing(aspect, 0.001, math.Atan(root)), density)
		return slopeOf(s) / (math.Pi * aspect / 2), s.NeutralPoint(State{}) / root
	}
	wide, wideCentre := delta(0.05, 1)
	slim, slimCentre := delta(0.025, 1)
	near(t, 1, slim, 0.008, source)
	near(t, 1, 2*slim-wide, 0.001, source)
	_, wideCoarse := delta(0.05, 0.5)
	_, slimCoarse := delta(0.025, 0.5)
	require.Less(t, slimCentre, 2.0/3)
	near(t, 2.0/3, slimCentre, 0.007, source)
	near(t, 2.0/3, 2*(2*slimCentre-slimCoarse)-(2*wideCentre-wideCoarse), 0.001, source)
}
