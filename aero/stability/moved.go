package stability

import (
	"math"

	"wingproof/aero"
)

// Moved returns the same derivatives about another moment point [x m aft of datum, z m above datum].
//
// Two things change. Moments gain the moment of the forces: M_P = M_O − R×F, R from the old point O to
// the new point P in body axes. And angle of attack, sideslip, speed and rates now mean those of P: a rotation about P moves O, so that with
// V_O = V_P − ω×R the rate derivatives gain
//
//	∂α/∂(qc/2V) = 2(X cos α + Z sin α)/c    ∂(ΔV/V)/∂(qc/2V) = 2(X sin α − Z cos α)/c
//	∂β/∂(pb/2V) = 2Z/b                      ∂β/∂(rb/2V) = −2X/b
//
// times the derivatives by α and β and twice the coefficients at the state (forces grow with V²). R has
// the body components X forward and Z down. The map is exact for a linear model, moving there and back is the
// identity, and nothing is neglected but rates at the state itself, which are zero.
//
// Derived from rigid-body kinematics; compare Etkin, Dynamics of Atmospheric Flight, on the change of
// reference point.
func Moved(d aero.Derivatives, cgX, cgZ float64) aero.Derivatives {
	m := mover{
		x: d.MomentPoint - cgX, z: d.MomentZ - cgZ,
		span: d.Reference.Span, chord: d.Reference.MeanChord,
		sin: math.Sin(d.Alpha), cos: math.Cos(d.Alpha),
	}
	alpha := m.body(d.ByAlpha).plus(m.turned(d.At)) // lift and drag turn with α, body forces do not
	beta := m.body(d.ByBeta)
	at := m.body(d.At)

	roll := m.body(d.ByRollRate).plus(beta.times(2 * m.z / m.span))
	yaw := m.body(d.ByYawRate).plus(beta.times(-2 * m.x / m.span))
	pitch := m.body(d.ByPitchRate).
		plus(alpha.times(2 * (m.x*m.cos + m.z*m.sin) / m.chord)).
		plus(at.times(2 * 2 * (m.x*m.sin - m.z*m.cos) / m.chord))

	out := d
	out.MomentPoint, out.MomentZ = cgX, cgZ
	out.At = m.wind(m.shifted(at))
	out.ByAlpha = m.wind(m.shifted(alpha).plus(m.turned(d.At).times(-1)))
	out.ByAlpha.Lift, out.ByAlpha.Drag = d.ByAlpha.Lift, d.ByAlpha.Drag
	out.ByBeta = m.wind(m.shifted(beta))
	out.ByRollRate = m.wind(m.shifted(roll))
	out.ByPitchRate = m.wind(m.shifted(pitch))
	out.ByYawRate = m.wind(m.shifted(yaw))
	out.ByControl = make(map[string]aero.Coefficients, len(d.ByControl))
	for name, c := range d.ByControl {
		out.ByControl[name] = m.wind(m.shifted(m.body(c)))
	}
	return out
}

// mover carries one transfer: the vector from the old to the new point in body axes and the angle
// between wind and body.
type mover struct {
	x, z        float64 // m, forward and down
	span, chord float64
	sin, cos    float64 // of the angle of attack
}

// bodyForces are coefficients with the force in body axes.
type bodyForces struct{ x, y, z, roll, pitch, yaw float64 }

func (a bodyForces) plus(b bodyForces) bodyForces {
	return bodyForces{a.x + b.x, a.y + b.y, a.z + b.z, a.roll + b.roll, a.pitch + b.pitch, a.yaw + b.yaw}
}

func (a bodyForces) times(k float64) bodyForces {
	return bodyForces{k * a.x, k * a.y, k * a.z, k * a.roll, k * a.pitch, k * a.yaw}
}

// body turns lift and drag at a fixed angle of attack into forces along X and Z.
func (m mover) body(c aero.Coefficients) bodyForces {
	return bodyForces{
		x: c.Lift*m.sin - c.Drag*m.cos, y: c.Side, z: -c.Lift*m.cos - c.Drag*m.sin,
		roll: c.Roll, pitch: c.Pitch, yaw: c.Yaw,
	}
}

// wind is the inverse of body.
func (m mover) wind(f bodyForces) aero.Coefficients {
	return aero.Coefficients{
		Lift: f.x*m.sin - f.z*m.cos, Drag: -f.x*m.cos - f.z*m.sin, Side: f.y,
		Roll: f.roll, Pitch: f.pitch, Yaw: f.yaw,
	}
}

// turned is the change of the body forces per radian when the wind, and lift and drag with it, turns.
func (m mover) turned(c aero.Coefficients) bodyForces {
	return bodyForces{x: c.Lift*m.cos + c.Drag*m.sin, z: c.Lift*m.sin - c.Drag*m.cos}
}

// shifted takes the moments about the new point: M − R×F, made dimensionless.
func (m mover) shifted(f bodyForces) bodyForces {
	f.roll += m.z * f.y / m.span
	f.pitch -= (m.z*f.x - m.x*f.z) / m.chord
	f.yaw -= m.x * f.y / m.span
	return f
}
