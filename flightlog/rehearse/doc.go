// Package rehearse flies a scale model through planned test cards in the computer and writes the log
// that its recorder would have written: what will these cards tell us, and does the reduction give back what was put in?
//
// # What is flown
//
// A rigid body with six degrees of freedom over a flat earth, integrated by the classical Runge–Kutta
// rule at 100 Hz or a little above. Forces and moments are the linear aerodynamic derivatives of aero.Derivatives,
// moved to the CG and shrunk by the length ratio (coefficients carry over); drag is
// CD = CDmin + k·(CL − CLm)², plus the windmilling propeller when idle. Derivatives by α̇ and β̇ (Aircraft.AlphaRate, BetaRate) are
// solved together with the acceleration that they depend on. They mean the rates of the motion: a gust changes the angles of the flow
// at once and brings no rate of its own.
//
// Near the highest trimmed lift the foreplane lets go first and softly, so that lift bends over and the nose drops. Stall makes it the wing,
// with pitch-up and a wing that drops. Aircraft.HighestLift tells the highest lift that a deceleration comes to. ExampleAircraft is
// invented; PublishedAircraft have their derivatives from the literature and the elevator behind.
//
// A propeller pulls along body X, fading with speed, with its height above the CG; a normal force across its shaft, in proportion to
// throttle and angle of attack, can be added (Propulsion.NormalForce), so that power moves trim and the neutral point.
//
// # Who flies
//
// A scripted pilot of slow loops: speed by elevator in climbs and glides; height by elevator and speed by throttle in level runs; bank and
// heading by aileron. The loops take the sign of the elevator from the derivatives, so that it may sit ahead or behind.
// After settling, the elevator is nearly constant, as a test point needs it. The recording begins at rest
// on the ground. The ground run is prescribed motion (a smooth run into the wind at the attitude of
// lift-off), not wheels and forces; free flight begins at lift-off. The recording ends in the air with
// the last card: there is no landing.
//
// Commands go through a Stabiliser, if there is one, and through a servo with delay, limited rate, first-order lag and play, which may differ
// from control to control. Aircraft.Continuous says how finely its timing is kept.
//
// TrimCards is a sheet of steady points. TrimAndElevatorCards, LateralCards and SlowAndTurningCards are the three flights of a
// programme: steady points and elevator inputs; rudder and aileron inputs with sideslips; decelerations, turns and pull-ups.
// ManoeuvreCards are sheets with most kinds of card, for what must tell them apart. Sloppy makes the pilot careless: sizes, times, banks and
// speeds off, slopes for steps, hesitation, a hand that trembles.
//
// # What is recorded
//
// Rates, specific forces, attitude, airspeed, static pressure, temperature, altitude, satellite
// speeds (late, and with blank cells between), commanded control angles, throttle; each with bias, noise
// and its own rate. Errors that one programme of flights shares (airspeed scale, mounting of the inertial
// unit, calibration of the controls) are values in Instruments, drawn once by DrawInstruments; errors that
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
// Derivatives that change with lift or power, but for the stall and the propeller's normal force; gust gradients over the span and
// along the body, and the rates of angle that gusts bring; propeller torque, slipstream and side force; air loads on play in a
// linkage; noise and delay of the stabiliser; lag in the stall, spins; vibration, elastic deflection.
package rehearse
