package aerofoil

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Bounds of the fit to the points of a mean line.
const (
	fewestLinePoints = 5
	mostTerms        = 10
	lineMiss         = 0.001 // largest distance of a point from the fit without a doubt, fraction of the chord
	endsMiss         = 0.002 // largest height of an end that keeps the unit chord
)

// MeanLineFromPoints is the section of a mean line that is given by points of its own, from the leading
// to the trailing edge or the other way round, x growing aft. Thickness is 0, unknown.
//
// The chord joins the two ends, so that scale and rotation do not matter; points on the unit chord whose ends are
// at 0 and 1 within 1 % keep that chord. The slope is that of a least-squares sum of smooth polynomials
// that vanish at both ends; their number, up to ten, is the smallest that generalised cross-validation
// bears out, and never more than the widest gap between points can carry. Doubt names the worst point
// when the fit passes it by more than 0.1 % of the chord.
//
// An error says what is wrong with the points: too few, not a number, a closed outline, x that turns
// back, a rise at the nose as of one side of an outline.
//
// Source of the choice of terms: P. Craven, G. Wahba, Smoothing noisy data with spline functions,
// Numerische Mathematik 31, 1979 (generalised cross-validation).
func MeanLineFromPoints(name string, points []Point) (Section, error) {
	line, err := lineOnChord(name, points)
	if err != nil {
		return Section{}, err
	}
	fit, worst, miss, err := fitLine(line)
	if err != nil {
		return Section{}, fmt.Errorf("aerofoil %q: fitting the mean line: %w", name, err)
	}
	section := Section{Name: name, Line: fit}
	if miss > lineMiss {
		section.Doubt = fmt.Sprintf("the smooth mean line passes the point at %.1f %% of the chord by %.2f %% of the chord; either it is a slip or the points there are too few",
			100*line[worst].X, 100*miss)
	}
	return section, nil
}

// lineOnChord checks the points and gives them on the unit chord, from the leading edge aft.
func lineOnChord(name string, points []Point) ([]Point, error) {
	wrong := func(format string, a ...any) ([]Point, error) {
		return nil, fmt.Errorf("aerofoil %q: %s", name, fmt.Sprintf(format, a...))
	}
	if len(points) < fewestLinePoints {
		return wrong("the mean line has %d points; give at least %d, from the leading to the trailing edge", len(points), fewestLinePoints)
	}
	if err := checkFinite(name, points); err != nil {
		return nil, err
	}
	if _, open := along(points); !open {
		return wrong("the points come back to where they began, as a closed outline does; read them as an outline, or give the mean line alone")
	}
	if _, _, two := twoSides(points); two {
		return wrong("the points run along the chord twice, as two sides of an outline do; read them as an outline, or give the mean line alone")
	}
	line := slices.Clone(points)
	first, last := line[0], line[len(line)-1]
	if last.X < first.X {
		slices.Reverse(line)
		first, last = last, first
	}
	if last.X-first.X < 0.5*math.Hypot(last.X-first.X, last.Y-first.Y) {
		return wrong("the mean line stands upright; x counts along the chord, y across it")
	}
	switch ends := math.Max(math.Abs(first.Y), math.Abs(last.Y)); {
	case math.Abs(first.X) < 0.01 && math.Abs(last.X-1) < 0.01 && ends < endsMiss:
	case first.X > 0.01 && first.X < 0.15 && last.X > 0.9 && last.X < 1.001:
		return wrong("the mean line begins at x = %.4g; give it from the leading edge (0) to the trailing edge (1)", first.X)
	default:
		line = ontoChord(line, first, last)
	}
	return checkRun(name, line)
}

// checkRun wants x to grow from point to point, and a rise at the nose that a mean line can have.
func checkRun(name string, line []Point) ([]Point, error) {
	kept := line[:1:1]
	for i, p := range line[1:] {
		before := kept[len(kept)-1]
		switch {
		case p == before:
			continue
		case p.X <= before.X:
			return nil, fmt.Errorf("aerofoil %q: x does not grow from %.4g to %.4g of the chord (point %d from the leading edge); order the points along the chord, each x once", name, before.X, p.X, i+2)
		case p.X < 0.02 && math.Abs(p.Y) > p.X && p.Y != 0 && p.X > 0:
			return nil, fmt.Errorf("aerofoil %q: the line rises by %.2g %% within the first %.2g %% of the chord, as one side of an outline does; give the mean of both sides, or the whole outline", name, 100*math.Abs(p.Y), 100*p.X)
		}
		kept = append(kept, p)
	}
	if len(kept) < fewestLinePoints {
		return nil, fmt.Errorf("aerofoil %q: only %d points differ; give at least %d", name, len(kept), fewestLinePoints)
	}
	return kept, nil
}

// fitLine is the smooth line with the fewest terms that cross-validation bears out, with the point that
// it passes at the largest distance.
func fitLine(line []Point) (fit smoothLine, worst int, miss float64, err error) {
	best := math.Inf(1)
	for terms := 1; terms <= termsFor(line); terms++ {
		next, nextErr := leastSquares(line, terms)
		if nextErr != nil {
			err = nextErr
			break
		}
		at, far, sum := distances(line, next)
		n := float64(len(line))
		free := 1 - float64(terms)/n
		score := sum / (free * free)
		if score < 0.9*best {
			best, fit, worst, miss = score, next, at, far
		}
		if sum < n*1e-18 { // the points are met to nine figures
			break
		}
	}
	if fit != nil {
		return fit, worst, miss, nil
	}
	return nil, 0, 0, err
}

// termsFor is how many terms the points can carry: term k has k half waves over θ, which the widest gap must not hide.
func termsFor(line []Point) int {
	widest, before := 0.0, 0.0
	for _, p := range line {
		theta := thetaOf(p.X)
		widest, before = math.Max(widest, theta-before), theta
	}
	widest = math.Max(widest, math.Pi-before)
	return max(1, min(mostTerms, len(line)-3, int(math.Pi/widest)))
}

func leastSquares(line []Point, terms int) (smoothLine, error) {
	rows, heights := mat.NewDense(len(line), terms, nil), mat.NewVecDense(len(line), nil)
	for i, p := range line {
		heights.SetVec(i, p.Y)
		for k := range terms {
			z, _ := camber(k, p.X)
			rows.Set(i, k, z)
		}
	}
	var fit mat.VecDense
	if err := fit.SolveVec(rows, heights); err != nil {
		return nil, err
	}
	return smoothLine(fit.RawVector().Data), nil
}

// distances gives the point farthest above or below the line, its distance, and the sum of squares.
func distances(line []Point, fit smoothLine) (worst int, far, sum float64) {
	for i, p := range line {
		d := math.Abs(p.Y - fit.Height(p.X))
		sum += d * d
		if d > far {
			worst, far = i, d
		}
	}
	return worst, far, sum
}
