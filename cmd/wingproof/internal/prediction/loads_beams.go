package prediction

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/program"
)

// structureAt is where the structure of a surface weighs along its chord, common for wood and composite wings: 0.40 to 0.45
// (from memory).
const structureAt = 0.42

// loadBeam is a structure with the fuel in it by corner.
type loadBeam struct {
	loads.Beam
	name string
	end  float64             // station of its outboard end, m
	fuel [][]loads.PointMass // nil where it carries none
}

// at is the beam as it is filled in a corner.
func (b loadBeam) at(corner int) loads.Beam {
	out := b.Beam
	if b.fuel != nil {
		out.Fuel = b.fuel[corner]
	}
	return out
}

// WingSurfaces names the surfaces whose load the wing carries: wing, strake and the winglets at its tips. A part
// in any of them but a winglet has the wing's bending.
func WingSurfaces(airframe aero.Airframe) []string {
	return named(airframe, aero.RoleWing, aero.RoleStrake, aero.RoleWinglet)
}

// named lists the surfaces of some roles in the order of the airframe.
func named(airframe aero.Airframe, roles ...aero.Role) []string {
	var names []string
	for _, surface := range airframe.Surfaces {
		if slices.Contains(roles, surface.Role) {
			names = append(names, surface.Name)
		}
	}
	return names
}

// beams are the structures of the airframe, with stations and masses.
func (f *loadFlier) beams(corners []loadCorner) ([]loadBeam, error) {
	var out []loadBeam
	if wings := named(f.airframe, aero.RoleWing); len(wings) > 0 {
		b := loadBeam{name: wings[0], Beam: loads.Beam{Surfaces: WingSurfaces(f.airframe)}, end: f.airframe.Reference.Span / 2}
		for _, c := range corners {
			b.fuel = append(b.fuel, f.fuel(c))
		}
		out = append(out, b)
	}
	for _, name := range named(f.airframe, aero.RoleForeplane) {
		b := loadBeam{name: name, Beam: loads.Beam{Surfaces: []string{name}}, end: f.outboardEnd(name)}
		out = append(out, b)
	}
	for _, name := range named(f.airframe, aero.RoleWinglet, aero.RoleFin) {
		b := loadBeam{name: name, Beam: loads.Beam{Surfaces: []string{name}, Upright: true}, end: f.lengthAlong(name)}
		out = append(out, b)
	}
	for i := range out {
		out[i].Stations = f.stations(out[i])
		var err error
		if out[i].Structure, err = f.structure(out[i].Surfaces); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// stations are the inboard end and the stations of every built part in the beam, rising, with the even steps asked for.
func (f *loadFlier) stations(b loadBeam) []float64 {
	stations := []float64{0}
	for _, built := range f.program.Built {
		if f.belongs(built.Surface, b) {
			stations = append(stations, built.Y...)
		}
	}
	steps := f.setup.Steps
	if steps == 0 && len(stations) == 1 {
		steps = 10
	}
	for i := 1; i <= steps; i++ {
		stations = append(stations, b.end*float64(i)/float64(steps))
	}
	slices.Sort(stations)
	return slices.Compact(stations)
}

// belongs tells whether a part in a surface is judged along a beam: one in a winglet along the winglet, not the wing.
func (f *loadFlier) belongs(surface string, b loadBeam) bool {
	if surface == b.name {
		return true
	}
	return slices.Contains(b.Surfaces, surface) && !slices.Contains(named(f.airframe, aero.RoleWinglet), surface)
}

// outboardEnd is the y at which a surface ends.
func (f *loadFlier) outboardEnd(name string) float64 {
	end := 0.0
	for _, station := range f.surface(name).Stations {
		end = math.Max(end, station.LeadingEdge.Y)
	}
	return end
}

// lengthAlong is the length of a surface in the y–z plane.
func (f *loadFlier) lengthAlong(name string) float64 {
	length := 0.0
	for _, strip := range f.strips {
		if strip.Surface == name {
			length += strip.Width
		}
	}
	return length
}

// surface finds one by its name.
func (f *loadFlier) surface(name string) aero.Surface {
	for _, s := range f.airframe.Surfaces {
		if s.Name == name {
			return s
		}
	}
	return aero.Surface{}
}

// structure spreads the stated masses of some surfaces, those of the right half.
func (f *loadFlier) structure(surfaces []string) ([]loads.PointMass, error) {
	var out []loads.PointMass
	for _, m := range f.program.Masses {
		if !slices.Contains(surfaces, m.Surface) {
			continue
		}
		mass := m.Mass * f.grown(m.Surface)
		if f.surface(m.Surface).Mirrored {
			mass /= 2
		}
		spread, err := loads.SpreadByChord(mass, f.strips, []string{m.Surface}, structureAt)
		if err != nil {
			return nil, err
		}
		out = append(out, spread...)
	}
	return out, nil
}

// grown is the area of a surface over that of the baseline, whose mass the program states.
func (f *loadFlier) grown(name string) float64 {
	for _, baseline := range f.program.Surfaces {
		if before := areaOf(baseline); baseline.Name == name && before > 0 {
			return areaOf(f.surface(name)) / before
		}
	}
	return 1
}

// areaOf is the area of one half between its stations, m².
func areaOf(s aero.Surface) float64 {
	area := 0.0
	for i := 1; i < len(s.Stations); i++ {
		a, b := s.Stations[i-1], s.Stations[i]
		step := r3.Sub(b.LeadingEdge, a.LeadingEdge)
		area += math.Hypot(step.Y, step.Z) * (a.Chord() + b.Chord()) / 2
	}
	return area
}

// fuel spreads what the tanks of a corner hold, the right half of it, along wing and strake. A tank that lies where
// no surface is relieves nothing, and is said.
func (f *loadFlier) fuel(c loadCorner) []loads.PointMass {
	var out []loads.PointMass
	for _, tank := range c.tanks {
		spread, err := loads.SpreadBetween(tank.Mass/2, f.strips, named(f.airframe, aero.RoleWing, aero.RoleStrake), tank.SpanFrom, tank.SpanTo, structureAt)
		if err != nil {
			f.miss(fmt.Sprintf("%q of loading %q is not taken off the wing's load, on the heavy side: %v", tank.What, c.Name, err))
			continue
		}
		out = append(out, centredOn(tank, spread)...)
	}
	return out
}

// centredOn moves masses along x so that their centre lies where the loading says.
func centredOn(tank program.Item, masses []loads.PointMass) []loads.PointMass {
	moment, mass := 0.0, 0.0
	for _, m := range masses {
		moment += m.Mass * m.At.X
		mass += m.Mass
	}
	out := slices.Clone(masses)
	for i := range out {
		out[i].At.X += tank.X - moment/mass
	}
	return out
}
