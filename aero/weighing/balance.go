package weighing

import "math"

// place is where a body is in balance: mass in kg, CG in m from the model's datum; NaN where it does not follow.
type place struct{ mass, x, y, z float64 }

// balance works out mass and CG from the inputs u.
func (p *plan) balance(u []float64) place {
	at := place{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	var mass, runs, side, sides float64
	for _, a := range p.attitudes {
		if a.tilted {
			continue
		}
		total, moment := a.load(u)
		mass += total
		runs++
		if a.sideways {
			side += moment / total
			sides++
		}
	}
	if runs > 0 {
		at.mass = mass / runs
	}
	if sides > 0 {
		at.y = side / sides
	}
	switch {
	case p.heights:
		at.x, at.z = p.lines(u)
	case p.levels:
		at.x = p.level(u)
	}
	return at
}

// load is the sum of the loads of an attitude [kg] and their moment about the plane of symmetry [kg·m].
func (a attitudePlan) load(u []float64) (total, moment float64) {
	for _, r := range a.readings {
		w := u[r.load] - u[r.tare]
		total += w
		if a.sideways {
			moment += w * u[*r.point.y]
		}
	}
	return total, moment
}

// stands is how far aft along the ground the supports carry the model, Σ w h/Σ w, with the cosine and sine of the attitude.
func (a attitudePlan) stands(u []float64) (aft, cos, sin float64) {
	cos, sin = math.Cos(u[a.angle]), math.Sin(u[a.angle])
	if a.exact {
		cos, sin = 1, 0
	}
	var total, moment float64
	for _, r := range a.readings {
		w := 1.0
		if !a.hung {
			w = u[r.load] - u[r.tare]
		}
		h := u[r.point.x] * cos
		if r.point.z != nil && !a.exact {
			h += u[*r.point.z] * sin
		}
		total += w
		moment += w * h
	}
	return moment / total, cos, sin
}

// givesLine tells whether the attitude says where the CG's vertical passes: two supports or more, or a hook.
func (a attitudePlan) givesLine() bool { return a.hung || len(a.readings) > 1 }

// lines intersects the verticals of all attitudes, each a line that the CG lies on, by weighted least squares.
func (p *plan) lines(u []float64) (x, z float64) {
	var cc, cs, ss, hc, hs float64
	for _, a := range p.attitudes {
		if !a.givesLine() {
			continue
		}
		h, c, s := a.stands(u)
		cc, cs, ss = cc+a.weight*c*c, cs+a.weight*c*s, ss+a.weight*s*s
		hc, hs = hc+a.weight*h*c, hs+a.weight*h*s
	}
	det := cc*ss - cs*cs
	return (hc*ss - hs*cs) / det, (hs*cc - hc*cs) / det
}

// level is x where only level runs are there. The CG is then taken at the height of the datum, so that a model that stands off level
// errs by the supports' distance from it; where their heights are not stated, levelling is left out, and survey says so.
func (p *plan) level(u []float64) float64 {
	var sum, weight float64
	for _, a := range p.attitudes {
		if !a.tilted && a.givesLine() {
			aft, cos, _ := a.stands(u)
			sum += a.weight * aft / cos
			weight += a.weight
		}
	}
	return sum / weight
}

// survey finds what the attitudes can give, and says what is missing.
func (p *plan) survey() {
	scales, unknown, attitudes := 0, false, []float64{}
	for _, a := range p.attitudes {
		if !a.tilted {
			scales++
			p.levels = p.levels || a.givesLine()
			p.sideways = p.sideways || a.sideways
		}
		if a.givesLine() {
			angle := p.values[a.angle]
			if a.exact {
				angle, unknown = 0, true
			}
			attitudes = append(attitudes, angle)
		}
	}
	for i, a := range attitudes {
		for _, b := range attitudes[:i] {
			p.heights = p.heights || math.Abs(math.Sin(a-b)) >= math.Sin(leastTilt)
		}
	}
	switch {
	case scales == 0:
		p.missing = append(p.missing, "the mass: put the model level on its scales (what = scale)")
	case !p.levels && !p.heights:
		p.missing = append(p.missing, "the CG: one scale gives the mass only; put the model on two or three")
	}
	if unknown {
		p.missing = append(p.missing, "what standing off level does to the CG: fill in z_mm of every support")
	}
	if !p.heights {
		p.missing = append(p.missing, "the CG's height: weigh with the nose propped up, or hang the model from a second point (what = tilt), at least 5°, better 20°, from level")
	}
}
