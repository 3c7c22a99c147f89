// Package reduce answers: which stretches of a flight were steady, and what were angle of attack, lift,
// drag and elevator there? It turns one recording into test points.
//
// # Road
//
//  1. Spikes go out, and every channel is low-passed alike by a Gaussian without phase shift onto one grid
//     (0.1 s); nothing is filled into a gap.
//  2. Density from static pressure and temperature: the channel, else what was written down at the field
//     carried up by the height, else the standard atmosphere, which a finding then says. True airspeed from
//     calibrated airspeed. Height from static pressure by the hydrostatic equation with the actual
//     temperature, or from the altitude channel, whichever is less noisy; that channel is a pressure altitude,
//     so it is stretched by the ratio of actual to standard temperature.
//  3. Steady windows of 3 to 8 s are found by the limits below; longest first, and of equal length the steadiest.
//  4. Each window gives one point, kept or dropped with its reason. A stretch marked by hand is a window as
//     it stands, and none is found in one that is marked to be left out.
//
// # What steady means
//
// Limits on a window, and why (constants in limits.go; common practice, no source, chosen so that the
// bias that they let in stays near a tenth of a degree of elevator, or below the scatter that light gusts bring):
//
//   - airspeed changes by less than 2 % a second and less than 5 % over the window, so that two trim speeds
//     are never merged. A slow change leaves lift and elevator in trim with each other at every instant: at 2 % a
//     second the attitude changes by about 0.3°/s, and pitch damping moves the elevator by a few hundredths of a degree.
//     Means over the window are then means over nearly a straight line.
//   - pitch angle changing by less than 1°/s (2°/s by the gyro, which has a bias) and pitch rate drifting by less than
//     1°/s²: neither damping nor inertia holds the nose, the model is trimmed.
//   - load factor within 0.15 of one, scatter below 0.2, bank below 10° and scatter below 5°.
//   - elevator scatter below 1.5°, drift below 0.5°/s; throttle constant to 0.05.
//
// A stretch that fails these but is calm otherwise is reported as dropped, with the first limits that it fails.
// Windows within 3 s of a stall break are dropped: lift there is not a function of angle of attack alone.
//
// # Formulas
//
// Where the recording allows (gyros, accelerometers, attitude, airspeed, height, satellite speeds) angle of attack and sideslip
// come from the path reconstruction of package reconstruct: mean over the window, a random part (gusts) and an absolute standard
// deviation that adds what the whole flight shares (mounting of the unit, steady vertical air, attitude bias). Where it lost
// itself, or a channel is missing, a finding says so and the old road serves, labelled by AlphaMethod:
//
// In still-air sense, wings level: α = θ − γ. It is found as the slope that makes the height of the
// kinematic equation dh = V·(cos α·sin θ − sin α·cos φ·cos θ)·dt fit the measured height over the window, which
// is θ − γ averaged with the right weights when speed and attitude drift. A vane, if there is one, is
// preferred. Lift is m·(X·sin α − Z·cos α) from the specific forces; with power on the thrust lies in X, so
// that its share T·sin α of the lift, 1 to 2 % in level flight and up to 5 % in a climb at full power, is not removed: such points say so by
// Power. Drag, in glides only, is −m·d(g·h + V²/2)/ds along the path s through the air.
//
// # Random standard deviations
//
// From the residuals about a straight line inside the windows, taken as a first-order autoregression. One window is too short to tell its
// correlation, so that comes from all kept windows of the flight together, with what the fits take out put back; the
// scatter of one window is steadied by that of all, which count as four degrees of freedom.
//
// In made flights 91 to 98 % of the glides lie within two of these standard deviations; that of lift is a fifth too
// small in strong gusts (0.8 m/s): windows are picked for small scatter, and seconds cannot average gusts that last as long.
//
// What stays the same over a window (steady vertical air, instrument errors) cannot show in it and is not part of
// them: 0.2 m/s of vertical air at 20 m/s is 0.6° of α and a tenth of a model's glide drag.
//
// # Left out
//
// Sensor position off the centre of gravity (in steady windows its effect is below 0.001 g), sensor delay,
// wind shear with height, test points in turning flight. Lift is taken at the sensor. The airspeed scale that a flight shows is told (Air)
// and not taken off here, since it is one and the same for all flights of a logger and they know it better together.
//
// The relations are those of every textbook of flight mechanics and of least squares; no number is taken from one.
package reduce
