// Package prediction says what theory gives for an airframe of a program: the vortex lattice, and what hangs on its solution
// (fuselage, section data, masses).
//
// A Setup is the condition in which airframes are compared: moment point, lift coefficient, trimmed or not, air and wakes.
// Analyse solves one airframe or a whole sweep in it, with what airframes share worked out once, and gives every quantity in SI
// units with the error that the panelling leaves in it. The error of the theory itself is stated elsewhere (package
// decide); it is the larger one.
//
// The numbers are those of small angles and attached flow at the stated lift coefficient, propeller stopped.
package prediction
