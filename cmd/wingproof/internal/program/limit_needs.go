package program

import (
	"fmt"
	"slices"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
)

// need is one thing that a limit cannot be judged without.
type need struct {
	absent      bool
	what, right string
}

// slowNeeds are those of limits on slow flight and take-off; none for other limits.
func (l *loader) slowNeeds(quantity string, flying int) []need {
	loaded := []need{
		{flying == 0, "a loading that flies", "add [[loading]] with its items"},
		{l.p.FullSize.EmptyMass.Status == "", "the empty weight and its place", "add empty_mass_kg, empty_cg_x_m and empty_cg_z_m to [full_size]"},
	}
	elevator := need{!l.hasElevator(), "an elevator with its travel",
		`add hinges = [{ control = "elevator", from_station = 1, to_station = 2, hinge_chord_percent = 70, travel_deg = [-15, 25] }] to the foreplane`}
	switch quantity {
	case evidence.StallOrderMargin:
		return l.sectionNeeds()
	case evidence.StallingSpeed:
		return append(append(l.sectionNeeds(), elevator), loaded...)
	case evidence.RotationSpeed:
		return append([]need{
			{l.p.Gear == nil, "to know where the wheels stand", "add [gear] with nose_x_m, main_x_m, track_m and ground_z_m"},
			{l.p.Gear != nil && l.p.Gear.GroundZ >= 0, "the ground below the datum", "write a ground_z below 0 in [gear]; z counts up"},
			elevator}, loaded...)
	case evidence.ElevatorRoom:
		return append([]need{{!(l.p.FullSize.ApproachSpeed > 0), "the approach speed", "add approach = { speed_kt = 75 } to [full_size], an equivalent airspeed"}, elevator}, loaded...)
	}
	return nil
}

// hasElevator tells whether some hinge is an elevator that travels.
func (l *loader) hasElevator() bool {
	return slices.ContainsFunc(l.p.Surfaces, func(s aero.Surface) bool {
		return slices.ContainsFunc(s.Hinges, func(h aero.Hinge) bool { return h.Control == stability.Elevator && h.TravelMax > h.TravelMin })
	})
}

// sectionNeeds are section data: for every section of the foreplane, and for some section of the wing.
func (l *loader) sectionNeeds() []need {
	var foreplane, wing, known []string
	for _, s := range l.p.Surfaces {
		switch s.Role {
		case aero.RoleForeplane:
			foreplane = append(foreplane, l.sectionsOf(s)...)
		case aero.RoleWing:
			wing = append(wing, l.sectionsOf(s)...)
		}
	}
	for _, a := range l.p.Aerofoils {
		if a.PolarFile != "" {
			known = append(known, a.Name)
		}
	}
	needs := []need{{len(foreplane) == 0, "a foreplane", `give the surface in front role = "foreplane"`}}
	slices.Sort(foreplane)
	for _, name := range slices.Compact(foreplane) {
		needs = append(needs, need{!slices.Contains(known, name), fmt.Sprintf("the largest lift of aerofoil %s", quoted(name)),
			fmt.Sprintf("add polar = %s to [[aerofoil]] %s", quoted("shape/"+name+"-polar.csv"), quoted(name))})
	}
	none := !slices.ContainsFunc(wing, func(name string) bool { return slices.Contains(known, name) })
	return append(needs, need{none, "the largest lift of some aerofoil of the wing", `add polar = "shape/NAME-polar.csv" to the [[aerofoil]] of the wing`})
}

// sectionsOf lists the aerofoils of a surface's stations, those of every level too.
func (l *loader) sectionsOf(s aero.Surface) []string {
	var out []string
	take := func(stations []aero.Station) {
		for _, station := range stations {
			out = append(out, station.Aerofoil)
		}
	}
	take(s.Stations)
	for _, c := range l.p.Choices {
		for _, level := range c.Levels {
			for _, e := range level.Edits {
				if e.Surface == s.Name {
					take(e.Stations)
				}
			}
		}
	}
	return out
}
