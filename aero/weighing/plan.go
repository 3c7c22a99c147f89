package weighing

import (
	"fmt"
	"math"
)

// plan is a session with every number that carries an error replaced by its place in the book.
type plan struct {
	book
	gravity, air entry
	points       map[string]pointPlan
	attitudes    []attitudePlan
	swings       []swingPlan
	strips       []strip
	levels       bool // some level run gives x
	heights      bool // attitudes differ enough to give z
	sideways     bool // some level run gives y
	inclined     bool // the swings in the plane of symmetry give Ix, Iz and Ixz together
	missing      []string
	warnings     []string
}

type pointPlan struct {
	x    entry
	y, z *entry
}

type attitudePlan struct {
	name     string
	tilted   bool
	hung     bool
	angle    entry
	exact    bool // the angle is taken as zero, because the height of some support is not stated
	sideways bool // every support states its y
	readings []readingPlan
	weight   float64
}

type readingPlan struct {
	point      pointPlan
	load, tare entry
}

// swingPlan is one swing; entries that its rig does not have are −1.
type swingPlan struct {
	Swing
	angle, spacing, length, pivot, pivotX, pivotZ, period, amplitude entry
	hangerMass, hangerDepth, hangerPeriod                            entry
	weight                                                           float64
}

// none is an input that was not stated.
const none entry = -1

// leastTilt is the least difference between two attitudes from which a height is worked out.
const leastTilt = 5 * math.Pi / 180

func newPlan(s Session) (*plan, error) {
	p := &plan{points: map[string]pointPlan{}}
	p.gravity = p.enter(LocalGravity, "", s.Gravity)
	p.air = p.enter(AirEstimate, "", Figure{1, airSD})
	if s.Air != nil {
		p.strips = s.Air.strips()
	}
	for _, point := range s.Points {
		planned := pointPlan{x: p.enter(StationX, point.Name, point.X)}
		if point.Y != nil {
			y := p.enter(StationY, point.Name, *point.Y)
			planned.y = &y
		}
		if point.Z != nil {
			z := p.enter(StationZ, point.Name, *point.Z)
			planned.z = &z
		}
		p.points[point.Name] = planned
	}
	for _, a := range s.Attitudes {
		if err := p.attitude(a); err != nil {
			return nil, err
		}
	}
	for _, swing := range s.Swings {
		if err := p.swing(swing); err != nil {
			return nil, err
		}
	}
	return p, nil
}

func (p *plan) attitude(a Attitude) error {
	planned := attitudePlan{name: a.Name, tilted: a.Tilted, hung: a.Tilted && len(a.Readings) == 1, sideways: len(a.Readings) > 2, weight: 1}
	for _, r := range a.Readings {
		point, ok := p.points[r.Point]
		if !ok {
			return fmt.Errorf("weighing: %s stands on %q, which is no point of the session", a.Name, r.Point)
		}
		if point.z == nil && a.Tilted {
			return fmt.Errorf("weighing: %s is tilted and the height of %q is not stated", a.Name, r.Point)
		}
		planned.exact = planned.exact || point.z == nil
		planned.sideways = planned.sideways && point.y != nil
		reading := readingPlan{point: point, load: none, tare: none}
		if !planned.hung {
			if len(r.Loads) == 0 {
				return fmt.Errorf("weighing: %s has no load on %q", a.Name, r.Point)
			}
			reading.load = p.enter(Load, a.Name+", "+r.Point, loadOf(r.Loads, r.SD))
			reading.tare = p.enter(Tare, a.Name+", "+r.Point, r.Tare)
		}
		planned.readings = append(planned.readings, reading)
	}
	if len(planned.readings) == 0 {
		return fmt.Errorf("weighing: %s has no reading", a.Name)
	}
	planned.angle = p.enter(Angle, a.Name, a.Angle)
	p.attitudes = append(p.attitudes, planned)
	return nil
}

func (p *plan) swing(s Swing) error {
	if len(s.Timings) == 0 {
		return fmt.Errorf("weighing: %s has no timing", s.Name)
	}
	planned := swingPlan{Swing: s, spacing: none, length: none, pivot: none, pivotX: none, pivotZ: none, hangerMass: none, hangerDepth: none, hangerPeriod: none, weight: 1}
	planned.angle = p.enter(Angle, s.Name, Figure{s.attitude(), s.Angle.SD})
	planned.period = p.enter(Period, s.Name, PeriodOf(s.Timings, s.TimingSD))
	planned.amplitude = p.enter(Amplitude, s.Name, s.Amplitude)
	if s.Rig == BifilarRig {
		planned.spacing, planned.length = p.enter(Spacing, s.Name, s.Spacing), p.enter(Length, s.Name, s.Length)
	}
	for _, one := range []struct {
		to   *entry
		kind Kind
		from *Figure
	}{{&planned.pivot, PivotDistance, s.Pivot}, {&planned.pivotX, PivotX, s.PivotX}, {&planned.pivotZ, PivotZ, s.PivotZ}} {
		if s.Rig == CompoundRig && one.from != nil {
			*one.to = p.enter(one.kind, s.Name, *one.from)
		}
	}
	if h := s.Hanger; h != nil {
		if len(h.Timings) == 0 || s.Rig == CompoundRig && h.Depth == nil {
			return fmt.Errorf("weighing: the hanger of %s was not swung by itself", s.Name)
		}
		planned.hangerMass, planned.hangerPeriod = p.enter(HangerMass, s.Name, h.Mass), p.enter(HangerPeriod, s.Name, PeriodOf(h.Timings, h.TimingSD))
		if h.Depth != nil {
			planned.hangerDepth = p.enter(HangerDepth, s.Name, *h.Depth)
		}
	}
	p.swings = append(p.swings, planned)
	return nil
}

// attitude is how far the nose is up while the model swings so that the axis of the rig is the one asked for; pitch has none.
func (s Swing) attitude() float64 {
	switch {
	case s.Axis == Inclined:
		return s.Angle.Value
	case s.Rig == BifilarRig && s.Axis == Roll:
		return -math.Pi / 2
	case s.Rig == CompoundRig && s.Axis == Yaw:
		return math.Pi / 2
	}
	return 0
}
