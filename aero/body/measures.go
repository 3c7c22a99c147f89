package body

import (
	"math"
	"sort"
)

// Length is the distance from the first to the last station, m; 0 for a body without stations.
func (b Body) Length() float64 {
	if len(b.Stations) == 0 {
		return 0
	}
	return b.Stations[len(b.Stations)-1].X - b.Stations[0].X
}

// Volume is that of elliptic sections whose width and height run straight from station to station, m³:
// between two of them ∫ π/4·w·h dx = π/4·Δx·(2·w0·h0 + w0·h1 + w1·h0 + 2·w1·h1)/6.
func (b Body) Volume() float64 {
	sum := 0.0
	for i := 1; i < len(b.Stations); i++ {
		p, q := b.Stations[i-1], b.Stations[i]
		sum += (q.X - p.X) * (2*p.Width*p.Height + p.Width*q.Height + q.Width*p.Height + 2*q.Width*q.Height) / 6
	}
	return math.Pi / 4 * sum
}

// Fineness is the length over the diameter of the circle that has the area of the greatest elliptic
// section, √(width·height); 0 for a body without sections.
func (b Body) Fineness() float64 {
	area := 0.0
	for _, s := range b.Stations {
		area = math.Max(area, s.Width*s.Height)
	}
	if area == 0 {
		return 0
	}
	return b.Length() / math.Sqrt(area)
}

// AxisZ is the height of the body's axis above datum at x, m: straight between stations, level beyond the ends.
// A lattice is asked for the local flow there.
func (b Body) AxisZ(x float64) float64 { return b.section(x).Z }

// section interpolates the body at x; beyond the ends it returns the end station.
func (b Body) section(x float64) Station {
	n := len(b.Stations)
	if n == 0 {
		return Station{X: x}
	}
	i := sort.Search(n, func(i int) bool { return b.Stations[i].X >= x })
	switch i {
	case 0:
		return b.Stations[0]
	case n:
		return b.Stations[n-1]
	}
	p, q := b.Stations[i-1], b.Stations[i]
	t := (x - p.X) / (q.X - p.X)
	between := func(a, b float64) float64 { return a + t*(b-a) }
	return Station{X: x, Width: between(p.Width, q.Width), Height: between(p.Height, q.Height), Z: between(p.Z, q.Z)}
}

// greatest returns the largest width and the largest height, m.
func (b Body) greatest() (width, height float64) {
	for _, s := range b.Stations {
		width, height = math.Max(width, s.Width), math.Max(height, s.Height)
	}
	return width, height
}
