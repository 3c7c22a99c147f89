// Package response reads the natural motions of an aircraft off a recording: which frequency and damping does the motion have that
// is left when the controls have come to rest?
//
// # What is fitted
//
// A rate of turn swings about an offset and a slow drift. With σ the decay rate and D the square of the damped frequency,
//
//	y(t) = e^(−σt)·(a·cos √D t + b·sin √D t/√D) + c + d·t,   ω² = σ² + D,   ζ = σ/ω,
//
// which stays smooth where a motion stops oscillating (D < 0, cosh and sinh). σ and D are found by variable projection (G. H. Golub and V.
// Pereyra, SIAM J. Numerical Analysis 10, 1973, from memory): the amplitudes, which enter linearly, are solved for on the way. It starts
// from the poles that a matrix pencil gives (Y. Hua and T. K. Sarkar, IEEE Trans. ASSP 38, 1990, from memory).
//
// # Gusts
//
// Gusts go on exciting the very motion that is being read, so that what is left over after the fit swings with it. To take
// that for noise without memory gives intervals that are several times too short. Here the leftover is modelled as the same motion, set
// going again and again by white noise, plus white noise of the instrument. That is close to what gusts do: a gust steps the flow angle
// and leaves the rate of turn alone, which then follows through the moments; and air whose velocity is correlated over tens of metres
// gives steps that are nearly independent from one tenth of a second to the next. A Kalman filter makes the residuals of that model
// white; the strength of the gusts is the one with the highest restricted likelihood (H. D. Patterson and R. Thompson, Biometrika 58, 1971,
// from memory). The covariance is then widened by what colour the whitened residuals still have.
//
// Only the first signal, the rate of turn, is fitted so. Signals that a gust steps at once add little, and cost the honesty of the interval: what a
// gust does to them depends on amplitudes that a noisy stretch does not tell well. Of those the amplitudes are given.
//
// # Units and axes
//
// SI and radians, body axes. Times are seconds from the first sample that is given.
//
// # What is left out
//
// The spiral, which takes longer than anybody keeps the hands off; motions whose frequency depends on their size; elastic motion. Speed that
// changes a little along the stretch enters by its mean as the frequency sees it. The flights are the independent units: this package gives one number a stretch, the caller pools.
package response
