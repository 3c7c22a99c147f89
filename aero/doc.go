// Package aero holds the plain data that the aerodynamic packages below it share: an airframe as
// lifting surfaces, its reference quantities, force and moment coefficients with their derivatives,
// and strip loads along a span.
//
// # Axes
//
// Geometry and loads stand in datum axes: full-size metres, x aft, y right, z up, origin at the
// program's datum. Motion and moments stand in body axes by the symbols of ISO 1151-1: X forward, Y
// right, Z down, origin at the moment point. Angles are radians, everything else is SI.
//
// # Signs
//
// Elevator and flap: trailing edge down positive. Aileron: (left − right)/2 with trailing edge down
// positive on each, so that positive rolls right. Rudder, on a winglet or a fin: trailing edge left
// positive. Winglet toe: leading edge inboard positive. On a foreplane a positive elevator raises the
// nose, Cm_δe > 0.
//
// The packages below aero import this one (and aero/atmosphere), not each other, and none of them
// knows a flight log or a shop part.
package aero
