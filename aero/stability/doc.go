// Package stability answers, for the linear model of an aircraft: where is the neutral point, how much
// elevator does trim take, how fast and how well damped are the motions?
//
// # Axes and units
//
// The input is aero.Derivatives: lift and drag along and across the wind, side force and moments in body
// axes (X forward, Y right, Z down) about the moment point, angles in radians, rates dimensionless with
// b/2V and c/2V. Stations are metres aft of datum, static margins percent of the mean aerodynamic chord,
// positive when stable.
//
// # Signs on a foreplane
//
// A positive elevator (trailing edge down) lifts the foreplane and raises the nose, Cm_δe > 0. While the
// aircraft is stable, more lift in trim takes more positive elevator, dδe/dCL > 0, and the trimmed lift
// slope exceeds the untrimmed one. Both reverse aft of the neutral point. Aircraft with the elevator
// at the tail have the opposite signs; the formulas are the same.
//
// # Sources
//
// Trim and neutral point: any textbook on static stability, for instance Perkins and Hage, Airplane
// Performance, Stability and Control, or Nelson, Flight Stability and Automatic Control, chapter 2; the
// transfer to another moment point is derived in the code from rigid-body kinematics. Motions: small
// disturbances of steady level flight as in Etkin, Dynamics of Atmospheric Flight, with body axes for the
// lateral motion so that no derivative has to be turned into stability axes.
//
// # Left out
//
// Stall, ground effect, elasticity, hinge moments (controls are held). Compressibility and thrust that varies with speed come in
// only where the caller states them in Condition.SpeedRatio.
package stability
