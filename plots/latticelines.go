package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// latticeLines joins the edges of panels to long lines, each edge once: a lattice of n panels is then drawn
// with some tens of lines instead of n polygons. Panels of four corners give one family of lines along their
// first and third edges and one along the other two; panels of other shapes stay closed polygons.
func latticeLines(panels [][]Position) [][]Position {
	var out [][]Position
	var along, across [][2]Position
	for _, panel := range panels {
		p := make([]Position, len(panel))
		for i, corner := range panel {
			p[i] = toMicrometre(corner)
		}
		switch {
		case len(p) == 4:
			along = append(along, [2]Position{p[0], p[1]}, [2]Position{p[3], p[2]})
			across = append(across, [2]Position{p[1], p[2]}, [2]Position{p[0], p[3]})
		case len(p) > 1:
			out = append(out, append(p, p[0]))
		}
	}
	return append(append(out, chains(along)...), chains(across)...)
}

// toMicrometre rounds a place, so that corners which neighbours computed apart are one.
func toMicrometre(p Position) Position {
	for i, v := range p {
		p[i] = math.Round(v*1e6) / 1e6
	}
	return p
}

// chains joins edges end to start; an edge given twice is drawn once, a place with several edges begins lines.
func chains(edges [][2]Position) [][]Position {
	seen, from, into := map[[2]Position]bool{}, map[Position][]int{}, map[Position]int{}
	var single [][2]Position
	for _, e := range edges {
		if e[0] == e[1] || seen[e] || seen[[2]Position{e[1], e[0]}] {
			continue
		}
		seen[e] = true
		from[e[0]] = append(from[e[0]], len(single))
		into[e[1]]++
		single = append(single, e)
	}
	used := make([]bool, len(single))
	var out [][]Position
	follow := func(i int) {
		line := []Position{single[i][0]}
		for i >= 0 && !used[i] {
			used[i] = true
			end := single[i][1]
			line = append(line, end)
			i = -1
			if next := from[end]; len(next) == 1 && into[end] == 1 {
				i = next[0]
			}
		}
		out = append(out, line)
	}
	for i, e := range single {
		if into[e[0]] != 1 || len(from[e[0]]) != 1 {
			follow(i)
		}
	}
	for i := range single { // what is left are closed loops
		if !used[i] {
			follow(i)
		}
	}
	return out
}

// pathOf puts lines on paper as one path.
func pathOf(lines [][]Position, point func(Position) vg.Point) vg.Path {
	var path vg.Path
	for _, line := range lines {
		for i, p := range line {
			if i == 0 {
				path.Move(point(p))
			} else {
				path.Line(point(p))
			}
		}
	}
	return path
}
