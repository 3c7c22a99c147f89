package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// publishedPolar is the drag polar of a light aircraft in the open textbook "Aircraft Flight Mechanics", file
// CessnaDragPolar.csv, its first seven points by increasing CL; each stands for a flight.
func publishedPolar() []Point {
	lift := []float64{-0.09219, 0.1454, 0.38303, 0.62380, 0.86305, 1.09772, 1.31082}
	drag := []float64{0.035185, 0.033099, 0.035214, 0.041961, 0.051143, 0.064192, 0.080106}
	var points []Point
	for i := range lift {
		points = append(points, Point{Flight: fmt.Sprintf("F%d", i), Lift: lift[i], Drag: drag[i], HasDrag: true, Power: idlePower})
	}
	return points
}

// The coefficients are ordinary least squares on the published points, by the normal equations.
func TestDragPolarPrefersTheOffsetParabola(t *testing.T) {
	const source = "Aircraft Flight Mechanics (open textbook), least squares of its polar"
	cd0, k, least := DragPolar(publishedPolar(), Systematics{}, nil)
	near(t, *cd0.Value, 0.03393627, 5e-9, source)
	near(t, *k.Value, 0.03365190, 5e-9, source)
	near(t, *least.Value, 0.134192, 5e-7, source)
	near(t, *cd0.Value-*k.Value*square(*least.Value), 0.0333303, 5e-8, source)
	near(t, cd0.Degrees, 4, 0, "7 flights, 3 parameters")
	require.Contains(t, cd0.Method, "offset")
	g := prepareGlides(publishedPolar())
	offset, err := g.general(1, 0, true)
	require.NoError(t, err)
	plain, err := g.general(1, 0, false)
	require.NoError(t, err)
	near(t, offset.ResidualSD, 0.000391692, 5e-10, source) // recomputed in exact fractions
	near(t, plain.ResidualSD, 0.00160613, 5e-9, source)
	near(t, plain.Coefficients[0], 0.03238094, 5e-9, source)
	near(t, plain.Coefficients[1], 0.02698275, 5e-9, source)
}

func TestDragPolarWithoutOffsetKeepsTheDoubtOfOne(t *testing.T) {
	a := canard()
	a.liftMin = 0
	points := a.programme(rand.New(rand.NewPCG(8, 2)), 5, []float64{2.3}, errors1())
	cd0, _, least := DragPolar(points, Systematics{GlideVertical: 0.2}, nil)
	require.Contains(t, cd0.Method, "do not support an offset")
	require.Zero(t, *least.Value)
	require.Equal(t, Weak, least.State)
	require.LessOrEqual(t, *least.Low, 0.0)
	require.GreaterOrEqual(t, *least.High, 0.0)
	require.LessOrEqual(t, *cd0.Low, a.drag(0))
	require.GreaterOrEqual(t, *cd0.High, a.drag(0))
}

func TestDragPolarSystematics(t *testing.T) {
	points := exact(canard(), 5, []float64{2.3})
	s := Systematics{AirspeedScale: 0.01, Mass: 0.02}
	cd0, k, _ := DragPolar(points, s, nil)
	const e = 1e-5 // two roads: move what was reported, and fit again
	moved := append([]Point(nil), points...)
	for i := range moved {
		moved[i].Lift *= math.Pow(1+e*s.AirspeedScale, -2)
		moved[i].Drag *= math.Pow(1+e*s.AirspeedScale, -3)
	}
	cd0Moved, kMoved, _ := DragPolar(moved, Systematics{}, nil)
	near(t, (*cd0Moved.Value-*cd0.Value)/e, cd0.Common[SourceAirspeedScale], 1e-6, "refit")
	near(t, (*kMoved.Value-*k.Value)/e, k.Common[SourceAirspeedScale], 1e-6, "refit")
	near(t, cd0.Common[SourceMass], 0.02**cd0.Value, 1e-12, "CD goes with mass")
	near(t, k.Common[SourceMass], -0.02**k.Value, 1e-12, "CD/CL² goes with the inverse of mass")
}

func TestDragPolarSaysWhenVerticalAirWasWorse(t *testing.T) {
	e := errors1()
	e.vertical = 1.5
	points := canard().programme(rand.New(rand.NewPCG(4, 4)), 6, []float64{2.3}, e)
	cd0, _, _ := DragPolar(points, Systematics{GlideVertical: 0.1}, nil)
	require.Contains(t, strings.Join(cd0.Warnings, "\n"), "more than the stated vertical air")
}

func TestDragPolarPowerOnPointsStayOut(t *testing.T) {
	points := publishedPolar()
	for i := range points {
		points[i].Power = "level"
	}
	cd0, k, least := DragPolar(points, Systematics{}, nil)
	for _, r := range []Result{cd0, k, least} {
		require.Equal(t, NotDetermined, r.State)
		require.Zero(t, r.Points)
	}
}

func TestSpanEfficiency(t *testing.T) {
	_, k, _ := DragPolar(publishedPolar(), Systematics{}, nil)
	e := SpanEfficiency(k, 7.5)
	near(t, *e.Value, 1/(math.Pi*7.5*0.03365190), 1e-6, "definition")
	near(t, *e.Low, 1/(math.Pi*7.5**k.High), 1e-12, "definition")
	require.Equal(t, NotDetermined, SpanEfficiency(k, 0).State)
}
