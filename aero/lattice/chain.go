package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// startKind says what lies at the inboard end of a chain.
type startKind int

const (
	startsFree     startKind = iota // an open end: panels crowd
	startsOnPlane                   // the plane of symmetry
	startsAtBranch                  // a node of another chain
)

// chain is a run of bays that share nodes, from the inboard to the outboard end: strake, wing and
// winglet, or a foreplane.
type chain struct {
	bays    []bay
	start   startKind
	width   float64 // of the panels where it branches off, m
	tips    []passing
	central bool // a single surface on the plane of symmetry
	length  float64
	group   int // chains that share nodes have one number
}

// meets tells whether two flattened ends are one: leading edges and chords agree.
func meets(a, b r3.Vec, ca, cb float64) bool {
	tolerance := 1e-6 * math.Max(ca, cb)
	return r3.Norm(r3.Sub(a, b)) < tolerance && math.Abs(ca-cb) < tolerance
}

// chains orders the surfaces into runs. A surface whose first station lies on the last station of
// another continues it; further ones at the same place branch off.
func chains(surfaces []aero.Surface, at []places) []chain {
	flat := make([][]bay, len(surfaces))
	for i, s := range surfaces {
		flat[i] = flatten(i, s, at[i])
	}
	next, previous := link(flat)
	share(flat, previous)
	var out []chain
	for i := range flat {
		if p := previous[i]; p >= 0 && next[p] == i {
			continue // taken up by the chain of p
		}
		c := chain{central: !surfaces[i].Mirrored, group: rootOf(i, previous)}
		for j := i; j >= 0; j = next[j] {
			c.bays = append(c.bays, flat[j]...)
		}
		for _, b := range c.bays {
			c.length += b.length
		}
		first := c.bays[0]
		switch {
		case previous[i] >= 0:
			c.start = startsAtBranch
		case !c.central && math.Abs(first.le0.Y) < 1e-6*first.chord[0]:
			c.start = startsOnPlane
		}
		out = append(out, c)
	}
	return out
}

// link finds for each surface the one that continues it outboard and the one that it continues; −1 is none. Of several that begin on
// one end, the straightest continues it.
func link(flat [][]bay) (next, previous []int) {
	next, previous = make([]int, len(flat)), make([]int, len(flat))
	for i := range flat {
		next[i], previous[i] = -1, -1
	}
	for i := range flat {
		end := flat[i][len(flat[i])-1]
		straightest := -2.0
		for j := range flat {
			begin := flat[j][0]
			if i == j || previous[j] >= 0 || !meets(end.le1, begin.le0, end.chord[1], begin.chord[0]) {
				continue
			}
			previous[j] = i
			if along := r3.Dot(end.normal, begin.normal); along > straightest+1e-9 {
				next[i], straightest = j, along
			}
		}
	}
	return next, previous
}

// share gives both sides of every joint the same node, to the last bit.
func share(flat [][]bay, previous []int) {
	for i, p := range previous {
		if p >= 0 {
			end := flat[p][len(flat[p])-1]
			flat[i][0].le0, flat[i][0].chord[0] = end.le1, end.chord[1]
		}
	}
}

// rootOf follows joints inboard to the surface where they start.
func rootOf(i int, previous []int) int {
	for range previous {
		if previous[i] < 0 {
			break
		}
		i = previous[i]
	}
	return i
}
