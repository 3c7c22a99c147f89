package loads

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Shorter extents than this count as none, and what lies this little inboard of a station counts as outboard, m.
const (
	noExtent = 1e-9
	atCut    = 1e-6
)

// part is a strip with its extent.
type part struct {
	aero.StripLoad
	line         r3.Vec  // from its inboard to its outboard edge along the quarter-chord line
	inner, outer float64 // its extent in y
}

// counted keeps the strips of the named surfaces and finds how far each reaches in y: half its
// width to both sides of its middle, leaning as the line from strip to strip does.
func counted(strips []aero.StripLoad, surfaces []string) []part {
	var parts []part
	for i, s := range strips {
		if !slices.Contains(surfaces, s.Surface) {
			continue
		}
		line := lineOf(strips, i, r3.Vec{Y: 1})
		half := math.Abs(line.Y) / 2
		parts = append(parts, part{s, line, s.Centre.Y - half, s.Centre.Y + half})
	}
	return parts
}

// lineOf is the quarter-chord line across strip i, as long in the y–z plane as the strip is wide. It runs as the
// neighbours on the same surface stand; a lone strip runs the way given, a unit vector.
func lineOf(strips []aero.StripLoad, i int, lone r3.Vec) r3.Vec {
	a, b := i, i
	if i > 0 && strips[i-1].Surface == strips[i].Surface {
		a = i - 1
	}
	if i+1 < len(strips) && strips[i+1].Surface == strips[i].Surface {
		b = i + 1
	}
	step := r3.Sub(strips[b].Centre, strips[a].Centre)
	length := math.Hypot(step.Y, step.Z)
	if length == 0 {
		return r3.Scale(strips[i].Width, lone)
	}
	return r3.Scale(strips[i].Width/length, step)
}

// outboardOf cuts something spread evenly over an extent (signed) about its middle: the share outboard of the
// cut, and how far the middle of that share lies from the whole one's, in fractions of the extent.
func outboardOf(cut, middle, extent float64) (share, shift float64) {
	half := math.Abs(extent) / 2
	inner, outer := middle-half, middle+half
	long := outer-inner > noExtent
	switch {
	case outer <= cut+noExtent && long || outer < cut-atCut:
		return 0, 0
	case inner < cut && long:
		return (outer - cut) / (outer - inner), ((cut+outer)/2 - middle) / extent
	}
	return 1, 0
}

// reaching keeps the parts that reach out in y (no winglet that stands up), sorted by the y of their middles.
func reaching(parts []part) []part {
	var out []part
	for _, p := range parts {
		if p.outer-p.inner >= 0.3*p.Width {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b part) int { return cmp.Compare(a.Centre.Y, b.Centre.Y) })
	return out
}

// heightAt is z of the middles of parts that reach out in y, sorted: linear between them, held at the ends.
func heightAt(sorted []part, y float64) float64 {
	if len(sorted) == 0 {
		return 0
	}
	last := sorted[0].Centre
	for _, p := range sorted {
		c := p.Centre
		if y < c.Y {
			if y <= last.Y {
				return last.Z
			}
			return last.Z + (c.Z-last.Z)*(y-last.Y)/(c.Y-last.Y)
		}
		last = c
	}
	return last.Z
}

// quarterChordAt is x of the quarter-chord line at y, on the line across the strip there; inboard of the first
// strip and outboard of the last one it holds their edges.
func quarterChordAt(sorted []part, y float64) float64 {
	if len(sorted) == 0 {
		return 0
	}
	at := sorted[len(sorted)-1]
	for _, p := range sorted {
		if y < p.outer {
			at = p
			break
		}
	}
	if math.Abs(at.line.Y) < noExtent {
		return at.Centre.X
	}
	t := (y - at.Centre.Y) / at.line.Y
	return at.Centre.X + at.line.X*math.Max(-0.5, math.Min(0.5, t))
}
