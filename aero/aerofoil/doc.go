// Package aerofoil answers, for the section of a wing: which mean line and thickness does a name or a
// set of points stand for, what does thin-aerofoil theory say about it, how much profile drag does it
// have, and what does a table of section data say about its maximum lift?
//
// # Units and axes
//
// Lengths are fractions of the chord: x from the leading edge (0) to the trailing edge (1), z up.
// Angles are radians; flap deflections trailing edge down positive, moments nose up positive. Reynolds
// numbers are those of the chord. Drag is a section coefficient, or an area (drag over dynamic
// pressure, m²) where strips are added.
//
// # What is where
//
// ParseNACA, ParseFourDigit and ParseFiveDigit read names; FromOutline, FromHalves and MeanLineFromPoints
// read points. ThinAerofoil and PlainFlap are theory. Friction, ProfileDrag and the form factors estimate
// profile drag; Polar holds measured or computed data; StripDrag adds strips of a whole aircraft.
//
// # Sources
//
// Four-digit sections: E. N. Jacobs, K. E. Ward, R. M. Pinkerton, The Characteristics of 78 Related Airfoil
// Sections, NACA Report 460, 1933. Five-digit sections: E. N. Jacobs, R. M. Pinkerton, NACA Report 537, 1935.
// Thin-aerofoil theory: H. Glauert, The Elements of Aerofoil and Airscrew Theory. Friction: Blasius;
// Prandtl and Schlichting; form factors: Hoerner, Torenbeek, Raymer.
//
// # What is left out
//
// Thin-aerofoil theory leaves out viscosity, thickness and compressibility: measured lift slopes are
// lower, and zero-lift angles differ by a tenth or two of a degree. The friction estimate knows smooth,
// closed surfaces without laminar separation; its standard deviation is stated beside it. Nothing here
// computes maximum lift: it comes from a table, and is held constant, and said to be outside, beyond its ends.
package aerofoil
