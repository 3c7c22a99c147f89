package rehearse

import (
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// change is how fast the angles of the flow change: α̇c/2V and β̇b/2V.
type change struct{ alpha, beta float64 }

// aboutCG moves derivatives by the rate of an angle from the moment point to the CG. Their forces move with them; the
// angle means that of the CG.
func (a Aircraft) aboutCG(c aero.Coefficients) aero.Coefficients {
	d := a.Derivatives // what changes with an angle's rate moves like what changes with a control
	d.ByControl = map[string]aero.Coefficients{"rate": c}
	return stability.Moved(d, a.CGX, a.CGZ).ByControl["rate"]
}

// acting are all loads on a body in motion, those by the rates of angle of attack and sideslip included.
//
// Those depend on the acceleration, to which they contribute. Lift by α̇ stands across the flow in the plane of symmetry, so that only α̇ feels it, and
// side force along Y, so that only β̇ does: each rate is a linear equation for itself,
//
//	α̇ = α̇₀ − L_α̇·α̇/(m·V_xz)    β̇ = β̇₀ + Y_β̇·β̇·V_xz/(m·V²)
//
// with V_xz the speed in the plane of symmetry and α̇₀, β̇₀ what everything else gives. The air around counts as steady and the same
// everywhere: a gust changes the angles at once and its own rate is left out.
func (f *airframe) acting(s *state, m *rotation, c controls, around surroundings) loads {
	u, v, w := s.flow(m, around)
	return f.loads(around.density, u, v, w, s.p, s.q, s.r, c, f.rates(s, m, c, around))
}

// rates solves for the rates of angle of attack and sideslip; zero, without looking, when nothing depends on them.
func (f *airframe) rates(s *state, m *rotation, c controls, around surroundings) change {
	var to change
	if !f.unsteady {
		return to
	}
	u, v, w := s.flow(m, around)
	plane, speed := math.Hypot(u, w), math.Sqrt(u*u+v*v+w*w)
	if speed < slowestFlow || plane == 0 {
		return to
	}
	mass := 0.5 * around.density * speed * f.area / f.Body.Mass // ½ρVS/m: times V, an acceleration per coefficient
	chord, span := f.chord/(2*speed), f.span/(2*speed)

	a := f.flowAcceleration(s, m, c, around, to)
	rate := (u*a[2] - w*a[0]) / (plane * plane)
	to.alpha = chord * rate / (1 + mass*f.alphaRate.Lift*chord*speed/plane)

	a = f.flowAcceleration(s, m, c, around, to) // drag goes with lift, and turns sideslip a little
	rate = (a[1]*plane*plane - v*(u*a[0]+w*a[2])) / (speed * speed * plane)
	to.beta = span * rate / (1 - mass*f.betaRate.Side*span*plane/speed)
	return to
}

// flowAcceleration is the time derivative of the velocity through the air in body axes, for known rates of its angles. It holds
// ω×V of that velocity and not of the velocity over the earth, because a steady wind turns against the body.
func (f *airframe) flowAcceleration(s *state, m *rotation, c controls, around surroundings, to change) vector {
	u, v, w := s.flow(m, around)
	l := f.loads(around.density, u, v, w, s.p, s.q, s.r, c, to)
	const g = atmosphere.Gravity
	turning := vector{u, v, w}.cross(vector{s.p, s.q, s.r}) // −ω×V
	return turning.plus(vector{l.x/f.Body.Mass + g*m[6], l.y/f.Body.Mass + g*m[7], l.z/f.Body.Mass + g*m[8]})
}
