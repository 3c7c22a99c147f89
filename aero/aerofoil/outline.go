package aerofoil

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
)

// Point is a point of an outline, fractions of the chord or any other unit of length.
type Point struct{ X, Y float64 }

// Section is a mean line with a thickness.
type Section struct {
	Name      string
	Line      aero.MeanLine
	Thickness float64 // largest, fraction of the chord; 0 when unknown
	Doubt     string  // what may not be as meant, in words; empty when nothing is
}

// Named is the section of a four-digit name; Line is set even when it is flat. ParseNACA reads five digits too.
func Named(name string) (Section, error) {
	f, err := ParseFourDigit(name)
	if err != nil {
		return Section{}, err
	}
	return Section{Name: f.Name(), Line: f, Thickness: f.Thick}, nil
}

// Sizes of the fit to an outline.
const (
	fewestPoints = 10
	outlineSteps = 100 // samples of θ between leading and trailing edge
	cambers      = 6   // terms of the mean line
)

// FromOutline is the section of a closed outline: points from the trailing edge over the upper side to
// the leading edge and back along the lower side (or the other way round).
//
// Points that are drawn on the unit chord, nose at (0, 0) and trailing edge at (1, 0) within 1 %, keep
// that chord. Otherwise it runs from the point farthest from the trailing edge to the middle of the two
// ends, and scale and a rotation of up to 60° do not matter; on a thick cambered section this longest
// chord is not quite that of the name (0.6° for a 4421). Two sides one after the other, each from the
// leading to the trailing edge, are read as such.
//
// The mean line is a least-squares sum of six polynomials that vanish at both ends of the chord, so that
// its slope is free of the scatter of the points; thickness stands upright on it. Drawn on the unit
// chord, four-digit sections agree with their names within 0.04° of zero-lift angle and 0.001 of
// moment; five-digit ones, whose nose bends harder, within 0.13° and 0.004.
//
// An error says what is wrong with the points: a mean line in place of an outline, a start at the nose,
// too few points.
func FromOutline(name string, points []Point) (Section, error) {
	if err := checkPoints(name, points); err != nil {
		return Section{}, err
	}
	if a, b, two := twoSides(points); two {
		return FromHalves(name, a, b)
	}
	return fromLoop(name, points)
}

// fromLoop is FromOutline for one closed run of points.
func fromLoop(name string, points []Point) (Section, error) {
	if err := checkPoints(name, points); err != nil {
		return Section{}, err
	}
	if runsOnce(points) {
		return Section{}, fmt.Errorf("aerofoil %q: the points run once from end to end, like a mean line or a single side; an outline runs from the trailing edge around the nose and back", name)
	}
	nose, err := noseOf(name, points)
	if err != nil {
		return Section{}, err
	}
	p := points
	if !onUnitChord(points, nose) {
		p = toChord(points, nose)
	}
	first, second := slices.Clone(p[:nose+1]), slices.Clone(p[nose:])
	slices.Reverse(first)
	return fromSides(name, first, second)
}

// FromHalves is the section of two sides, each from the leading to the trailing edge, upper side
// first or second.
func FromHalves(name string, a, b []Point) (Section, error) {
	if len(a) < 2 || len(b) < 2 {
		return Section{}, fmt.Errorf("aerofoil %q: a side has fewer than two points; give both from the leading to the trailing edge", name)
	}
	loop := slices.Clone(a)
	slices.Reverse(loop)
	if gap := math.Hypot(a[0].X-b[0].X, a[0].Y-b[0].Y); gap > 0 {
		loop = append(loop, Point{(a[0].X + b[0].X) / 2, (a[0].Y + b[0].Y) / 2})
	}
	return fromLoop(name, append(loop, b[1:]...))
}

func checkPoints(name string, points []Point) error {
	if len(points) < fewestPoints {
		return fmt.Errorf("aerofoil %q: the outline has %d points; give at least %d, from the trailing edge around the nose and back", name, len(points), fewestPoints)
	}
	return checkFinite(name, points)
}

func checkFinite(name string, points []Point) error {
	for i, p := range points {
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			return fmt.Errorf("aerofoil %q: point %d is not a number", name, i+1)
		}
	}
	return nil
}

// noseOf is the index of the point farthest from the trailing edge, the middle of both ends.
func noseOf(name string, points []Point) (int, error) {
	tail := tailOf(points)
	nose, far := 0, 0.0
	for i, p := range points {
		if d := math.Hypot(p.X-tail.X, p.Y-tail.Y); d > far {
			nose, far = i, d
		}
	}
	last := points[len(points)-1]
	open := math.Hypot(points[0].X-last.X, points[0].Y-last.Y)
	if nose < 3 || nose > len(points)-4 || open > 0.1*far {
		return 0, fmt.Errorf("aerofoil %q: the points do not run from the trailing edge around the nose and back to the trailing edge; order them so", name)
	}
	if tail.X-points[nose].X < 0.5*far {
		return 0, fmt.Errorf("aerofoil %q: the points begin and end at the forward end of the outline; begin at the trailing edge, with x growing aft", name)
	}
	return nose, nil
}

func tailOf(points []Point) Point {
	a, b := points[0], points[len(points)-1]
	return Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
}

// onUnitChord tells whether the points are drawn with the nose at (0, 0) and the trailing edge at (1, 0).
func onUnitChord(points []Point, nose int) bool {
	tail, head := tailOf(points), points[nose]
	return math.Abs(tail.X-1) < 0.01 && math.Abs(tail.Y) < 0.01 && math.Abs(head.X) < 0.01 && math.Abs(head.Y) < 0.03
}

// toChord turns and scales the points so that the chord runs from (0, 0) to (1, 0).
func toChord(points []Point, nose int) []Point {
	return ontoChord(points, points[nose], tailOf(points))
}

// ontoChord turns and scales the points so that head falls on (0, 0) and tail on (1, 0).
func ontoChord(points []Point, head, tail Point) []Point {
	dx, dy := tail.X-head.X, tail.Y-head.Y
	square := dx*dx + dy*dy
	out := make([]Point, len(points))
	for i, p := range points {
		x, y := p.X-head.X, p.Y-head.Y
		out[i] = Point{(x*dx + y*dy) / square, (y*dx - x*dy) / square}
	}
	return out
}

// fromSides fits the mean line to both sides, each from the nose aft.
//
// Half thickness t stands upright on the mean line z, so that the mean of both sides at equal x is
// z + t t′ z′ to second order in t (Taylor); the sum keeps that term, which rules near a round nose.
func fromSides(name string, a, b []Point) (Section, error) {
	sideA, err := newSide(name, a)
	if err != nil {
		return Section{}, err
	}
	sideB, err := newSide(name, b)
	if err != nil {
		return Section{}, err
	}
	rows := mat.NewDense(outlineSteps-1, cambers, nil)
	heights := mat.NewVecDense(outlineSteps-1, nil)
	thickness := 0.0
	for i := 1; i < outlineSteps; i++ {
		theta := math.Pi * float64(i) / outlineSteps
		ya, yb := sideA.Predict(theta), sideB.Predict(theta)
		thickness = math.Max(thickness, math.Abs(ya-yb))
		heights.SetVec(i-1, (ya+yb)/2)
		lean := (ya - yb) * (sideA.PredictDerivative(theta) - sideB.PredictDerivative(theta)) / (2 * math.Sin(theta))
		x := (1 - math.Cos(theta)) / 2
		for k := range cambers {
			z, slope := camber(k, x)
			rows.Set(i-1, k, z+lean*slope)
		}
	}
	var fit mat.VecDense
	if err := fit.SolveVec(rows, heights); err != nil {
		return Section{}, fmt.Errorf("aerofoil %q: fitting the mean line: %w", name, err)
	}
	return Section{Name: name, Line: smoothLine(fit.RawVector().Data), Thickness: thickness}, nil
}

// newSide interpolates y of one side over θ; y is smooth in θ even at a round nose.
func newSide(name string, points []Point) (*interp.AkimaSpline, error) {
	var thetas, ys []float64
	for _, p := range points {
		theta := thetaOf(p.X)
		if n := len(thetas); n > 0 && theta <= thetas[n-1]+1e-9 {
			if theta < thetas[n-1]-0.05 {
				return nil, fmt.Errorf("aerofoil %q: a side runs forward near %.1f %% of the chord; order the points along the outline", name, 100*p.X)
			}
			continue
		}
		thetas, ys = append(thetas, theta), append(ys, p.Y)
	}
	if last := len(thetas) - 1; thetas[last] < math.Pi {
		thetas, ys = append(thetas, math.Pi), append(ys, ys[last])
	}
	var side interp.AkimaSpline
	if err := side.Fit(thetas, ys); err != nil {
		return nil, fmt.Errorf("aerofoil %q: a side has too few points: %w", name, err)
	}
	return &side, nil
}
