package weighing

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// leastMixed is the least determinant of the plane of symmetry's equations from which Ixz is worked out: that of yaw, roll and an
// axis inclined by about 5°.
const leastMixed = 0.02

// arm is the distance from the axis of a compound pendulum to the model's CG [m]; NaN when it does not follow.
func (s swingPlan) arm(u []float64, at place) float64 {
	if s.pivot != none {
		return u[s.pivot]
	}
	px, pz := at.x, math.NaN()
	if s.pivotX != none {
		px = u[s.pivotX]
	}
	if s.pivotZ != none {
		pz = u[s.pivotZ]
	}
	switch s.Axis {
	case Pitch:
		if s.pivotX == none || s.pivotZ == none {
			return math.NaN()
		}
		return math.Hypot(px-at.x, pz-at.z)
	case Yaw:
		if s.pivotX == none {
			return math.NaN()
		}
		return math.Abs(px - at.x)
	}
	sin, cos := math.Sincos(u[s.angle])
	return math.Abs((pz-at.z)*cos - (px-at.x)*sin)
}

// axis is the direction of the axis in datum axes, and a point on it.
func (s swingPlan) axis(u []float64, at place, arm float64) (point, direction r3.Vec) {
	sin, cos := math.Sincos(u[s.angle])
	cg := r3.Vec{X: at.x, Z: at.z}
	if math.IsNaN(cg.X) {
		cg.X = 0
	}
	if math.IsNaN(cg.Z) {
		cg.Z = 0
	}
	up := r3.Vec{X: -sin, Z: cos}
	switch {
	case s.Rig == BifilarRig && s.Axis == Pitch:
		return cg, r3.Vec{Y: 1}
	case s.Rig == BifilarRig:
		return cg, up
	case s.Axis == Pitch:
		if s.pivotX != none && s.pivotZ != none {
			return r3.Vec{X: u[s.pivotX], Z: u[s.pivotZ]}, r3.Vec{Y: 1}
		}
		return r3.Add(cg, r3.Vec{Z: arm}), r3.Vec{Y: 1}
	}
	return r3.Add(cg, r3.Scale(arm, up)), r3.Vec{X: cos, Z: sin}
}

// inertia is that of the model alone about the swing's axis, carried to the CG [kg·m²]: hanger and air are taken off.
func (p *plan) inertia(s swingPlan, u []float64, at place) float64 {
	g := u[p.gravity]
	period := SmallSwing(u[s.period], u[s.amplitude])
	var hanger, hangerPeriod, arm, model float64
	if s.hangerMass != none {
		hanger, hangerPeriod = u[s.hangerMass], SmallSwing(u[s.hangerPeriod], u[s.amplitude])
	}
	if s.Rig == BifilarRig {
		model = Bifilar(at.mass+hanger, g, u[s.spacing], u[s.length], period)
		if hanger > 0 {
			model -= Bifilar(hanger, g, u[s.spacing], u[s.length], hangerPeriod)
		}
	} else {
		arm = s.arm(u, at)
		moment := 0.0
		if hanger > 0 {
			moment = hanger * u[s.hangerDepth]
		}
		model = Pendulum(at.mass*arm+moment, g, period) - at.mass*arm*arm
		if hanger > 0 {
			model -= Pendulum(moment, g, hangerPeriod)
		}
	}
	if len(p.strips) == 0 || math.IsNaN(model) {
		return model
	}
	point, axis := s.axis(u, at, arm)
	return model - u[p.air]*inertiaOf(p.strips, point, axis)
}

// mix says how much of Ix, Iz and Ixz the swing's axis sees.
func (s swingPlan) mix(u []float64) [3]float64 {
	sin, cos := math.Sincos(u[s.angle])
	if s.Rig == BifilarRig {
		return [3]float64{sin * sin, cos * cos, 2 * sin * cos}
	}
	return [3]float64{cos * cos, sin * sin, -2 * sin * cos}
}

// moments are the inertias about the CG [kg·m²]; NaN where they do not follow.
type moments struct{ ix, iy, iz, ixz float64 }

// combine turns the inertia of every swing into the four of the model.
func (p *plan) combine(u, swung []float64) moments {
	out := moments{math.NaN(), p.mean(Pitch, swung), math.NaN(), math.NaN()}
	if !p.inclined {
		out.ix, out.iz = p.mean(Roll, swung), p.mean(Yaw, swung)
		return out
	}
	var m [3][3]float64
	var r [3]float64
	for k, s := range p.swings {
		if s.Axis == Pitch || math.IsNaN(swung[k]) {
			continue
		}
		row := s.mix(u)
		for i := range 3 {
			for j := range 3 {
				m[i][j] += s.weight * row[i] * row[j]
			}
			r[i] += s.weight * row[i] * swung[k]
		}
	}
	whole := determinant(m)
	for i, to := range []*float64{&out.ix, &out.iz, &out.ixz} {
		replaced := m
		for j := range 3 {
			replaced[j][i] = r[j]
		}
		*to = determinant(replaced) / whole // Cramer's rule
	}
	return out
}

// mean is the weighted mean of all swings about one axis; NaN when there is none.
func (p *plan) mean(axis Axis, swung []float64) float64 {
	var sum, weight float64
	for k, s := range p.swings {
		if s.Axis == axis && !math.IsNaN(swung[k]) {
			sum += s.weight * swung[k]
			weight += s.weight
		}
	}
	if weight == 0 {
		return math.NaN()
	}
	return sum / weight
}

func determinant(m [3][3]float64) float64 {
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}
