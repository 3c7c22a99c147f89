package aero

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// smallestChord is the shortest chord, m, that counts as a chord and not as a point.
const smallestChord = 1e-6

// farthest is the largest coordinate, m, that counts as metres of an aircraft and not as another unit.
const farthest = 1000

// foldAngle is the turn between two stretches of a surface, seen along x, from which the second lies back on the first.
const foldAngle = 160 * math.Pi / 180

// streamwise is the sweep of an edge, rad, from which a stretch has all but no width.
const streamwise = 89.5 * math.Pi / 180

// CheckSurfaces reports every geometry that no computation can use: fewer than two stations, a
// coordinate that is not a number or beyond a kilometre, a chord of zero length or one that points forward, two stations
// in one place or almost behind one another, stations that do not run outboard on a wing, strake or foreplane or that fold
// back on another surface, a mirrored surface that crosses or lies in the plane of symmetry, a hinge off the surface, a
// control given twice on one stretch or without a name, two surfaces of one name.
//
// All mistakes are returned at once (errors.Join of *GeometryError); nil means that there is none.
func CheckSurfaces(surfaces []Surface) error {
	var found []error
	seen := make(map[string]bool, len(surfaces))
	for _, s := range surfaces {
		if seen[s.Name] {
			found = append(found, &GeometryError{s.Name, 0, "the name is used twice", "give every lifting surface its own name"})
		}
		seen[s.Name] = true
		found = append(found, checkSurface(s)...)
	}
	return errors.Join(found...)
}

// spansOutboard tells whether stations of this role must rise in y.
func (r Role) spansOutboard() bool {
	return r == RoleWing || r == RoleStrake || r == RoleForeplane
}

func checkSurface(s Surface) []error {
	if len(s.Stations) < 2 {
		what := fmt.Sprintf("it has %d stations", len(s.Stations))
		return []error{&GeometryError{s.Name, 0, what, "give at least two, from the inboard to the outboard end"}}
	}
	var found []error
	add := func(station int, what, right string) {
		found = append(found, &GeometryError{s.Name, station, what, right})
	}
	for i, st := range s.Stations {
		if problem, right := checkStation(st, s.Mirrored); problem != "" {
			add(i+1, problem, right)
			continue
		}
		if i == 0 {
			continue
		}
		before := s.Stations[i-1]
		step, behind := r3.Sub(st.LeadingEdge, before.LeadingEdge), r3.Sub(st.TrailingEdge, before.TrailingEdge)
		width := math.Hypot(step.Y, step.Z)
		switch {
		case width < smallestChord:
			add(i+1, fmt.Sprintf("it lies at the same y and z as station %d", i), "leave one of the two out")
		case s.Role.spansOutboard() && step.Y <= 0:
			add(i+1, fmt.Sprintf("y does not rise from station %d (%.4g m) to here (%.4g m)", i, s.Stations[i-1].LeadingEdge.Y, st.LeadingEdge.Y),
				"order the stations of the right half from the plane of symmetry outboard")
		case math.Min(math.Abs(step.X), math.Abs(behind.X)) > width*math.Tan(streamwise):
			add(i+1, fmt.Sprintf("it lies %.3g m behind station %d and only %.3g mm beside it", step.X, i, 1000*width),
				"leave one of the two out, or set them apart across the stream")
		case s.Mirrored && onPlane(before, st):
			add(i+1, fmt.Sprintf("it is mirrored and lies in the plane of symmetry from station %d to here, on its own mirror image", i),
				"a surface on y = 0 is a single one: mirrored = false")
		case i > 1 && foldsBack(s.Stations[i-2].LeadingEdge, before.LeadingEdge, st.LeadingEdge):
			add(i+1, fmt.Sprintf("the surface folds back on itself at station %d", i), "order the stations from one end to the other")
		}
	}
	return append(found, checkHinges(s)...)
}

// foldsBack tells whether the way from a to b to c, seen along x, turns round at b.
func foldsBack(a, b, c r3.Vec) bool {
	u, v := r3.Sub(b, a), r3.Sub(c, b)
	turn := math.Atan2(math.Abs(u.Y*v.Z-u.Z*v.Y), u.Y*v.Y+u.Z*v.Z)
	return turn > foldAngle
}

// onPlane tells whether the stretch between two stations stands on y = 0 to within a hundredth of the chord.
func onPlane(a, b Station) bool {
	most := 0.01 * math.Max(a.Chord(), b.Chord())
	step := r3.Sub(b.LeadingEdge, a.LeadingEdge)
	return math.Abs(step.Z) > math.Abs(step.Y) && math.Abs(a.LeadingEdge.Y) < most && math.Abs(b.LeadingEdge.Y) < most
}

func checkStation(st Station, mirrored bool) (what, right string) {
	for _, v := range []float64{st.LeadingEdge.X, st.LeadingEdge.Y, st.LeadingEdge.Z, st.TrailingEdge.X, st.TrailingEdge.Y, st.TrailingEdge.Z} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return "a coordinate is not a number", "give leading and trailing edge in metres"
		}
		if math.Abs(v) > farthest {
			return fmt.Sprintf("a coordinate is %.4g m", v), "give leading and trailing edge in the unit that the table's head names"
		}
	}
	chord := st.Chord()
	switch {
	case chord < smallestChord:
		return "the chord is zero", "end the surface at a station with a chord, if a short one"
	case st.TrailingEdge.X-st.LeadingEdge.X < 0.5*chord:
		return "the trailing edge is not aft of the leading edge", "x counts aft: the trailing edge needs the larger x"
	case mirrored && st.LeadingEdge.Y < -1e-6*chord:
		return fmt.Sprintf("y is %.4g m, on the left side", st.LeadingEdge.Y), "give the right half (y ≥ 0); the left half is its mirror image"
	case !mirrored && math.Abs(st.LeadingEdge.Y) > 1e-3*chord:
		return fmt.Sprintf("y is %.4g m on a surface without a mirror image", st.LeadingEdge.Y), "put a single surface on y = 0, or mirror it"
	}
	return "", ""
}

func checkHinges(s Surface) []error {
	var found []error
	for _, h := range s.Hinges {
		switch {
		case h.FromStation < 1 || h.ToStation > len(s.Stations) || h.FromStation >= h.ToStation:
			what := fmt.Sprintf("control %q runs from station %d to station %d", h.Control, h.FromStation, h.ToStation)
			right := fmt.Sprintf("name two stations between 1 and %d, the inboard one first", len(s.Stations))
			found = append(found, &GeometryError{s.Name, 0, what, right})
		case !(h.HingeFraction >= 0 && h.HingeFraction < 1):
			what := fmt.Sprintf("control %q has its hinge at %.4g of the chord", h.Control, h.HingeFraction)
			found = append(found, &GeometryError{s.Name, h.FromStation, what, "give a fraction from 0 (the whole chord turns) to below 1"})
		case h.Control == "":
			found = append(found, &GeometryError{s.Name, h.FromStation, "a hinge moves no control", "name the control that it carries"})
		case math.IsNaN(h.Effectiveness) || math.IsInf(h.Effectiveness, 0):
			what := fmt.Sprintf("control %q has the effectiveness %v", h.Control, h.Effectiveness)
			found = append(found, &GeometryError{s.Name, h.FromStation, what, "give the ratio of real to ideal flap effect, 1 for an ideal hinge"})
		}
	}
	return append(found, checkTwice(s)...)
}

// checkTwice reports a control that a stretch carries twice: its effects would add up.
func checkTwice(s Surface) []error {
	var found []error
	for i, h := range s.Hinges {
		for _, g := range s.Hinges[:i] {
			from, to := max(g.FromStation, h.FromStation), min(g.ToStation, h.ToStation)
			if g.Control == h.Control && from < to {
				what := fmt.Sprintf("control %q is given twice from station %d to station %d", h.Control, from, to)
				found = append(found, &GeometryError{s.Name, from, what, "give each stretch of a control once"})
			}
		}
	}
	return found
}
