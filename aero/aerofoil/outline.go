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
	Thickness float64 // largest, fraction of the chord
}

// Named is the section of a four-digit name.
func Named(name string) (Section, error) {
	f, err := ParseFourDigit(name)
	if err != nil {
		return Section{}, err
	}
	return Section{f.Name(), f, f.Thick}, nil
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
// ends, and scale and rotation of the points do not matter. The mean of upper and lower side at equal x is smoothed by a
// least-squares sum of six polynomials that vanish at both ends of the chord, so that its slope is
// free of the scatter of the points. An error says what is wrong with the points.
func FromOutline(name string, points []Point) (Section, error) {
	if err := checkPoints(name, points); err != nil {
		return Section{}, err
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
	return FromOutline(name, append(loop, b[1:]...))
}

func checkPoints(name string, points []Point) error {
	if len(points) < fewestPoints {
		return fmt.Errorf("aerofoil %q: the outline has %d points; give at least %d, from the trailing edge around the nose and back", name, len(points), fewestPoints)
	}
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
	tail, head := tailOf(points), points[nose]
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
		x := (1 - math.Cos(theta)) / 2
		for k := range cambers {
			z, _ := camber(k, x)
			rows.Set(i-1, k, z)
		}
	}
	var fit mat.VecDense
	if err := fit.SolveVec(rows, heights); err != nil {
		return Section{}, fmt.Errorf("aerofoil %q: fitting the mean line: %w", name, err)
	}
	return Section{name, smoothLine(fit.RawVector().Data), thickness}, nil
}

// newSide interpolates y of one side over θ; y is smooth in θ even at a round nose.
func newSide(name string, points []Point) (*interp.AkimaSpline, error) {
	var thetas, ys []float64
	for _, p := range points {
		theta := math.Acos(math.Min(1, math.Max(-1, 1-2*p.X)))
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

// camber is term k of a mean line, x (1 − x) T_k(1 − 2x) with Chebyshev's polynomials, and its slope.
func camber(k int, x float64) (z, slope float64) {
	theta := math.Acos(math.Min(1, math.Max(-1, 1-2*x)))
	t := math.Cos(float64(k) * theta)
	dt := -2 * float64(k) * sineRatio(k, theta) // T_k(1 − 2x) = cos kθ, dx = ½ sin θ dθ
	return x * (1 - x) * t, (1-2*x)*t + x*(1-x)*dt
}

// sineRatio is sin kθ/sin θ with its limits at both ends.
func sineRatio(k int, theta float64) float64 {
	sin := math.Sin(theta)
	switch {
	case math.Abs(sin) > 1e-8:
		return math.Sin(float64(k)*theta) / sin
	case theta < 1 || k%2 == 1:
		return float64(k)
	}
	return -float64(k)
}

// smoothLine holds the coefficients of the terms of camber.
type smoothLine []float64

// Height is z of the mean line at x, fractions of the chord.
func (l smoothLine) Height(x float64) float64 {
	sum := 0.0
	for k, c := range l {
		z, _ := camber(k, x)
		sum += c * z
	}
	return sum
}

// Slope is dz/dx at x.
func (l smoothLine) Slope(x float64) float64 {
	sum := 0.0
	for k, c := range l {
		_, slope := camber(k, x)
		sum += c * slope
	}
	return sum
}
