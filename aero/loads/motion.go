package loads

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Rotation is a rate of turn, rad/s, or its change, rad/s², about the body axes of ISO 1151-1.
type Rotation struct {
	Roll  float64 // right wing down positive
	Pitch float64 // nose up positive
	Yaw   float64 // nose right positive
}

// datum is the rotation as a vector in datum axes: x aft and z up reverse roll and yaw.
func (r Rotation) datum() r3.Vec { return r3.Vec{X: -r.Roll, Y: r.Pitch, Z: -r.Yaw} }

// Motion is what accelerates the masses on a surface.
type Motion struct {
	// SpecificForce is the force on the whole aircraft without gravity, over its mass, m/s², datum axes: what an
	// accelerometer at the CG shows. At a load factor n it is n·g up.
	SpecificForce r3.Vec
	CG            r3.Vec   // datum axes, m
	Rates         Rotation // rad/s
	RateChanges   Rotation // rad/s²
}

// feltAt is the specific force at a point of the rigid aircraft, m/s²:
//
//	f = f_CG + ω̇ × r + ω × (ω × r),  r from the CG to the point
//
// A mass there loads its surface with −m·f (d'Alembert; any text on rigid bodies).
func (m Motion) feltAt(p r3.Vec) r3.Vec {
	r, rate := r3.Sub(p, m.CG), m.Rates.datum()
	turning := r3.Add(r3.Cross(m.RateChanges.datum(), r), r3.Cross(rate, r3.Cross(rate, r)))
	return r3.Add(m.SpecificForce, turning)
}

// Mirrored is the motion seen in a mirror on the plane of symmetry: what the left half feels, drawn on the right.
func (m Motion) Mirrored() Motion {
	m.SpecificForce.Y, m.CG.Y = -m.SpecificForce.Y, -m.CG.Y
	m.Rates.Roll, m.Rates.Yaw = -m.Rates.Roll, -m.Rates.Yaw
	m.RateChanges.Roll, m.RateChanges.Yaw = -m.RateChanges.Roll, -m.RateChanges.Yaw
	return m
}

// CarriedLoadFactors are the load factors upwards and to the right that the air loads of both halves give a mass,
// kg, at a dynamic pressure, Pa. left is as if mirrored to the right; nil when it equals the right half. The strips of
// a surface on the plane of symmetry belong in right alone.
//
// It is the second road to a load factor: in trimmed flight up differs from the lift that was asked for only by
// the angle between the datum z axis and the lift.
func CarriedLoadFactors(right, left []aero.StripLoad, pressure, mass float64) (up, side float64) {
	if left == nil {
		left = right
	}
	k := pressure / (mass * gravity)
	for _, s := range right {
		up += k * s.Force.Z
		side += k * s.Force.Y
	}
	for _, s := range left {
		up += k * s.Force.Z
		side -= k * s.Force.Y
	}
	return up, side
}

// SteadyRollRate is the roll rate pb/2V at which damping takes up the whole moment of an aileron, rad:
// −Cl_δa·δa/Cl_p. byAileron is per rad of aileron, byRollRate (negative: damping) per pb/2V.
//
// It returns an error when roll is not damped: then no roll is steady.
func SteadyRollRate(byAileron, byRollRate, aileron float64) (float64, error) {
	if !(byRollRate < 0) {
		return 0, fmt.Errorf("steady roll: roll damping is %.4g per pb/2V; only a negative one holds a steady roll", byRollRate)
	}
	return -byAileron * aileron / byRollRate, nil
}
