package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// reported are the shared figures as they were reported, with what may be put onto them to see what an error of each does.
type reported struct {
	airspeed, mass               float64 // factors
	inertiaX, inertiaY, inertiaZ float64
	elevator, aileron, rudder    float64
	cg                           float64 // m
	mounting                     float64 // rad, by which the inertial unit stands nose up
	density                      float64
}

func asReported() reported {
	return reported{airspeed: 1, mass: 1, inertiaX: 1, inertiaY: 1, inertiaZ: 1, elevator: 1, aileron: 1, rudder: 1, density: 1}
}

// flown is one instant of a segment.
type flown struct {
	p, q, r, dp, dq, dr  float64
	forward, right, down float64
	speed, alpha, beta   float64
}

// dimensionless are forces and moments about the moment point, made dimensionless, with flow angles and speed of that point.
type dimensionless struct {
	speed, alpha, beta float64
	lift, side         float64
	roll, pitch, yaw   float64
}

// reducer holds what turns motion into coefficients.
type reducer struct {
	body              stability.Body
	density           float64
	area, span, chord float64
	x, z              float64 // m forward and down from the CG to the moment point
	thrust            float64 // N, along the X axis
}

// levelThrust is thrust over weight in level flight, one over the lift-to-drag ratio of a model with its gear down. Common practice, no
// source; a third more or less of it moves the lift slope by a third of a percent.
const levelThrust = 1.0 / 12

func newReducer(s *Segment, setup *Setup, e reported) reducer {
	b := s.Body
	b.Mass *= e.mass
	b.Ix, b.Iy, b.Iz = b.Ix*e.inertiaX, b.Iy*e.inertiaY, b.Iz*e.inertiaZ
	ref := setup.Reference
	thrust := 0.0
	if s.Power == "level" {
		thrust = levelThrust * b.Mass * atmosphere.Gravity
	}
	return reducer{
		thrust: thrust,
		body:   b, density: s.Density * e.density, area: ref.Area, span: ref.Span, chord: ref.MeanChord,
		x: s.CGX + e.cg - setup.MomentX, z: s.CGZ - setup.MomentZ,
	}
}

// at gives the coefficients of one instant. Moments about the CG are those of a rigid body,
//
//	L = Ix·ṗ − Ixz·ṙ − (Iy − Iz)·q·r − Ixz·p·q
//	M = Iy·q̇ − (Iz − Ix)·p·r + Ixz·(p² − r²)
//	N = Iz·ṙ − Ixz·ṗ − (Ix − Iy)·p·q + Ixz·q·r,
//
// those about the moment point M − R×F with R from the CG to it, and the flow there is V + ω×R. Lift is
// (X − T)·sin α − Z·cos α with T what level flight takes; at full power what it takes is not known and stays in the lift slope, which its
// coefficient, some hundredths, makes larger.
//
// Source: Etkin, Dynamics of Atmospheric Flight, equations of motion; the transfer as in package stability.
func (m *reducer) at(s flown) dimensionless {
	b := &m.body
	roll := b.Ix*s.dp - b.Ixz*s.dr - (b.Iy-b.Iz)*s.q*s.r - b.Ixz*s.p*s.q
	pitch := b.Iy*s.dq - (b.Iz-b.Ix)*s.p*s.r + b.Ixz*(s.p*s.p-s.r*s.r)
	yaw := b.Iz*s.dr - b.Ixz*s.dp - (b.Ix-b.Iy)*s.p*s.q + b.Ixz*s.q*s.r
	fx, fy, fz := b.Mass*s.forward, b.Mass*s.right, b.Mass*s.down
	roll += m.z * fy
	pitch -= m.z*fx - m.x*fz
	yaw -= m.x * fy

	u, v, w := s.speed*math.Cos(s.beta)*math.Cos(s.alpha), s.speed*math.Sin(s.beta), s.speed*math.Cos(s.beta)*math.Sin(s.alpha)
	u, v, w = u+s.q*m.z, v+s.r*m.x-s.p*m.z, w-s.q*m.x
	speed := math.Sqrt(u*u + v*v + w*w)
	alpha, beta := math.Atan2(w, u), math.Asin(v/speed)
	force := 0.5 * m.density * speed * speed * m.area
	sin, cos := math.Sincos(alpha)
	return dimensionless{
		speed: speed, alpha: alpha, beta: beta,
		lift: ((fx-m.thrust)*sin - fz*cos) / force, side: fy / force,
		roll: roll / (force * m.span), pitch: pitch / (force * m.chord), yaw: yaw / (force * m.span),
	}
}

// block turns a smoothed segment into regressors and responses.
func (s *smoothed) block(axis Axis, setup *Setup, e reported) block {
	m := newReducer(s.segment, setup, e)
	n := len(s.q)
	out := block{
		flight: s.segment.Flight, kind: s.segment.Kind, control: s.segment.Control, start: s.start, step: s.segment.Step, density: m.density,
		apart: orthonormal(append([][]float64{constant(n)}, s.edges...)), input: s.moved(), fresh: newKernel(s.segment.Step).fresh(),
		columns: zeros(len(axisTerms(axis)), n), responses: zeros(len(axisResponses(axis)), n),
	}
	speedFactor := e.airspeed / math.Sqrt(e.density) // an airspeed tube feels ½ρV²: air reported denser is air reported slower
	quiet := min(s.quiet, n)
	for i := range n {
		one := flown{q: s.q[i], dq: s.dq[i], right: s.right[i], speed: s.speed[i] * speedFactor, alpha: s.alpha[i] + e.mounting, beta: s.beta[i]}
		one.p, one.r = turned(s.p[i], s.r[i], e.mounting)
		one.dp, one.dr = turned(s.dp[i], s.dr[i], e.mounting)
		one.forward, one.down = turned(s.forward[i], s.down[i], e.mounting)
		c := m.at(one)
		if i < quiet {
			out.lift += c.lift / float64(quiet)
			out.airspeed += c.speed / float64(quiet)
		}
		if axis == Longitudinal {
			put(out.columns, i, c.alpha, s.q[i]*m.chord/(2*c.speed), s.elevator[i]*e.elevator)
			put(out.responses, i, c.lift, c.pitch)
			continue
		}
		k := m.span / (2 * c.speed)
		put(out.columns, i, c.beta, s.p[i]*k, s.r[i]*k, s.aileron[i]*e.aileron, s.rudder[i]*e.rudder)
		put(out.responses, i, c.side, c.roll, c.yaw)
	}
	return out
}

func put(columns [][]float64, at int, values ...float64) {
	for j, v := range values {
		columns[j][at] = v
	}
}

func zeros(rows, columns int) [][]float64 {
	out := make([][]float64, rows)
	for i := range out {
		out[i] = make([]float64, columns)
	}
	return out
}
