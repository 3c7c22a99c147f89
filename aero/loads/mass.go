package loads

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/atmosphere"
)

// PointMass is a mass on the right half that pulls down with the load factor: structure, fuel, a winglet.
type PointMass struct {
	At   r3.Vec  // datum axes, m
	Mass float64 // kg

	// Extent is the line over which the mass is spread evenly, with its middle in At, m: what a station cuts
	// counts with its outboard part. The zero vector is a point.
	Extent r3.Vec
}

// gravity is the standard acceleration, m/s² (ISO 80000-3).
const gravity = atmosphere.Gravity

// Relieve subtracts the inertia of masses outboard of each station at a load factor; axis is as in Along.
//
// A mass m feels n·m·g down at the load factor n: relief of a wing that lifts up. At a negative load factor, where
// the air load is down, it pulls up, relief again. A mass aft of the axis turns the leading edge up when n is
// positive and down when it is negative.
func Relieve(sections []Section, masses []PointMass, loadFactor, axis float64) []Section {
	out := slices.Clone(sections)
	for i := range out {
		f := out[i].frame()
		f.at.X = axis
		for _, m := range masses {
			f.putInertia(&out[i], m, Motion{SpecificForce: r3.Vec{Z: loadFactor * gravity}})
		}
	}
	return out
}

// AddInertia adds the inertia of masses outboard of each station in a motion, about each section's own Point. It
// serves sections of Along and of AlongUpright alike; the sections are in newtons (Times).
func AddInertia(sections []Section, masses []PointMass, motion Motion) []Section {
	out := slices.Clone(sections)
	for i := range out {
		f := out[i].frame()
		for _, m := range masses {
			f.putInertia(&out[i], m, motion)
		}
	}
	return out
}

// putInertia adds the inertia of the part of a mass outboard of the cut.
func (f frame) putInertia(s *Section, m PointMass, motion Motion) {
	extent := m.Extent.Y*f.along.Y + m.Extent.Z*f.along.Z
	share, shift := outboardOf(0, f.ahead(m.At), extent)
	if share == 0 {
		return
	}
	at := r3.Add(m.At, r3.Scale(shift, m.Extent))
	f.put(s, at, r3.Scale(-share*m.Mass, motion.feltAt(at)), r3.Vec{})
}
