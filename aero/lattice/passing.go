package lattice

import (
	"cmp"
	"math"
	"slices"

	"wingproof/aero"
)

// passing is the tip of a surface ahead whose wake runs past a surface behind within about a panel width.
type passing struct {
	y, gap float64 // m; gap is the height between the two
}

// passingPanels is the number of panels at density 1 that a surface spends on one passing tip, where the wash of the wake
// turns from down to up within the height between the two.
const passingPanels = 10

// nearTip is how close, in panels of mean width at density 1 of the surface behind, a wake passes that calls for such panels.
const nearTip = 2

// passings finds the tips that pass close over the chains of an airframe, by the name of the chain's first surface.
func passings(surfaces []aero.Surface, at []places, o Options) (map[string][]passing, error) {
	f, err := newField(o)
	if err != nil {
		return nil, err
	}
	out := make(map[string][]passing)
	runs := chains(surfaces, at)
	for i := range runs {
		front := &runs[i]
		tip := &front.bays[len(front.bays)-1]
		if front.central || tip.le1.Y < 1e-6 {
			continue
		}
		at := f.alongWake(f.stretched(aft(tip.le1, tip.chord[1])))
		for j := range runs {
			behind := &runs[j]
			if behind.group == front.group || behind.central {
				continue
			}
			z, x, ok := behind.heightAt(at.Y, &f)
			width := behind.length / float64(countFor(behind.bays, surfaces))
			if ok && x > at.X && math.Abs(z-at.Z) < nearTip*width {
				name := surfaces[behind.bays[0].surface].Name
				out[name] = append(out[name], passing{at.Y, math.Abs(z - at.Z)})
			}
		}
	}
	return out, nil
}

// heightAt is z and x of the chain's trailing edge at y, wake axes.
func (c *chain) heightAt(y float64, f *field) (z, x float64, ok bool) {
	for i := range c.bays {
		b := &c.bays[i]
		if t := (y - b.le0.Y) / (b.le1.Y - b.le0.Y); b.runsInY() && t >= 0 && t <= 1 {
			p := f.alongWake(f.stretched(aft(b.leadingEdge(t), b.chordAt(t))))
			return p.Z, p.X, true
		}
	}
	return 0, 0, false
}

// runsInY tells whether a bay runs in y rather than upright.
func (b *bay) runsInY() bool { return b.le1.Y-b.le0.Y > 0.3*b.length }

// passingsAt are the corners of the spacing law where tips pass over the segment. Tips that lie closer together than a
// quarter of a panel are one.
func (s *segment) passingsAt(tips []passing, width float64) []corner {
	tips = slices.Clone(tips)
	slices.SortFunc(tips, func(a, b passing) int { return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.gap, b.gap)) })
	var out []corner
	for _, tip := range tips {
		arc := 0.0
		for i := range s.bays {
			b := &s.bays[i]
			if t := (tip.y - b.le0.Y) / (b.le1.Y - b.le0.Y); b.runsInY() && t > 0 && t < 1 {
				at := arc + t*b.length
				if len(out) == 0 || at-out[len(out)-1].arc > width/4 {
					out = append(out, corner{arc: at, reach: math.Max(tip.gap, width/2)})
				}
			}
			arc += b.length
		}
	}
	return out
}
