package rehearse

import (
	"math"

	"wingproof/aero/atmosphere"
)

// state of the rigid body: place [m], attitude quaternion earth ► body, velocity of the CG over the earth
// in body axes [m/s], rates [rad/s]. The same struct holds its time derivative.
type state struct {
	north, east, down float64
	a, b, c, d        float64
	u, v, w           float64
	p, q, r           float64
}

// surroundings act on the body during one step.
type surroundings struct {
	density           float64
	north, east, down float64 // velocity of the air, m/s
}

func (s state) plus(k float64, d state) state {
	return state{
		s.north + k*d.north, s.east + k*d.east, s.down + k*d.down,
		s.a + k*d.a, s.b + k*d.b, s.c + k*d.c, s.d + k*d.d,
		s.u + k*d.u, s.v + k*d.v, s.w + k*d.w,
		s.p + k*d.p, s.q + k*d.q, s.r + k*d.r,
	}
}

// rotation is the matrix body ► earth.
type rotation [9]float64

func (s *state) rotation() rotation {
	a, b, c, d := s.a, s.b, s.c, s.d
	return rotation{
		a*a + b*b - c*c - d*d, 2 * (b*c - a*d), 2 * (b*d + a*c),
		2 * (b*c + a*d), a*a - b*b + c*c - d*d, 2 * (c*d - a*b),
		2 * (b*d - a*c), 2 * (c*d + a*b), a*a - b*b - c*c + d*d,
	}
}

func (m *rotation) earth(x, y, z float64) (n, e, d float64) {
	return m[0]*x + m[1]*y + m[2]*z, m[3]*x + m[4]*y + m[5]*z, m[6]*x + m[7]*y + m[8]*z
}

func (m *rotation) body(n, e, d float64) (x, y, z float64) {
	return m[0]*n + m[3]*e + m[6]*d, m[1]*n + m[4]*e + m[7]*d, m[2]*n + m[5]*e + m[8]*d
}

// angles are roll, pitch and heading of the attitude, heading 0 to 2π.
func (s *state) angles() (roll, pitch, heading float64) {
	m := s.rotation()
	roll = math.Atan2(m[7], m[8])
	pitch = math.Asin(math.Max(-1, math.Min(1, -m[6])))
	heading = math.Atan2(m[3], m[0])
	if heading < 0 {
		heading += 2 * math.Pi
	}
	return roll, pitch, heading
}

// attitude sets the quaternion from roll, pitch and heading.
func (s *state) attitude(roll, pitch, heading float64) {
	sr, cr := math.Sincos(roll / 2)
	sp, cp := math.Sincos(pitch / 2)
	sh, ch := math.Sincos(heading / 2)
	s.a = cr*cp*ch + sr*sp*sh
	s.b = sr*cp*ch - cr*sp*sh
	s.c = cr*sp*ch + sr*cp*sh
	s.d = cr*cp*sh - sr*sp*ch
}

// flow is the velocity of the CG through the air in body axes.
func (s *state) flow(m *rotation, around surroundings) (u, v, w float64) {
	wx, wy, wz := m.body(around.north, around.east, around.down)
	return s.u - wx, s.v - wy, s.w - wz
}

// rate is the time derivative of the state: Newton and Euler in body axes.
func (f *airframe) rate(s state, c controls, around surroundings) state {
	m := s.rotation()
	l := f.acting(&s, &m, c, around)
	b := &f.Body
	const g = atmosphere.Gravity

	var d state
	d.north, d.east, d.down = m.earth(s.u, s.v, s.w)
	d.a = 0.5 * (-s.b*s.p - s.c*s.q - s.d*s.r)
	d.b = 0.5 * (s.a*s.p + s.c*s.r - s.d*s.q)
	d.c = 0.5 * (s.a*s.q + s.d*s.p - s.b*s.r)
	d.d = 0.5 * (s.a*s.r + s.b*s.q - s.c*s.p)
	d.u = l.x/b.Mass + g*m[6] + s.r*s.v - s.q*s.w
	d.v = l.y/b.Mass + g*m[7] + s.p*s.w - s.r*s.u
	d.w = l.z/b.Mass + g*m[8] + s.q*s.u - s.p*s.v
	roll := l.roll + (b.Iy-b.Iz)*s.q*s.r + b.Ixz*s.p*s.q
	yaw := l.yaw + (b.Ix-b.Iy)*s.p*s.q - b.Ixz*s.q*s.r
	d.p = (b.Iz*roll + b.Ixz*yaw) / f.inertiaDeterminant
	d.q = (l.pitch + (b.Iz-b.Ix)*s.p*s.r - b.Ixz*(s.p*s.p-s.r*s.r)) / b.Iy
	d.r = (b.Ixz*roll + b.Ix*yaw) / f.inertiaDeterminant
	return d
}

// step advances the state by dt [s] with the classical fourth-order Runge–Kutta rule, controls and air held.
func (f *airframe) step(s state, c controls, around surroundings, dt float64) state {
	return f.stepThrough(s, [3]controls{c, c, c}, around, dt)
}

// stepThrough is step with the controls at the beginning, the middle and the end of it.
func (f *airframe) stepThrough(s state, c [3]controls, around surroundings, dt float64) state {
	k1 := f.rate(s, c[0], around)
	k2 := f.rate(s.plus(dt/2, k1), c[1], around)
	k3 := f.rate(s.plus(dt/2, k2), c[1], around)
	k4 := f.rate(s.plus(dt, k3), c[2], around)
	s = s.plus(dt/6, k1).plus(dt/3, k2).plus(dt/3, k3).plus(dt/6, k4)
	size := 1 / math.Sqrt(s.a*s.a+s.b*s.b+s.c*s.c+s.d*s.d)
	s.a, s.b, s.c, s.d = s.a*size, s.b*size, s.c*size, s.d*size
	return s
}
