package aerofoil

import "slices"

// along is the place of each point between the first (0) and the last (1), along the line that joins
// them; ok is false when the two lie together, as in a closed outline.
func along(points []Point) (places []float64, ok bool) {
	first, last := points[0], points[len(points)-1]
	dx, dy := last.X-first.X, last.Y-first.Y
	square, far := dx*dx+dy*dy, 0.0
	for _, p := range points {
		far = max(far, (p.X-first.X)*(p.X-first.X)+(p.Y-first.Y)*(p.Y-first.Y))
	}
	if square <= 0.25*far {
		return nil, false
	}
	places = make([]float64, len(points))
	for i, p := range points {
		places[i] = ((p.X-first.X)*dx + (p.Y-first.Y)*dy) / square
	}
	return places, true
}

// runsOnce tells whether the points run from one end to the other and not back, as those of a mean line.
func runsOnce(points []Point) bool {
	places, ok := along(points)
	return ok && slices.IsSorted(places)
}

// twoSides splits points that run along the chord, jump back by most of it and run along it again.
func twoSides(points []Point) (a, b []Point, ok bool) {
	places, ok := along(points)
	if !ok {
		return nil, nil, false
	}
	cut := 0
	for i := 1; i < len(places); i++ {
		if places[i] < places[i-1]-0.8 {
			if cut > 0 {
				return nil, nil, false
			}
			cut = i
		}
	}
	if cut < 2 || cut > len(points)-2 {
		return nil, nil, false
	}
	a, b = slices.Clone(points[:cut]), slices.Clone(points[cut:])
	if points[len(points)-1].X < points[0].X {
		slices.Reverse(a)
		slices.Reverse(b)
	}
	return a, b, true
}
