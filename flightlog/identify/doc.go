// Package identify finds stability and control derivatives from manoeuvres: how does the model answer its controls, and how sure
// is that?
//
// Estimate is the reference: maximum likelihood over several manoeuvres together, with the gusts that were flown through. EquationError
// and EquationErrorSpectrum regress coefficients on reconstructed flow angles: starting values and second roads. MarginByForce gives
// the static margin without any angle of attack. Excite says beforehand what the inputs can tell, Feedback whether a stabiliser moved
// the surfaces.
//
// # Axes, units, signs
//
// SI and radians; body axes X forward, Y right, Z down at the CG of the day. Lift and drag stand in wind axes, side force and moments in
// body axes. Elevator is positive trailing edge down, which raises the nose on a foreplane (Cm_δe > 0) and lowers it with the elevator
// at the tail: the formulas take both. Derivatives refer to Setup.MomentX and MomentZ.
//
// # The longitudinal model
//
// States are speed U in the plane of symmetry, angle of attack α, pitch rate q, pitch angle θ, all of the path through the mean air. What
// belongs to the other axis (p, r, φ, v) is measured and goes in as known, and so does the forward specific force X, so that neither
// thrust nor the pilot's throttle has to be modelled:
//
//	U̇ = cos α·(X − b + r·v − g·sin θ) + sin α·(Z + g·cos θ·cos φ − p·v)
//	α̇ = q + [cos α·(Z + g·cos θ·cos φ − p·v) − sin α·(X − b + r·v − g·sin θ)]/U
//	q̇ = [M + (Iz − Ix)·p·r − Ixz·(p² − r²)]/Iy
//	θ̇ = q·cos φ − r·sin φ
//
// with b the bias of the forward accelerometer, and the force and moment of the air
//
//	Z = −½ρV²S·(CL·cos α + CD·sin α)/m
//	CL = CL0 + CL_α·α + CL_q·qc/2V + CL_δe·δe,   CD = CD0 + k·CL²
//	Cm = Cm0 + Cm_α·α + Cm_q·qc/2V + Cm_δe·δe.
//
// Outputs are q, Z, θ and airspeed V. In α̇ = q − (lift less weight across the path)/(mV) the part of the lift makes Cm_α̇ look like stiffness, damping
// and elevator power: these are given as they show. The part of the weight has a term of its own,
//
//	Cm = … + Cm_α̇·g·cos θ·cos φ·c/(2V²),
//
// which a model tells that changes its speed behind an input. Left out, it biased damping and elevator power of published sets by 5 %.
// Drag matters only by its share of Z; CD0 and k are known beforehand (model_priors.go), which moves CL_α by a third of a percent.
//
// # The lateral model
//
// States are side velocity v = V·sin β, roll rate p, yaw rate r, roll angle φ; airspeed V, pitch rate, pitch angle and the velocities u and
// w of the path are known inputs, the latter two up to constant errors that are estimated:
//
//	v̇ = Y + p·w − r·u + g·cos θ·sin φ
//	ṗ = (Iz·L' + Ixz·N')/(Ix·Iz − Ixz²),   L' = L + (Iy − Iz)·q·r + Ixz·p·q
//	ṙ = (Ixz·L' + Ix·N')/(Ix·Iz − Ixz²),   N' = N + (Ix − Iy)·p·q − Ixz·q·r
//	φ̇ = p + tan θ·(q·sin φ + r·cos φ)
//
// with CY, Cl and Cn each a zero term and five slopes by β, pb/2V, rb/2V, δa and δr. Outputs are p, r, Y and φ.
//
// # Another CG
//
// Moment point O and CG P are one rigid body, R from O to P with the components x forward and z down. The flow that makes the
// coefficients is that of O, the motion is that of P:
//
//	V_O = V_P − ω×R,   M_P = M_O − R×F,
//
// which along is α_O = α + q(x·cos α + z·sin α)/U and V_O² = V²·(1 + 2q(x·sin α − z·cos α)/U), across β_O = β + (p·z − r·x)/(V·cos β).
// That is the transfer of aero/stability.Moved, worked out for each segment's own CG.
//
// # What each segment has of its own
//
// Initial state, zero terms (they take up trim, thrust moment, zero of a surface and the reference of α), biases of the rates and of the
// forces, and the instant of each edge of its command: a pilot's step lies anywhere between two samples, which at 25 samples a second
// is twelve milliseconds of doubt and would pass for damping. Of these, sizes are known beforehand and enter as prior information
// (RP-1168, a priori weighting). Biases of attitude and airspeed cannot be told from those of the forces and are left out.
//
// # Gusts
//
// Gusts change the flow and not the path. Each is a first-order process with a correlation length of 30 m (common practice, no source)
// that acts at the CG like a change of α, β or V; its rate of change and its gradient over the span are left out. A Kalman filter of
// motion and gusts, linearised along the fitted motion, turns residuals into innovations that do not depend on one another, and the
// likelihood of those is maximised: over the parameters by Gauss and Newton, over the variances of gusts (of each flight) and of sensors
// by scoring. While parameters move, the filter's gain is held. Gusts are then noise only, never an input: what they excite is given
// away (little, see TestStandardDeviationsAgainstTheBound), and the estimate has no bias should their spectrum be another one. As the
// gusts of an estimate go to zero, filter error becomes output error.
//
// # Intervals
//
// Derivative.SD is the random part: information of all segments with everything else eliminated, and the autocorrelation of the residuals
// where they are not white (Morelli and Klein). Derivative.Common is what one standard deviation of each shared error does, by a step of
// Gauss and Newton with the figures as they would have been reported.
//
// # Sources
//
// Maine and Iliff, Application of Parameter Estimation to Aircraft Stability and Control: the Output-Error Approach, NASA RP-1168, 1986;
// Klein and Morelli, Aircraft System Identification, 2006, chapters 5 to 7; Morelli and Klein, J.
// Guidance 20, 1997; Etkin, Dynamics of Atmospheric Flight, for the equations of motion. All from memory.
//
// # Left out
//
// Stall and other curvature of lift and moments, lag of downwash, propeller slipstream, elastic deflection, gust gradients, delay of
// sensors against one another.
package identify
