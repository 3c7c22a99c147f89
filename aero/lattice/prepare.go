package lattice

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero"
)

// prepare checks the airframe, draws joints together, carries inboard ends to the plane of symmetry,
// fairs chords that do not agree there, and fills in missing reference quantities. at says where the stations stand in the user's tables.
func prepare(a aero.Airframe) (out aero.Airframe, at []places, warnings []aero.Warning, err error) {
	if len(a.Surfaces) == 0 {
		return aero.Airframe{}, nil, nil, &aero.GeometryError{What: "it has no lifting surfaces", Right: "give at least one"}
	}
	if err := aero.CheckSurfaces(a.Surfaces); err != nil {
		return aero.Airframe{}, nil, nil, err
	}
	out, warnings, err = aero.Join(a)
	if err != nil {
		return aero.Airframe{}, nil, nil, err
	}
	if out.Reference.Area == 0 {
		if out.Reference, err = aero.ReferenceOf(out.Surfaces); err != nil {
			return aero.Airframe{}, nil, nil, err
		}
	}
	warnings = append(warnings, idleControls(out.Surfaces)...)
	at = make([]places, len(out.Surfaces))
	for i := range at {
		at[i] = numbered(len(out.Surfaces[i].Stations))
	}
	warnings = fairJoints(out.Surfaces, at, fairingLength, warnings)
	for i := range out.Surfaces {
		if w, carried := carryInboard(out.Surfaces, i); carried {
			at[i] = slices.Insert(at[i], 0, 1)
			warnings = append(warnings, w)
		}
	}
	return out, at, warnings, nil
}

// carryInboard gives a wing, strake or foreplane whose root stands off the plane of symmetry, on a
// body that the lattice does not know, a station at y = 0 with the root's own chord line.
func carryInboard(surfaces []aero.Surface, i int) (aero.Warning, bool) {
	s := &surfaces[i]
	root := s.Stations[0]
	spans := s.Role == aero.RoleWing || s.Role == aero.RoleStrake || s.Role == aero.RoleForeplane
	if !s.Mirrored || !spans || root.LeadingEdge.Y <= 1e-6*root.Chord() || continues(surfaces, i) {
		return aero.Warning{}, false
	}
	y := root.LeadingEdge.Y
	centre := root
	centre.LeadingEdge.Y, centre.TrailingEdge.Y = 0, root.TrailingEdge.Y-y
	s.Stations = slices.Insert(s.Stations, 0, centre)
	for j := range s.Hinges {
		s.Hinges[j].FromStation++
		s.Hinges[j].ToStation++
	}
	return aero.Warning{
		Surface: s.Name, Station: 1,
		What:  fmt.Sprintf("its root stands %.3g m off the plane of symmetry and was carried there with its own chord line", y),
		Right: "give the stations that continue it inboard if it does not pass through a body",
	}, true
}

// continues tells whether the root of surface i lies on the tip of another surface.
func continues(surfaces []aero.Surface, i int) bool {
	root := surfaces[i].Stations[0]
	return slices.ContainsFunc(surfaces, func(o aero.Surface) bool {
		tip := o.Stations[len(o.Stations)-1]
		return o.Name != surfaces[i].Name && meets(tip.LeadingEdge, root.LeadingEdge, tip.Chord(), root.Chord())
	})
}

// closeGap is the height of a wake over another surface, in chords of that surface, under which the
// lattice is doubtful; common practice, no source.
const closeGap = 0.04

// warn reports legs that pass close to a surface behind them without being part of it.
func (g *grid) warn(a aero.Airframe) []aero.Warning {
	var found []aero.Warning
	told := make(map[[2]int]bool)
	for i := range g.strips {
		front := &g.strips[i]
		for j := range g.strips {
			behind := &g.strips[j]
			key := [2]int{front.surface, behind.surface}
			if front.group == behind.group || front.copies == 1 || behind.copies == 1 || told[key] || front.sheetEdge[1].X > behind.traceMid.X {
				continue
			}
			low, high := math.Min(behind.sheetEdge[0].Y, behind.sheetEdge[1].Y), math.Max(behind.sheetEdge[0].Y, behind.sheetEdge[1].Y)
			if front.sheetEdge[1].Y < low-1e-9 || front.sheetEdge[1].Y > high+1e-9 || high-low < 0.3*behind.width {
				continue
			}
			gap := math.Abs(front.sheetEdge[1].Z - behind.traceMid.Z)
			if gap >= closeGap*behind.chord {
				continue
			}
			told[key] = true
			found = append(found, aero.Warning{
				Surface: a.Surfaces[front.surface].Name,
				What:    fmt.Sprintf("its wake passes %.0f mm (%.1f %% of the chord) from %q", 1000*gap, 100*gap/behind.chord, a.Surfaces[behind.surface].Name),
				Right:   "let the wakes run along the stream, which carry it clear at an angle of attack, or leave more height between the two: along the body, neutral point and induced drag are off by several per cent here",
			})
		}
	}
	return found
}

// idleControls reports hinges whose effectiveness is zero or below: they have no or a reversed effect.
func idleControls(surfaces []aero.Surface) []aero.Warning {
	var found []aero.Warning
	for _, s := range surfaces {
		for _, h := range s.Hinges {
			if !(h.Effectiveness > 0) {
				found = append(found, aero.Warning{
					Surface: s.Name, Station: h.FromStation,
					What:  fmt.Sprintf("control %q has the effectiveness %.3g", h.Control, h.Effectiveness),
					Right: "give the ratio of real to ideal flap effect, 1 for an ideal hinge",
				})
			}
		}
	}
	return found
}
