package loads

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// SpreadByChord spreads a mass, kg, that belongs to the right half of the named surfaces over their strips
// by chord times width: the mass of a skin of even weight. It lies at a fraction of the chord aft of the leading
// edge, common for wood and composite wings 0.40 to 0.45 (from memory), and is spread evenly across each strip.
//
// An error names what does not fit: a mass that is negative or no number, or no strip on these surfaces.
func SpreadByChord(mass float64, strips []aero.StripLoad, surfaces []string, chordFraction float64) ([]PointMass, error) {
	parts := counted(strips, surfaces)
	area, err := areaFor(mass, parts, strips, surfaces)
	if err != nil {
		return nil, err
	}
	out := make([]PointMass, len(parts))
	for i, p := range parts {
		out[i] = PointMass{At: p.onChord(p.Centre, chordFraction), Mass: mass * p.Chord * p.Width / area, Extent: p.line}
	}
	return out, nil
}

// SpreadBetween spreads a mass, kg, such as the fuel of the right half, evenly per metre of y between two
// stations along the named surfaces, at a fraction of the chord aft of the leading edge.
//
// An error names what does not fit: a mass that is negative or no number, stations that do not rise, or strips
// that do not cover the stretch exactly once (to 1 %).
func SpreadBetween(mass float64, strips []aero.StripLoad, surfaces []string, from, to, chordFraction float64) ([]PointMass, error) {
	parts := counted(strips, surfaces)
	if _, err := areaFor(mass, parts, strips, surfaces); err != nil {
		return nil, err
	}
	if !(to > from) {
		return nil, fmt.Errorf("spreading %.4g kg between y = %.4g m and %.4g m: the second station has to lie outboard of the first", mass, from, to)
	}
	var out []PointMass
	covered := 0.0
	for _, p := range parts {
		a, b := math.Max(p.inner, from), math.Min(p.outer, to)
		if p.outer-p.inner <= noExtent || b <= a {
			continue
		}
		share := (b - a) / (p.outer - p.inner)
		middle := r3.Add(p.Centre, r3.Scale(((a+b)/2-p.Centre.Y)/p.line.Y, p.line))
		out = append(out, PointMass{At: p.onChord(middle, chordFraction), Mass: b - a, Extent: r3.Scale(share, p.line)})
		covered += b - a
	}
	if math.Abs(covered-(to-from)) > 0.01*(to-from) {
		return nil, fmt.Errorf("spreading %.4g kg between y = %.4g m and %.4g m: the strips of %q cover %.4g m of it; they have to cover it exactly once", mass, from, to, surfaces, covered)
	}
	for i := range out {
		out[i].Mass *= mass / covered
	}
	return out, nil
}

// AtCentroid puts a mass, kg, such as a winglet's, at the centroid of a surface's area on the right half, at a
// fraction of the chord aft of the leading edge of every strip.
//
// An error names what does not fit, as in SpreadByChord.
func AtCentroid(mass float64, strips []aero.StripLoad, surface string, chordFraction float64) (PointMass, error) {
	parts := counted(strips, []string{surface})
	area, err := areaFor(mass, parts, strips, []string{surface})
	if err != nil {
		return PointMass{}, err
	}
	out := PointMass{Mass: mass}
	for _, p := range parts {
		out.At = r3.Add(out.At, r3.Scale(p.Chord*p.Width/area, p.onChord(p.Centre, chordFraction)))
	}
	return out, nil
}

// onChord moves a point of the quarter-chord line to a fraction of the chord.
func (p part) onChord(at r3.Vec, fraction float64) r3.Vec {
	at.X += (fraction - 0.25) * p.Chord
	return at
}

// areaFor is the area of the parts, m², or an error when they cannot carry a mass.
func areaFor(mass float64, parts []part, strips []aero.StripLoad, surfaces []string) (float64, error) {
	if !(mass >= 0) || math.IsInf(mass, 1) {
		return 0, fmt.Errorf("spreading a mass over %q: %.4g kg is no mass; give kilograms, zero or more", surfaces, mass)
	}
	area := 0.0
	for _, p := range parts {
		area += p.Chord * p.Width
	}
	if !(area > 0) {
		return 0, fmt.Errorf("spreading %.4g kg: no strip with an area belongs to %q; the strips are of %q", mass, surfaces, surfacesOf(strips))
	}
	return area, nil
}

// surfacesOf names the surfaces of strips in their order.
func surfacesOf(strips []aero.StripLoad) []string {
	var names []string
	for _, s := range strips {
		if !slices.Contains(names, s.Surface) {
			names = append(names, s.Surface)
		}
	}
	return names
}
