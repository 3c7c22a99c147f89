// Package weighing answers: what does the model weigh, where is its centre of gravity, and how large are its moments of
// inertia, from scales, tilts and swings, and how sure are these numbers?
//
// # Axes and units
//
// SI and radians. Stations are those of the model, in datum axes: x aft, y right, z up, from the model's datum. Angles of
// attitude are nose up. Inertias are about the CG in body axes (X forward, Y right, Z down), Ixz = ∫XZ dm, which is the same
// number with x aft and z up. Loads on scales are masses in kg, as scales show them.
//
// # Method
//
// Balance: with the nose up by θ the point (x, z) stands h = x cos θ + z sin θ aft of the datum along the ground, and the loads on
// the supports balance about the CG, so that
//
//	x_cg cos θ + z_cg sin θ = Σ w h / Σ w
//
// for every attitude: on scales level (θ = 0), on scales with the nose propped up, or hung from one hook, which is one support that
// carries everything. Two attitudes give x and z, more are fitted by least squares.
//
// Swings: a bifilar pendulum (Bifilar) gives the inertia about the vertical axis through the CG, a compound pendulum (Compound) that
// about a horizontal axis, carried to the CG. An axis in the plane of symmetry that is inclined by θ has, with s = sin θ and c = cos θ,
//
//	vertical axis, nose up by θ:    I = Ix s² + Iz c² + 2 Ixz s c
//	horizontal axis, nose up by θ:  I = Ix c² + Iz s² − 2 Ixz s c
//
// so that swings about three axes give Ix, Iz and Ixz, by least squares when there are more.
//
// What swings with the model is taken off: the hanger, swung by itself in the same rig, and the air (Air).
//
// Errors: each reading is one independent input; the derivative of every result with respect to every input is taken by central
// differences through the whole computation, so that an input that enters in several places (a support's station in level and
// tilted balance, the CG in mass moments of several swings) counts once with its sum. That is the law of propagation to first order.
// Source: JCGM 100:2008 (GUM), 5.1.
//
// # Left out
//
// Buoyancy (the air that solid parts displace, about a thousandth of a model's weight), the air inside the model, the air that a
// fuselage moves, the lines' own mass and stiffness, damping (a swing that keeps half of its amplitude over ten periods is slowed by
// 6e-5), the earth's curvature.
//
// # Source
//
// Textbook mechanics, derived where it is written down. That the air matters and how such swings are made: H. A. Soulé and M. P. Miller,
// The experimental determination of the moments of inertia of airplanes, NACA Report 467 (from memory; no number of it is used).
package weighing
