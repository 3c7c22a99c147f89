// Package rehearse flies a scale model through planned test cards in the computer and writes the log
// that its recorder would have written: what will these cards tell us, and does the reduction give back what was put in?
//
// # What is flown
//
// A rigid body with six degrees of freedom over a flat earth, integrated by the classical Runge–Kutta
// rule at 100 Hz or a little above. Forces and moments are the linear aerodynamic derivatives of aero.Derivatives,
// moved to the CG and shrunk by the length ratio (coefficients carry over); drag is
// CD = CDmin + k·(CL − CLm)², plus the windmilling propeller when idle. Near the highest
// trimmed lift the foreplane lets go first and softly, so that lift bends over and the nose drops.
//
// # Who flies
//
// A scripted pilot of slow loops through a servo with delay, lag and rate limit: speed by elevator in
// climbs and glides; height by elevator and speed by throttle in level runs; bank and heading by aileron.
// After settling, the elevator is nearly constant, as a test point needs it. The recording begins at rest
// on the ground. The ground run is prescribed motion (a smooth run into the wind at the attitude of
// lift-off), not wheels and forces; free flight begins at lift-off. The recording ends in the air with
// the last card: there is no landing.
//
// Sloppy makes that pilot careless: sizes, times, banks and speeds off, slopes for steps, hesitation, a hand that
// trembles. ManoeuvreCards are sheets with every kind of card; ExampleAircraft flies them.
//
// # What is recorded
//
// Rates, specific forces, attitude, airspeed, static pressure, temperature, altitude, satellite
// speeds (late, and with blank cells between), commanded control angles, throttle; each with bias, noise
// and its own rate. Errors that one programme of flights shares (airspeed scale, mounting of the inertial
// unit, elevator calibration) are values in Instruments, drawn once by DrawInstruments; errors that
// change from flight to flight are drawn by Fly. Sensors sit at the CG unless Instruments says where: off it,
// accelerometers feel ω̇×r + ω×(ω×r), and tube, vanes and antenna move with ω×r. Vanes are fitted on request.
// Log.Truth has what no instrument saw.
//
// # What goes wrong
//
// Spoil and SpoilFile put one fault of real recorders into a log or its file, at random, and tell what they did;
// Heavier gives the wrong aircraft to fly.
//
// # Axes and units
//
// SI and radians; body axes X forward, Y right, Z down at the CG; earth axes north, east, down.
//
// # Left out
//
// α̇ derivatives, gust gradients over the span, propeller torque and normal
// force, wing drop, spins, vibration, elastic deflection.
package rehearse
