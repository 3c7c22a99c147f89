// Package aerofoil gives the mean line and the thickness of a section, from a name or from an
// outline, and what thin-aerofoil theory says about it: zero-lift angle, moment about the quarter
// chord, ideal angle and the effect of a plain flap.
//
// Lengths are fractions of the chord: x from the leading edge (0) to the trailing edge (1), z up.
// Angles are radians; moments nose up positive.
//
// Sources: four-digit sections from E. N. Jacobs, K. E. Ward, R. M. Pinkerton, The Characteristics of 78 Related Airfoil Sections,
// NACA Report 460, 1933; thin-aerofoil theory from H. Glauert, The Elements of Aerofoil and Airscrew
// Theory. Viscosity, thickness and compressibility are left out: measured lift slopes are lower, and
// zero-lift angles differ by a tenth or two of a degree.
package aerofoil
