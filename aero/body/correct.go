package body

import (
	"maps"
	"math"

	"wingproof/aero"
)

// Relative standard deviations of the correction: strip theory against bodies with wings. Yaw is worse because the
// stern separates and the wing's side of the body matters. Common practice, no source.
const (
	PitchRelativeDeviation = 0.25
	YawRelativeDeviation   = 0.40
)

// Effect is what a body adds to the moments of the lifting surfaces, over the dynamic pressure, full-size
// m³ per rad, body axes. It is a couple: it holds about every moment point.
type Effect struct {
	Pitch          float64 // dM/dα, nose up positive; positive destabilises
	Yaw            float64 // dN/dβ, nose right positive; negative destabilises
	PitchDeviation float64 // one standard deviation of Pitch
	YawDeviation   float64 // one standard deviation of Yaw
}

// Effect takes the strip integrals in the given flows (nil: free air) and puts on each the factor of the
// ellipsoid of the body's length, greatest width and greatest height. The standard deviations are the relative ones of this
// package and say nothing of an error of the flow.
func (b Body) Effect(pitch, yaw Flow) Effect {
	if len(b.Stations) == 0 {
		return Effect{}
	}
	width, height := b.greatest()
	inPitch, inYaw := EllipsoidFactors(b.Length(), width, height)
	e := Effect{Pitch: inPitch * b.PitchSlope(pitch), Yaw: inYaw * b.YawSlope(yaw)}
	e.PitchDeviation = PitchRelativeDeviation * math.Abs(e.Pitch)
	e.YawDeviation = YawRelativeDeviation * math.Abs(e.Yaw)
	return e
}

// Correct returns the derivatives with the body's share: Cm_α grows by Pitch/(S·c), Cn_β by Yaw/(S·b).
//
// Nothing else changes: no lift, side force or roll, no rate derivative, and At keeps its pitching
// moment: slopes are corrected, the trim at one state is not. The argument d stays as it is.
func Correct(d aero.Derivatives, e Effect) aero.Derivatives {
	out := d
	out.ByControl = maps.Clone(d.ByControl)
	out.ByAlpha.Pitch += e.Pitch / (d.Reference.Area * d.Reference.MeanChord)
	out.ByBeta.Yaw += e.Yaw / (d.Reference.Area * d.Reference.Span)
	return out
}

// NeutralPointShift is how far the body moves the neutral point, m along x, aft positive, with one
// standard deviation: −Pitch/(S·CL_α). d holds the derivatives of the lifting surfaces; without
// lift slope the shift is infinite or not a number.
func NeutralPointShift(d aero.Derivatives, e Effect) (shift, deviation float64) {
	force := d.Reference.Area * d.ByAlpha.Lift
	return -e.Pitch / force, e.PitchDeviation / math.Abs(force)
}
