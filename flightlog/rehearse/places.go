package rehearse

import "wingproof/flightlog"

// vector has components along body X, Y and Z.
type vector [3]float64

func (a vector) plus(b vector) vector { return vector{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }

func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// arms lead from the CG to the sensors in body axes, m; zero for a sensor at the CG.
type arms struct{ inertial, tube, vanes, antenna vector }

// arms of this aircraft's sensors. Places are in datum axes at model size, the CG is at full size.
func (a Aircraft) arms(s flightlog.Sensors) arms {
	from := func(p *flightlog.Place) vector {
		if p == nil {
			return vector{}
		}
		return vector{a.CGX*a.LengthRatio - p.X, p.Y, a.CGZ*a.LengthRatio - p.Z}
	}
	return arms{inertial: from(s.Inertial), tube: from(s.Tube), vanes: from(s.Vanes), antenna: from(s.Antenna)}
}

// velocityAt is what a velocity of the CG becomes at the end of an arm, for rates ω: v + ω×r.
func velocityAt(v, rates, arm vector) vector { return v.plus(rates.cross(arm)) }

// forceAt is what a specific force at the CG becomes at the end of an arm: f + ω̇×r + ω×(ω×r).
func forceAt(force, rates, acceleration, arm vector) vector {
	return force.plus(acceleration.cross(arm)).plus(rates.cross(rates.cross(arm)))
}
