package identify

import (
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog"
)

// made flies published derivatives without noise, gusts or instruments: six degrees of freedom in body velocities and Euler angles, in
// steps of a millisecond, independent of the models in this package.
type made struct {
	d       aero.Derivatives // about the CG
	body    stability.Body
	density float64
	bank    float64 // parabola of drag against lift
	inputs  func(time float64) (elevator, aileron, rudder float64)
}

// flight is u, v, w, p, q, r, roll, pitch.
type madeState [8]float64

func (m *made) rate(s madeState, time float64) (d madeState, force [3]float64) {
	u, v, w, p, q, r := s[0], s[1], s[2], s[3], s[4], s[5]
	speed := math.Sqrt(u*u + v*v + w*w)
	alpha, beta := math.Atan2(w, u), math.Asin(v/speed)
	ref := m.d.Reference
	pressure := 0.5 * m.density * speed * speed * ref.Area
	elevator, aileron, rudder := m.inputs(time)
	c := m.d.At.Plus(m.d.ByAlpha.Times(alpha - m.d.Alpha)).Plus(m.d.ByBeta.Times(beta)).
		Plus(m.d.ByRollRate.Times(p * ref.Span / (2 * speed))).Plus(m.d.ByPitchRate.Times(q * ref.MeanChord / (2 * speed))).
		Plus(m.d.ByYawRate.Times(r * ref.Span / (2 * speed))).
		Plus(m.d.ByControl["elevator"].Times(elevator)).Plus(m.d.ByControl["aileron"].Times(aileron)).Plus(m.d.ByControl["rudder"].Times(rudder))
	drag := m.d.At.Drag + m.bank*c.Lift*c.Lift
	sin, cos := math.Sincos(alpha)
	force = [3]float64{
		pressure * (c.Lift*sin - drag*cos) / m.body.Mass, pressure * c.Side / m.body.Mass, -pressure * (c.Lift*cos + drag*sin) / m.body.Mass,
	}
	const g = atmosphere.Gravity
	sr, cr := math.Sincos(s[6])
	sp, cp := math.Sincos(s[7])
	d[0] = force[0] - g*sp + r*v - q*w
	d[1] = force[1] + g*sr*cp + p*w - r*u
	d[2] = force[2] + g*cr*cp + q*u - p*v
	b := m.body
	l := pressure*ref.Span*c.Roll + (b.Iy-b.Iz)*q*r + b.Ixz*p*q
	n := pressure*ref.Span*c.Yaw + (b.Ix-b.Iy)*p*q - b.Ixz*q*r
	det := b.Ix*b.Iz - b.Ixz*b.Ixz
	d[3] = (b.Iz*l + b.Ixz*n) / det
	d[4] = (pressure*ref.MeanChord*c.Pitch + (b.Iz-b.Ix)*p*r - b.Ixz*(p*p-r*r)) / b.Iy
	d[5] = (b.Ixz*l + b.Ix*n) / det
	d[6] = p + (q*sr+r*cr)*sp/cp
	d[7] = q*cr - r*sr
	return d, force
}

// segment flies from trim for some seconds and records at a step.
func (m *made) segment(alpha, speed, seconds, step float64, control flightlog.Quantity) Segment {
	path := (m.d.At.Drag + m.bank*m.d.At.Lift*m.d.At.Lift) / m.d.At.Lift
	s := madeState{0: speed * math.Cos(alpha), 2: speed * math.Sin(alpha), 7: alpha - path}
	out := Segment{Flight: "F1", Kind: "doublet", Control: control, Power: "idle", Step: step, Density: m.density, Body: m.body, CGX: m.d.MomentPoint, CGZ: m.d.MomentZ}
	const fine = 1e-3
	parts := int(math.Round(step / fine))
	for k := 0; k <= int(seconds/step); k++ {
		time := float64(k) * step
		_, force := m.rate(s, time)
		u, v, w := s[0], s[1], s[2]
		airspeed := math.Sqrt(u*u + v*v + w*w)
		e, a, r := m.inputs(time)
		for channel, value := range map[*[]float64]float64{
			&out.RollRate: s[3], &out.PitchRate: s[4], &out.YawRate: s[5], &out.ForwardForce: force[0], &out.RightForce: force[1], &out.DownForce: force[2],
			&out.Roll: s[6], &out.Pitch: s[7], &out.Airspeed: airspeed, &out.Alpha: math.Atan2(w, u), &out.Beta: math.Asin(v / airspeed),
			&out.Elevator: e, &out.Aileron: a, &out.Rudder: r,
		} {
			*channel = append(*channel, value)
		}
		for i := range parts {
			s = m.advance(s, time+float64(i)*fine, fine)
		}
	}
	return out
}

func (m *made) advance(s madeState, time, h float64) madeState {
	plus := func(k float64, d madeState) madeState {
		for i := range d {
			d[i] = s[i] + k*d[i]
		}
		return d
	}
	k1, _ := m.rate(s, time)
	k2, _ := m.rate(plus(h/2, k1), time+h/2)
	k3, _ := m.rate(plus(h/2, k2), time+h/2)
	k4, _ := m.rate(plus(h, k3), time+h)
	for i := range s {
		s[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
	return s
}

// stick is a doublet with slopes of a tenth of a second, straight between samples of a hundredth.
func stick(time, start, width, size float64) float64 {
	const slope = 0.1
	t := time - start
	knots := []struct{ time, value float64 }{{0, 0}, {slope, size}, {width, size}, {width + 2*slope, -size}, {2*width + slope, -size}, {2*width + 2*slope, 0}}
	for i := 1; i < len(knots); i++ {
		a, b := knots[i-1], knots[i]
		if t >= a.time && t < b.time {
			return a.value + (b.value-a.value)*(t-a.time)/(b.time-a.time)
		}
	}
	return 0
}
