package aero

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// smallestChord is the shortest chord, m, that counts as a chord and not as a point.
const smallestChord = 1e-6

// CheckSurfaces reports every geometry that no computation can use: fewer than two stations, a
// coordinate that is not a number, a chord of zero length or one that points forward, two stations
// in one place, stations that do not run outboard on a wing, strake or foreplane, a mirrored surface
// that crosses the plane of symmetry, a hinge off the surface, two surfaces of one name.
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
		step := r3.Sub(st.LeadingEdge, s.Stations[i-1].LeadingEdge)
		switch {
		case math.Hypot(step.Y, step.Z) < smallestChord:
			add(i+1, fmt.Sprintf("it lies at the same y and z as station %d", i), "leave one of the two out")
		case s.Role.spansOutboard() && step.Y <= 0:
			add(i+1, fmt.Sprintf("y does not rise from station %d (%.4g m) to here (%.4g m)", i, s.Stations[i-1].LeadingEdge.Y, st.LeadingEdge.Y),
				"order the stations of the right half from the plane of symmetry outboard")
		}
	}
	return append(found, checkHinges(s)...)
}

func checkStation(st Station, mirrored bool) (what, right string) {
	for _, v := range []float64{st.LeadingEdge.X, st.LeadingEdge.Y, st.LeadingEdge.Z, st.TrailingEdge.X, st.TrailingEdge.Y, st.TrailingEdge.Z} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return "a coordinate is not a number", "give leading and trailing edge in metres"
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
		}
	}
	return found
}
