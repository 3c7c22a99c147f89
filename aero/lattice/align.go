package lattice

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wingproof/aero"
)

// layOut chooses the panel edges of every chain, from the foremost to the aftmost.
//
// Where the wake of one chain passes another within a panel width, legs that graze control points
// would wreck the answer quietly. The front chain then gets an edge at every joint and kink of the one behind,
// and that one gets every edge of the front chain. Where it passes higher the induced velocity is smooth
// on the scale of a panel, and each chain keeps its own even spacing, which is the more accurate.
func layOut(runs []chain, surfaces []aero.Surface, o Options) ([]spanLattice, error) {
	marks := make([][]mark, len(runs))
	counts := make([]int, len(runs))
	order := make([]int, len(runs))
	for i := range runs {
		order[i] = i
		marks[i] = append(ownMarks(&runs[i], surfaces), runs[i].marksAt(o.SharedEdges, true)...)
		counts[i] = max(3, int(math.Round(o.density()*float64(countFor(&runs[i], surfaces)))))
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(runs[a].bays[0].le0.X, runs[b].bays[0].le0.X)
	})
	ahead := make([][]int, len(runs)) // chains whose edges a chain takes over
	for i, a := range order {
		for _, b := range order[i+1:] {
			if passesClose(&runs[a], &runs[b], counts[a], counts[b]) {
				marks[a] = append(marks[a], runs[a].marksAt(runs[b].marksAlongY(ownMarks(&runs[b], surfaces)), false)...)
				ahead[b] = append(ahead[b], a)
			}
		}
	}
	lays := make([]spanLattice, len(runs))
	for _, i := range order {
		for _, a := range ahead[i] {
			marks[i] = append(marks[i], runs[i].marksAt(runs[a].edgesAlongY(lays[a], runs[i].widest(counts[i])), false)...)
		}
		var err error
		l := law{runs[i].start, runs[i].length, runs[i].before, runs[i].corners()}
		if lays[i], err = newSpanLattice(l, counts[i], marks[i]); err != nil {
			return nil, fmt.Errorf("surface %q: %w", surfaces[runs[i].bays[0].surface].Name, err)
		}
	}
	return lays, nil
}

// passesClose tells whether the wake of the front chain runs past the one behind so low that panels
// feel single legs: within one and a half widths between the legs, beyond which their velocities
// differ from those of a sheet by exp(−3π), or three quarters of a panel of the surface behind.
func passesClose(front, behind *chain, countFront, countBehind int) bool {
	if front.group == behind.group || front.central || behind.central {
		return false
	}
	width := 1.5 * math.Max(front.widest(countFront), behind.widest(countBehind)/2)
	const looks = 8
	for k := range looks + 1 {
		p := front.edgeAt(front.length * float64(k) / looks)
		if z, ok := behind.heightAt(p.le.Y); ok && math.Abs(z-p.le.Z) < width {
			return true
		}
	}
	return false
}

// runsInY tells whether a bay runs in y rather than upright.
func (b *bay) runsInY() bool { return b.le1.Y-b.le0.Y > 0.3*b.length }

// heightAt is z of the chain's leading edge at y.
func (c *chain) heightAt(y float64) (z float64, ok bool) {
	for i := range c.bays {
		b := &c.bays[i]
		if t := (y - b.le0.Y) / (b.le1.Y - b.le0.Y); b.runsInY() && t >= 0 && t <= 1 {
			return b.leadingEdge(t).Z, true
		}
	}
	return 0, false
}

// marksAt asks for edges where the chain crosses the given y.
func (c *chain) marksAt(ys []float64, soft bool) []mark {
	var marks []mark
	arc := 0.0
	for i := range c.bays {
		b := &c.bays[i]
		for _, y := range ys {
			if t := (y - b.le0.Y) / (b.le1.Y - b.le0.Y); b.runsInY() && t > 0 && t < 1 {
				marks = append(marks, mark{arc: arc + t*b.length, soft: soft})
			}
		}
		arc += b.length
	}
	return marks
}

// marksAlongY lists the y of marks.
func (c *chain) marksAlongY(marks []mark) []float64 {
	ys := make([]float64, len(marks))
	for i, m := range marks {
		ys[i] = c.edgeAt(m.arc).le.Y
	}
	return ys
}

// edgesAlongY lists the y of panel edges. Beyond the tip the narrow strips inboard of it are mirrored until one is as wide as asked, so that
// the surface behind resolves both sides of the tip's wake.
func (c *chain) edgesAlongY(l spanLattice, wide float64) []float64 {
	ys := make([]float64, len(l.edge))
	for i, arc := range l.edge {
		ys[i] = c.edgeAt(arc).le.Y
	}
	tip := len(ys) - 1
	for i := tip - 1; i >= len(ys)/2 && ys[i+1]-ys[i] < wide; i-- {
		ys = append(ys, 2*ys[tip]-ys[i])
	}
	return ys
}

// widest is the width of the widest of count panels along the chain.
func (c *chain) widest(count int) float64 { return math.Pi / 2 * c.length / float64(count) }
