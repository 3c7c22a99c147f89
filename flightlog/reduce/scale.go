package reduce

import (
	"math"
	"slices"

	"wingproof/flightlog/identify"
)

// WithoutAirspeedScale gives a reduction as a tube without error would have: the scale is indicated over true airspeed − 1, as the flights of
// one logger tell it together. The reduction itself is left as it is.
//
// Dynamic pressure goes with the square of the airspeed, coefficients of force with one over it. The sine of the path angle is climb over
// airspeed, and so are the drag of a glide over weight and the angle of attack that is taken as attitude less path angle; a reconstructed one
// knows the scale already. Load factors, rates, forces and attitudes do not hang on it.
func (r Reduction) WithoutAirspeedScale(scale float64) Reduction {
	k := 1 + scale
	r.Points, r.Stalls = slices.Clone(r.Points), slices.Clone(r.Stalls)
	r.Slips, r.Loads, r.Segments = slices.Clone(r.Slips), slices.Clone(r.Loads), slices.Clone(r.Segments)
	for i := range r.Points {
		r.Points[i].scaleAirspeed(k)
	}
	for i := range r.Stalls {
		p := &r.Stalls[i]
		p.Airspeed, p.Reynolds, p.Slowing = p.Airspeed/k, p.Reynolds/k, p.Slowing/k
		p.Lift, p.LiftSD = p.Lift*k*k, p.LiftSD*k*k
	}
	for i := range r.Slips {
		p := &r.Slips[i]
		p.Airspeed, p.Lift = p.Airspeed/k, p.Lift*k*k
		p.SideForce, p.SideForceSD = p.SideForce*k*k, p.SideForceSD*k*k
	}
	for i := range r.Loads {
		p := &r.Loads[i]
		p.Airspeed, p.Lift, p.LiftSD = p.Airspeed/k, p.Lift*k*k, p.LiftSD*k*k
	}
	for i := range r.Segments {
		scaleSegment(&r.Segments[i], k)
	}
	return r
}

// scaleAirspeed divides the airspeed of a point by a factor.
func (p *TestPoint) scaleAirspeed(k float64) {
	path := math.Asin(clamp(math.Sin(p.PathAngle) * k))
	if p.AlphaMethod == ByAttitude {
		p.Alpha -= path - p.PathAngle
	}
	p.PathAngle = path
	p.Airspeed, p.AirspeedSD, p.Reynolds = p.Airspeed/k, p.AirspeedSD/k, p.Reynolds/k
	p.DynamicPressure /= k * k
	p.Lift, p.LiftSD = p.Lift*k*k, p.LiftSD*k*k
	p.Drag, p.DragSD = p.Drag*k*k*k, p.DragSD*k*k*k
}

// scaleSegment divides the airspeed of a segment by a factor, in a history of its own.
func scaleSegment(s *identify.Segment, k float64) {
	speed := make([]float64, len(s.Airspeed))
	for i, v := range s.Airspeed {
		speed[i] = v / k
	}
	s.Airspeed = speed
}
