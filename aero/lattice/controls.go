package lattice

import (
	"math"
	"slices"
	"strings"

	"wingproof/aero"
)

// control is one name that State.Controls may hold.
type control struct {
	name          string
	antisymmetric bool // the left half turns against the right one
}

// controlList holds the controls in order of name.
type controlList struct{ controls []control }

// newControlList gathers the controls of all surfaces. Ailerons and whatever hangs on a winglet or a
// fin deflect antisymmetrically in the sense of the turned normals, everything else symmetrically.
func newControlList(surfaces []aero.Surface, incidences bool) *controlList {
	var list controlList
	for _, s := range surfaces {
		for _, h := range s.Hinges {
			if list.index(h.Control) < 0 {
				list.controls = append(list.controls, control{h.Control, isAntisymmetric(s.Role, h.Control)})
			}
		}
	}
	if incidences {
		for _, s := range surfaces {
			list.controls = append(list.controls, control{Incidence(s.Name), false})
		}
	}
	slices.SortFunc(list.controls, func(a, b control) int { return strings.Compare(a.name, b.name) })
	return &list
}

func (l *controlList) index(name string) int {
	return slices.IndexFunc(l.controls, func(c control) bool { return c.name == name })
}

func isAileron(name string) bool { return strings.HasPrefix(strings.ToLower(name), "aileron") }

func isRudder(role aero.Role) bool { return role == aero.RoleWinglet || role == aero.RoleFin }

func isAntisymmetric(role aero.Role, name string) bool { return isAileron(name) || isRudder(role) }

// assign hangs on every bay the controls that cover it.
func (l *controlList) assign(surfaces []aero.Surface, bays []bay) {
	for i := range bays {
		b := &bays[i]
		s := surfaces[b.surface]
		for _, h := range s.Hinges {
			if b.station < h.FromStation-1 || b.station+1 > h.ToStation-1 {
				continue
			}
			b.hingeTurns = append(b.hingeTurns, hingeSpan{
				control: l.index(h.Control), hinge: h.HingeFraction,
				gain: h.Effectiveness * senseOf(s.Role, h.Control, b),
			})
		}
		if at := l.index(Incidence(s.Name)); at >= 0 {
			b.hingeTurns = append(b.hingeTurns, hingeSpan{control: at, gain: incidenceSense(b)})
		}
	}
}

// senseOf is +1 when a positive control turns the normal of the right half aft (trailing edge away
// from the normal), −1 when it turns it forward.
//
// Elevator and flap: trailing edge down, away from an upward normal. Aileron: up on the right.
// Rudder: trailing edge left on both sides, which is towards a normal that points inboard.
func senseOf(role aero.Role, name string, b *bay) float64 {
	up := 1.0
	if b.normal.Z < 0 {
		up = -1
	}
	switch {
	case isRudder(role) && !isAileron(name):
		if b.normal.Y > 0 {
			return 1
		}
		return -1
	case isAileron(name):
		return -up
	}
	return up
}

// incidenceSense is +1 when nose up, or leading edge inboard on a surface that stands up, turns the normal aft: it does when
// the normal points up, or inboard.
func incidenceSense(b *bay) float64 {
	if b.normal.Z < -0.5 || math.Abs(b.normal.Z) <= 0.5 && b.normal.Y > 0 {
		return -1
	}
	return 1
}
