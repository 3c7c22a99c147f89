// Package plan answers: what does the crew fly next, at which centre of gravity, how fast, from which height, and when do
// they stop? It turns what is known of the model and of each configuration into test sheets, one a flight, that a crew without
// an aerodynamicist can fly from.
//
// # Units and axes
//
// SI and radians. CG stations and the neutral point are full-size metres aft of datum; a sheet says them at the model's size too. Speeds
// are calibrated airspeeds of the model: a lift coefficient CL is held at V = √(2 n m g / (ρ0 S CL)) with ρ0 the density of the
// standard atmosphere at sea level, whatever the day's air. Heights are above the ground.
//
// # Rules, common practice, no source unless said otherwise
//
//   - Within one configuration every flight lies aft of the one before it, and none aft of decide.AftLimit: neutral point less two standard
//     deviations less 5 % of the mean chord, 3 % once two flights of that configuration agree.
//   - On the way aft no step is longer than 1.5 % of the chord; each is a short flight of its own, and its log is looked at before the next.
//   - Speeds follow the stalling speed of the model as weighed. The slowest is 1.25 times a stalling speed that lies one standard
//     deviation high, so that what is not known of maximum lift costs speed range and not height.
//   - Decelerations come last, from height, and only where the neutral point leaves 8 % of the chord with two standard deviations off, and
//     where section data do not say that the wing lets go first.
//
// # Left out
//
// Gusts, the day's wind, what the pilot can do, the structure of the model, radio, airspace. Inputs are sized by custom, not by the
// motions predicted.
package plan
