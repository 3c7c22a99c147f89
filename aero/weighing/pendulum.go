package weighing

import "math"

// Bifilar is the moment of inertia [kg·m²] about the vertical axis through the CG of a body that hangs from two equal vertical lines
// of a length [m], a spacing [m] apart, the CG midway between them, and swings with a period [s]:
//
//	I = m g d² T² / (16 π² L)
//
// Derivation: turned by ψ, the foot of each line, d/2 from the axis, moves sideways by ψ d/2; the line leans by ψ d/(2 L) and pulls
// the foot back with the force (m g/2) ψ d/(2 L). Two lines at the arm d/2 make the moment m g d² ψ/(4 L), so that
// ω² = m g d²/(4 L I), and T = 2π/ω.
//
// It holds for small swings: Amplitude says what a larger one does. A CG that lies e off the middle makes it too large by (2e/d)².
func Bifilar(mass, gravity, spacing, length, period float64) float64 {
	return mass * gravity * spacing * spacing * period * period / (16 * math.Pi * math.Pi * length)
}

// Pendulum is the moment of inertia [kg·m²] about its horizontal axis of a body that swings under it with a period [s]. The moment is
// the body's mass times the distance of its CG below the axis [kg·m]: I = moment · g T²/(4 π²), for small swings.
func Pendulum(moment, gravity, period float64) float64 {
	return moment * gravity * period * period / (4 * math.Pi * math.Pi)
}

// Compound is the moment of inertia [kg·m²] about the CG of a body that swings about a parallel axis, arm [m] above its CG:
//
//	I = m g l T²/(4 π²) − m l²
//
// Derivation: about the axis, I_axis ψ” = −m g l sin ψ; the parallel-axis theorem takes I_axis = I + m l² to the CG.
//
// Where the arm equals the radius of gyration, √(I/m), an error of the arm drops out to first order: ∂I/∂l = (I − m l²)/l.
func Compound(mass, gravity, arm, period float64) float64 {
	return Pendulum(mass*arm, gravity, period) - mass*arm*arm
}

// SmallSwing takes a period [s] to that of vanishing swings: T/(1 + a²/16) with a the amplitude [rad], half the swing from side
// to side. Swings of 10° are 0.2 % slow, which is 0.4 % of inertia.
//
// For a compound pendulum it is the first term of the complete elliptic integral (any text on mechanics). A bifilar pendulum with lines
// much longer than they are apart has the same law: its height is d² sin²(ψ/2)/(2L), which goes as 1 − cos ψ.
func SmallSwing(period, amplitude float64) float64 { return period / (1 + amplitude*amplitude/16) }

// timingPrior is what the stated scatter of a timing is worth beside the scatter that is seen, in degrees of freedom: two timings that
// agree by chance must not claim to be perfect. Common practice, no source.
const timingPrior = 5

// PeriodOf is the period [s] that all timings have in common with its standard deviation. The error of a timing is that of starting and
// stopping the watch, the same for few and for many periods: least squares of t = N T through the origin. Stated is the standard
// deviation of one timing [s]; with repeated timings it is pooled with their scatter. There must be a timing.
func PeriodOf(timings []Timing, stated float64) Figure {
	var nt, nn float64
	for _, t := range timings {
		nt += t.Periods * t.Seconds
		nn += t.Periods * t.Periods
	}
	period := nt / nn
	scatter := timingPrior * stated * stated
	for _, t := range timings {
		off := t.Seconds - t.Periods*period
		scatter += off * off
	}
	scatter /= timingPrior + float64(len(timings)-1)
	return Figure{period, math.Sqrt(scatter / nn)}
}

// loadOf is the mean of what a scale showed. Repeating shrinks the scatter, not the scale's own error.
func loadOf(loads []float64, scale float64) Figure {
	var sum, scatter float64
	for _, w := range loads {
		sum += w
	}
	n := float64(len(loads))
	mean := sum / n
	for _, w := range loads {
		scatter += (w - mean) * (w - mean)
	}
	if n < 2 {
		return Figure{mean, scale}
	}
	return Figure{mean, math.Sqrt(scale*scale + scatter/(n-1)/n)}
}
