// Package estimate turns the test points of one configuration into numbers with honest intervals: trim
// slopes and neutral point, lift curve, drag polar. It answers two questions at once: what did the
// flights say, and how far may the truth lie from it?
//
// # Units and axes
//
// SI and radians. A CG and a neutral point are full-size metres aft of datum, lift and drag stand in
// wind axes, elevator is positive trailing edge down. On a foreplane that raises the nose, so a stable
// aircraft has dδe/dCL > 0 and a trimmed lift slope that exceeds the untrimmed one.
//
// # Flights, not samples, are independent
//
// The points of one flight share their errors: vertical air, the zero of the elevator, the day's
// airspeed tube. A flight with fifty points knows its own error very well and the truth no better than
// one with ten. So each flight is first boiled down to a straight line of its own,
//
//	y = m + s·CL      (y is elevator or angle of attack),
//
// with the slope corrected for the error of CL (W. A. Fuller, Measurement Error Models, Wiley 1987,
// section 1.2, from memory). What is asked (the slope, or the value at some CL) is then one number a
// flight, and those numbers are the sample. They lie on a straight line in h, the CG, because linear
// theory makes trim bilinear in h and CL,
//
//	δe = a0 + a1·h + (b0 + b1·h)·CL,   x_NP = −b0/b1,
//
// and scatter about it with the variance
//
//	v = σ²·k + τ²,
//
// σ² from the residuals inside flights, k from a flight's own points, τ² between flights by the moment
// equation Σ r²/v = degrees (R. C. Paule and J. Mandel, J. Res. NBS 87, 1982, from memory). The
// covariance of the fitted line is scaled by what Σ r²/v really came to, with Student's t on flights
// minus parameters (G. Knapp and J. Hartung, Statistics in Medicine 22, 2003, from memory). With like
// flights that is exact for any σ and τ, also with three flights, where a sandwich covariance is not.
//
// The drag polar is not a line; there a flight's draw of vertical air is a random effect of known shape in a generalised
// least-squares fit (see DragPolar).
//
// # Pooling the scatter
//
// Three flights less two parameters leave one degree of freedom and a t of 12.7. The scatter (gusts,
// elevator hysteresis, vertical air) belongs to the instruments and the weather more than to the winglet, so
// PoolScatter estimates it from all configurations of a program together; each keeps its own line. A
// configuration that scatters significantly more than the pool is judged by its own scatter, and says so.
//
// # Systematic errors
//
// What all flights share (Systematics) is not in the sample. It is carried as a signed standard
// deviation for each source in Result.Common and added to the interval in quadrature, end by end.
//
// # Wild points and wild flights
//
// A point far from its flight's line, and a flight far from the line of the others, count less and are named in a warning; nothing is
// dropped. How far is far grows as few points or flights tell their scatter badly (farLimit): of sound points one in two thousand is
// played down, whatever their number. A wild flight stays out of the yardstick by which the others are judged.
//
// # Turns, sideslips, stalls
//
// They go the same way: each flight gives one number (elevator for load factor at its speed, a slope with sideslip, a peak of lift), and
// flights are the sample. See ManoeuvrePoint, SideslipSlopes, StiffnessFromSideslip and MaximumLifts.
//
// # Derivatives, roads, configurations
//
// Derivatives come from package identify, one fit a flight; flights scatter about their mean by φ·(sd² + τ²) (see Derivatives). Where several
// roads lead to one number, Roads tests whether they agree and pools them with their joint covariance. Difference and
// OverConfigurations set levels of a choice against each other, where errors that all flights share cancel. Modes carries derivatives to
// natural motions.
//
// # What is left out
//
// Thrust corrections. Points with different power are not pooled: the state with the most flights is used and the others are named in a
// warning. Errors of CL are taken as independent of those of elevator and angle of attack.
package estimate
