// Package body answers: how much does a fuselage, which a lattice of lifting surfaces does not know, move
// the neutral point forward and weaken the directional stiffness?
//
// # Theory
//
// A slender body in a stream that meets it at a small angle feels no net force but a couple that turns it
// further across the stream. Each slice of it carries the apparent mass of its section in cross flow, ρ·π/4·w² per
// metre for an ellipse of width w moved up or down, ρ·π/4·h² for one of height h moved sideways. The force
// on a slice is the rate at which that cross-flow momentum grows along the body; its moment, integrated by
// parts over a body that is closed at both ends, is
//
//	dM/dα / (½ρV²) = +π/2 ∫ w(x)² · (dα_local/dα)(x) dx     nose up positive
//	dN/dβ / (½ρV²) = −π/2 ∫ h(x)² · (dβ_local/dβ)(x) dx     nose right positive
//
// in m³ per radian. A couple has no moment point: the same figure holds about every centre of gravity.
// For a round body in free air the integral is twice the volume, which is Munk's moment of a very long
// airship. A body of finite length has less: for a spheroid the couple is 2·(k2 − k1)·Vol, with Lamb's
// inertia factors k1 along and k2 across the axis (SlenderFactor); a body of unlike width and height is given
// the factors of the ellipsoid of its three lengths (EllipsoidFactors). That the factor, exact for an ellipsoid in free
// air, is put on the strip integral of any body in any flow is common practice, no source.
//
// # Local flow
//
// The flow function is the local angle of the stream to the datum x axis on the body's axis, per radian of
// angle of attack: 1 in free air, above 1 in the upwash ahead of a wing, below 1 in the downwash
// behind a foreplane. A lattice can supply it: 1 plus the derivative by α of the upward induced velocity
// over V, at y = 0 and at the height AxisZ(x). WithWing and WithRoot complete it at the roots:
//
//   - ahead of the wing's root chord: the caller's flow, with the upwash of the wing and the downwash of the foreplane;
//   - within the root chord: 0, for there the wing guides the stream along its own chord, and the load of
//     that stretch is already in a lattice whose wing runs through the body to the plane of symmetry;
//   - behind the root chord: a linear rise from 0 at the trailing edge to the caller's flow (1 − dε/dα) at a given end, which is the
//     tailplane where there is one, else (a convention of this package) the end of the body;
//   - within a foreplane's root chord: 0 for the same reason; behind it the caller's flow at once.
//
// In yaw there is no wing to guide the stream, and the factor is 1 unless the caller knows the sidewash.
//
// # Units and axes
//
// Full-size metres in datum axes (x aft, z up), radians, moments in body axes as in package aero.
//
// # Sources
//
// M. M. Munk, The Aerodynamic Forces on Airship Hulls, NACA Report 184, 1924 (couple and factor); H. Lamb,
// Hydrodynamics, 6th ed., 1932, art. 114 (inertia factors of the ellipsoid); H. Multhopp, Aerodynamics of the Fuselage,
// NACA TM 1036, 1942 (strips in the local flow, root chord). The formulas were derived anew as above
// and the citations are from memory: no table or chart of those reports is used.
//
// # Left out
//
// Lift and side force of the body (none for a closed slender body in potential flow; a real one sheds
// vortices and carries a little), hence also the damping by rates; rolling moment in sideslip and
// the interference of a high or low wing; the lift of a blunt end face, which works at that end; boundary layer and separation
// at the stern, which lessen the yawing moment of real bodies; the body's own displacement of the
// stream; square corners, which add apparent mass (half as much again on a sharp-edged square, from
// memory); the pitching moment at the state itself, as against its slope. The last follows from the same integral: PitchSlope of a function that
// returns the local angle to the body's axis, in radians, is that moment over ½ρV², in m³.
package body
