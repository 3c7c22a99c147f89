// Package reduce answers: which stretches of a flight were steady, and what were angle of attack, lift,
// drag and elevator there? It turns one recording into test points, and the manoeuvres in it into what fits of derivatives, maximum lift, directional
// stiffness and manoeuvre point start from.
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
// # Segments
//
// Every doublet and multistep becomes an identify.Segment: from 1.5 s ahead of the first movement, as far as the controls of its axis rest, to the end of
// its free response; short of the next input, of lost samples, of the ground; 10 s at most. What holds a stall, lost or clipped samples, or no second of free
// response is left out, and a finding says why. Without a reconstructed path there are none: rates and forces would keep their biases.
//
//   - The grid is that of the gyros, laid on their readings. Above 100 Hz all channels alike pass a windowed sinc without phase shift and are thinned
//     out; below nothing is filtered.
//   - Rates and specific forces are as logged, less the biases that the reconstruction found; forces are moved to the CG with the angular acceleration of local cubics.
//     Attitude, α and β are those of the path, so that an attitude solution's bias and jumps are not in them, and their errors are correlated in time.
//   - Airspeed is as logged, made true, with ω×r of the tube taken off. The error of its scale is still in it, as in test points; WithoutAirspeedScale
//     takes it off all alike. α and β do not have it.
//   - Commands are stairs: the last one given. Other channels are interpolated by cubics; rows that repeat a reading are one reading, and nothing is
//     carried forward. A rudder is the mean of both where both were logged, also where one works at a time.
//   - Power is that of the mean throttle; level where no throttle was logged.
//
// # Sideslips, turns, pull-ups
//
// The steady part of each manoeuvre gives means with random standard deviations as test points have them: 2 to 8 s of a sideslip, windows of 3 to 8 s of
// a turn or circle. They describe the mean as one draw of what gusts do to a steady state, so that they are larger than the error of the mean over the same seconds
// (in rehearsed flights six times for the lift of turns, nearly twice for side force). Kept level test points near the speed of the sideslips stand
// among them as zeros. A pull-up is read over the second half of its step from samples as they come; its standard deviations hold the noise of
// instruments only. Thrust is in lift there as everywhere.
//
// # Stalls
//
// In each deceleration the greatest lift ahead of the recovery, which is the elevator lowered by 2° near the lowest speed, is read under a low-pass four times
// as wide as the usual one. What noise adds to a greatest value and what the low-pass planes off are taken off together by drawing noise (peakOf). Its standard
// deviation is that of noise in accelerometers and airspeed alone; what gusts do to the lift is real and scatters from stall to stall: 0.7 % in
// light gusts, 2 % in gusts of 0.6 m/s.
//
// The foreplane let go first when the nose drops although the elevator is not lowered; the wing did when the nose rises and the angle of attack runs away although the
// elevator is not raised, or when a wing drops against the aileron, unless the nose dropped before. Without either the answer is unknown and the lift a lower bound.
// Very slow decelerations end unknown. In 48 rehearsed stalls no foreplane was called a wing, and no wing a foreplane; limits stand in
// stallbreak.go, and no real stall has been held against them.
//
// # Left out
//
// For test points: sensor position off the centre of gravity (in steady windows its effect is below 0.001 g), sensor delay,
// wind shear with height. Lift is taken at the sensor, in stalls and turns too. The airspeed scale that a flight shows is told (Air)
// and not taken off here, since it is one and the same for all flights of a logger and they know it better together.
//
// The relations are those of every textbook of flight mechanics and of least squares; no number is taken from one.
package reduce
