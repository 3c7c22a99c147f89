// Package reconstruct answers: how did the model move through the air, from sensors that do not feel the air's direction? It gives
// angle of attack, sideslip, true airspeed, wind and airspeed scale over a flight, each with a standard deviation, from rates,
// specific forces, attitude, airspeed, static pressure and satellite velocity.
//
// # Road
//
//  0. Rows that repeat the last value of a slow sensor are taken as the one sample that they are, at the time of the first; sensors are told apart
//     from rounding by the regular length of the runs. Where nothing is recorded for ten seconds the path has a hole and begins anew after it.
//  1. Specific forces are moved from the inertial unit to the CG of the flight; tube, vanes and antenna get ω×r.
//  2. The lag of satellite navigation is found by comparing changes of its velocity with integrated specific force, and taken off.
//  3. Wind and airspeed scale come from the wind triangle by least squares over the headings of the flight (WindTriangle), a road of
//     its own beside the filter. It starts the filter, which then knows nothing of it but the starting point.
//  4. Noise levels come from differences of neighbouring samples, the level and length of gusts from the autocovariance of the triangle's
//     residuals. A first run of some minutes tunes the noise of each measurement, and how fast the wind wanders, by the likelihood of the
//     innovations.
//     A lag that had to be assumed makes a satellite speed uncertain by the acceleration times the lag's standard deviation.
//  5. A kinematic extended Kalman filter goes forward, a fixed-interval smoother back. A logged angle that jumps from one
//     sample to the next against the gyros, as a compass does that a current disturbs, has its bias estimated anew; other contradictions that last make the
//     filter begin anew, and too many of them end the attempt.
//
// # Equations
//
// R turns body axes (X forward, Y right, Z down) into earth axes (north, east, down); ω and f are the gyros and accelerometers less biases:
//
//	Ṙ = R·[ω]×    v̇ = R·f + g    ḣ = −v_down
//	flow through the air, body axes:  V = Rᵀ·(v − w_steady − w_vertical − w_gust)
//	α = atan(V_z/V_x),  β = asin(V_y/|V|)
//
// States: attitude (three, as a small rotation), velocity over the earth (3), height, steady wind (2, random walk), steady vertical
// air (about zero, first order, minutes), gusts (3, first order, length over airspeed), biases of accelerometers (3), gyros (3),
// logged attitude (3) and barometer (1), airspeed scale (1): 24; with vanes their biases and upwash factors: 28.
// Measured at their own times: logged roll, pitch and heading; true airspeed; height; satellite velocity; vanes.
//
// The model's own aerodynamics never enter: neither lift nor side force is fed to the estimate, so that lift and drag
// coefficients drawn over its angles are not circular. What the sensors cannot know stays unknown, and the standard deviations say it.
//
// # What can be known
//
// Heading and attitude come from turns: an error of the heading would turn the centripetal force aside. Wind and scale come from
// headings all round; after a full circle the steady wind is known to 0.1 or 0.2 m/s. Without vanes nothing shows what blows across the
// flight path: lateral gusts of 0.5 m/s are 1.2° of sideslip at 24 m/s, vertical ones of 0.25 m/s 0.6° of angle of attack, and steady vertical air of 0.2 m/s,
// which no kinematics parts from angle of attack, 0.5°. Mounting of the inertial unit against the datum axis (boresight)
// goes straight into α. So AlphaSD is mostly what Setup declares; AlphaCommonSD is its part that stays for minutes and
// cancels in changes and slopes.
//
// Vanes show gusts, but the upwash where they sit can be told from the flight in still air only. In gusts the model turns against every gust, so
// that its motion says more of them than a filter may know that does not know the model; the upwash then stays what is usual, 6 % with 5 % of
// standard deviation.
//
// In the first seconds after lift-off heading and wind are only as good as what follows makes them: the smoother carries a later turn back,
// so that a flight with a full circle has no worse sideslip at its start.
//
// # What the tests assert of the standard deviations
//
// Rehearsed flights, ten of each weather. Of each quantity (mean angles over a level run, wind after the circle, scale by both roads) nine in ten normalised
// squared errors lie below the upper 97.5 % point of χ², and their sum over flights does; for the sums of some the lower 2.5 % point is asserted too.
// A single error that is too small is no lie, so that how many lie between both ends of the band is logged, not asserted.
//
// # Sources
//
// Klein & Morelli, Aircraft System Identification, ch. 10 (data compatibility); Bryson & Ho, Applied Optimal Control, ch. 12–13; Rauch, Tung
// & Striebel, AIAA J. 3 (1965); Bierman, Int. J. Control 18 (1973), for the form of the smoother that needs no inverse; Bierman, Factorization
// Methods for Discrete Sequential Estimation, for one measurement after another.
//
// # Left out
//
// Rotation of the earth, wind changing with height, gust gradients over the span, scale errors and misalignment of single gyros and accelerometers, lag of
// the logged attitude, pressure errors that depend on angle of attack or sideslip, dynamics of tube and vanes.
package reconstruct
