// Package loads turns the air load on strips into shear, bending and torsion along a surface: what a
// spar at each station has to carry.
//
// Stations are y, metres from the plane of symmetry, on the right half. Loads are those of everything
// outboard of a station, a winglet at the tip included. Axes are datum axes (x aft, y right, z up):
// shear up positive, bending about the x axis through the station with the tip up positive, torsion about
// the y axis through a given x with the leading edge up positive.
//
// Without a scale, results are over the dynamic pressure (m², m³), as aero.StripLoad gives them. Scale
// turns them into newtons for a weight and a load factor: the load shape of one lift coefficient, as
// heavy as the aircraft at that load factor. Inertia relief is the weight of structure, fuel and winglet
// times the load factor, pulling down.
//
// Left out: air loads on bodies, elastic twist, gust dynamics, landing loads. The figures size nothing
// by themselves: proof tests and local codes do.
package loads
