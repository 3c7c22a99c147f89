package plots

import "gonum.org/v1/plot/vg"

// straightTolerance is how far a corner may lie from a straight line and be left out, in units: half of the tenth that
// lengths are rounded to.
const straightTolerance vg.Length = 0.05

// straightened leaves out corners of a path that lie on the straight line between their neighbours, such as the corners
// of panels along the straight edge of a wing.
func straightened(path vg.Path) vg.Path {
	var out vg.Path
	for i := 0; i < len(path); i++ {
		out = append(out, path[i])
		if path[i].Type != vg.MoveComp && path[i].Type != vg.LineComp {
			continue
		}
		end := i + 1 // the farthest corner that one line reaches
		for end+1 < len(path) && path[end].Type == vg.LineComp && path[end+1].Type == vg.LineComp && onLine(path[i:end+2]) {
			end++
		}
		i = end - 1
	}
	return out
}

// farthestSkip is how many corners one line may replace, so that the work stays small.
const farthestSkip = 64

// onLine tells whether all corners of a stretch lie near the line from its first to its last, in order along it.
func onLine(stretch vg.Path) bool {
	if len(stretch) > farthestSkip {
		return false
	}
	a, b := stretch[0].Pos, stretch[len(stretch)-1].Pos
	length := distance(a, b)
	if length == 0 {
		return false
	}
	along := vg.Point{X: (b.X - a.X) / length, Y: (b.Y - a.Y) / length}
	last := vg.Length(0)
	for _, step := range stretch[1:] {
		x, y := step.Pos.X-a.X, step.Pos.Y-a.Y
		if off := x*along.Y - y*along.X; off > straightTolerance || off < -straightTolerance {
			return false
		}
		here := x*along.X + y*along.Y
		if here < last {
			return false
		}
		last = here
	}
	return true
}
