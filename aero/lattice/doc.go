// Package lattice computes an arrangement of lifting surfaces as a vortex lattice: forces, moments and
// their derivatives, the load along every span, induced drag, trim and the neutral point.
//
// # Model
//
// Inviscid, attached flow past thin surfaces at small angles, incompressible or by Prandtl and Glauert's rule. Every panel carries a
// horseshoe vortex: a bound segment along the panel's vortex line and two legs that run straight aft
// along the datum x axis, by default to infinity, else from the trailing edge along the stream. Ground acts by mirror images.
// Panels are flat: the chord of every station is laid along +x from its leading edge, and twist, toe and mean line turn the normal
// at the control point only,
//
//	n = sin t · x + cos t · n0,   t = twist − arctan(slope of the mean line) + control deflection
//
// where n0 is the normal of the flat panel: up on a wing, inboard on a winglet that stands up. Twist is
// positive with the leading edge towards n0 (nose up; leading edge inboard).
//
// Circulation Γ is positive when the bound segment runs outboard, which lifts a wing along n0. Axes are
// datum axes (x aft, y right, z up, metres); moments in results are body axes (package aero).
//
// # Placement
//
// Along the chord, vortices stand at the middles and control points at the ends of N equal steps of the
// angle θ, x = c (1 − cos θ)/2. In two dimensions that reproduces thin-aerofoil lift and moment exactly
// for every polynomial mean line (C. E. Lan, A Quasi-Vortex-Lattice Method in Thin Wing Theory, Journal
// of Aircraft 11, 1974). Along the span, panel edges follow a smooth law that crowds them at free tips
// only, and control points stand at the middle of the spacing parameter, not of the panel. Edges
// fall on kinks, hinge ends and joints; surfaces that join share nodes and panel widths.
//
// A hinge falls between control points. The two that enclose it are turned by the fractions of the
// deflection that give the exact thin-aerofoil lift and moment of a plain flap.
//
// Each surface is laid by itself (segment.go): a winglet takes the width of the wing's last panel, a wing takes nothing from the
// winglet on its tip. Where the wake of one surface passes another within a panel width, its legs are replaced by the sheet that
// they stand for, averaged over the strip that feels it (sheet.go), and the surface behind gets narrow panels about the
// tip that the wake comes from (passing.go). So the panels of a wing do not depend on what flies ahead or stands on
// it, and the levels of a choice can share them. A winglet whose root chord is shorter than the tip it stands on is faired into
// it over a short length (short_root.go), since a joint that shares no nodes does not converge. Surfaces that pass through or
// lie on one another are refused (encounter.go, trouble.go).
//
// # Solution
//
// The right half is panelled. A symmetric and an antisymmetric system are factorised once each and
// solved for unit velocities, unit rates and every control; any State is a sum of those solutions, its
// loads are quadratic in it. Airframes solved together share what their common surfaces do (family.go, eliminate.go). Lift,
// side force and moments are near-field: circulation times the local
// velocity (stream, rotation and all induced parts) on bound segments and on the chordwise parts of
// the legs. Drag is far-field, in the Trefftz plane, because near-field drag converges slowly at a
// swept root. Hinge moments come from the chordwise loading as a series of thin-aerofoil theory (hinge.go).
//
// # Error
//
// Grids solves coarser grids beside the one asked for and tells from their differences what the panelling leaves in each number.
//
// # Left out
//
// Thickness, bodies, propeller, viscosity, free wakes and unsteady flow (no
// derivatives by the rate of change of angle of attack). Products of deflection with sideslip and rotation are of second order
// and left out. Wakes along the body axis rather than along the stream
// move induced drag by 2 to 3 % and the neutral point by 0.8 % of the chord on a typical foreplane
// aircraft: that belongs to the model's stated error, not to its grid. Where a foreplane's wake passes within a few per cent of the
// chord of the wing the difference is several times as large, and jumps as the wake changes from one side of the wing to the
// other: there wakes along the stream are the ones to use.
package lattice
