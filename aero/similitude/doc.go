// Package similitude answers: how heavy must a model be and how fast must it fly, so that it moves
// like the full-size aircraft, only in its own time? And what does a model that misses the targets spoil,
// and how much ballast, in which of the places that it offers, brings it there?
//
// # Rule
//
// Dynamic similarity with gravity (Froude scaling): the model has the same angles, the same lift
// coefficient and the same relative density m/(ρ·S·c) as the full-size aircraft. With the length ratio
// λ = model/full size and the density ratio σ = ρ at the model's test height / ρ at the full-size
// height, the rest follows from Newton's second law: speed √λ, time √λ, mass λ³σ, inertia λ⁵σ.
// Every ratio here is model over full size.
//
// # Units
//
// SI: kg, kg·m², m, m/s, s; altitudes are geopotential metres in the standard atmosphere unless the
// caller hands in measured air.
//
// # What does not carry over
//
// The Reynolds number (a quarter-scale model flies at about an eighth of it) and the Mach number. Profile drag and
// maximum lift depend on the first and need their own correction. Dimensionless derivatives carry over
// even when the ballast is off; frequencies then do not: rebuild them from the derivatives with
// full-size mass and inertia.
//
// # Ballast
//
// Propose adds point masses, not below zero and not above what each bay holds, to the model as weighed. Mass and CG x come
// first, exactly where the bays can; height and inertias follow as least squares (Costs says what a departure costs). It never
// makes a model heavier than its target, and never takes weight out. The products of inertia Ixy and Iyz, the stiffness of what
// the ballast sits in, and its own size are left out.
//
// # Source
//
// Wolowicz, Bowman and Gilbert, Similitude Requirements and Scaling Relationships as Applied to Model
// Testing, NASA TP-1435, 1979; the density-ratio forms are derived from equal relative density.
package similitude
