package estimate

import (
	"cmp"
	"math"
	"slices"

	"wingproof/flightlog/identify"
)

// alikeFrom is the correlation of two estimates of one fit from which it is said that the input hardly tells them apart.
// Source: V. Klein and E. A. Morelli, Aircraft System Identification, AIAA 2006: 0.9 and above is where collinearity begins to
// harm (from memory); 0.95 is common practice, no source.
const alikeFrom = 0.95

// leastSD is the share of a value below which its standard deviation is rounding, not a measurement.
const leastSD = 1e-9

// flightValue is what one flight says about one quantity.
type flightValue struct {
	flight   string
	flights  []string // of a joint fit
	value    float64
	variance float64 // of its random part, as the fit states it
	weight   float64 // 1; less for a flight that lies far off
	distance float64 // from the other flights, in standard deviations; 0 unless far off
	common   map[string]float64
	segments int
	lift     float64
	fit      *identify.Fit // where it comes from, and its place there
	index    int
}

// leftOut is a flight that does not determine a quantity.
type leftOut struct{ flight, why string }

// derivativeSet is everything that the flights of one configuration say about one quantity in one power state.
type derivativeSet struct {
	quantity, power string
	method          string
	moment, apart   float64 // model-size m aft of datum, and how far the moment points of the fits lie from one another
	values          []flightValue
	joint           *flightValue
	left            []leftOut
	alike           map[string][]string // quantity that moves together with this one ► flights
}

// collect sorts fits by quantity and power state, flights by name.
func collect(fits, joint []identify.Fit) []derivativeSet {
	sets := map[[2]string]*derivativeSet{}
	find := func(f identify.Fit, d identify.Derivative) *derivativeSet {
		key := [2]string{d.Quantity, f.Power}
		if sets[key] == nil {
			sets[key] = &derivativeSet{quantity: d.Quantity, power: f.Power, method: f.Method, moment: f.MomentX, alike: map[string][]string{}}
		}
		s := sets[key]
		s.apart = math.Max(s.apart, math.Abs(f.MomentX-s.moment))
		return s
	}
	fits, joint = sortedFits(fits), sortedFits(joint)
	for k := range fits {
		for i, d := range fits[k].Derivatives {
			find(fits[k], d).add(&fits[k], i)
		}
	}
	for k := range joint {
		for i, d := range joint[k].Derivatives {
			s := find(joint[k], d)
			if v, ok := valueOf(&joint[k], i); ok && s.joint == nil {
				s.joint = &v
			}
		}
	}
	out := make([]derivativeSet, 0, len(sets))
	for _, s := range sets {
		s.values = onePerFlight(s.values)
		out = append(out, *s)
	}
	slices.SortFunc(out, compareSets)
	return out
}

// add takes one flight's number, or the reason why it has none.
func (s *derivativeSet) add(f *identify.Fit, index int) {
	name, d := flightOf(*f), f.Derivatives[index]
	v, ok := valueOf(f, index)
	if !ok {
		s.left = append(s.left, leftOut{name, whyLeft(d)})
		return
	}
	s.values = append(s.values, v)
	for _, p := range f.Correlations {
		if math.Abs(p.Correlation) < alikeFrom {
			continue
		}
		switch d.Quantity {
		case p.One:
			s.alike[p.Other] = append(s.alike[p.Other], name)
		case p.Other:
			s.alike[p.One] = append(s.alike[p.One], name)
		}
	}
}

// valueOf is the number of one fit, unless it is not determined or not finite.
func valueOf(f *identify.Fit, index int) (flightValue, bool) {
	d := f.Derivatives[index]
	v := flightValue{flight: flightOf(*f), flights: f.Flights, value: d.Value, variance: square(d.SD), weight: 1, common: d.Common,
		segments: f.Segments, lift: f.LiftCoefficient, fit: f, index: index}
	return v, d.Determined && allFinite(square(d.Value), v.variance, f.LiftCoefficient) && d.SD > 0 && v.variance > square(leastSD*d.Value)
}

func whyLeft(d identify.Derivative) string {
	if d.Determined || d.Why == "" {
		return "its fit gave no finite number with a standard deviation"
	}
	return d.Why
}

func flightOf(f identify.Fit) string {
	if len(f.Flights) == 0 {
		return "without a name"
	}
	return f.Flights[0]
}

// onePerFlight joins several fits of one flight, which are not independent of each other, into one number; the values come sorted by flight.
func onePerFlight(values []flightValue) []flightValue {
	var out []flightValue
	for i := 0; i < len(values); {
		j := i + 1
		for j < len(values) && values[j].flight == values[i].flight {
			j++
		}
		out = append(out, joined(values[i:j]))
		i = j
	}
	return out
}

func joined(values []flightValue) flightValue {
	if len(values) == 1 {
		return values[0]
	}
	m := meanOf(values, flightScatter{})
	v := values[0]
	v.value, v.variance, v.lift, v.common, v.segments = m.value, m.variance, m.lift, m.common, 0
	for _, one := range values {
		v.segments += one.segments
	}
	return v
}

func sortedFits(fits []identify.Fit) []identify.Fit {
	out := slices.Clone(fits)
	slices.SortStableFunc(out, func(a, b identify.Fit) int {
		return cmp.Or(cmp.Compare(flightOf(a), flightOf(b)), cmp.Compare(a.Axis, b.Axis), cmp.Compare(a.Power, b.Power))
	})
	return out
}

func compareSets(a, b derivativeSet) int {
	return cmp.Or(cmp.Compare(placeOf(a.quantity), placeOf(b.quantity)), cmp.Compare(a.quantity, b.quantity), cmp.Compare(a.power, b.power))
}

// placeOf is the place of a quantity in package identify; names that are not there come last.
func placeOf(quantity string) int {
	if i := slices.Index(derivativeNames(), quantity); i >= 0 {
		return i
	}
	return len(derivativeNames())
}

func derivativeNames() []string {
	return append(longitudinalNames(),
		identify.SideForceSlope, identify.SideForceByRollRate, identify.SideForceByYawRate, identify.SideForceByAileron, identify.SideForceByRudder,
		identify.DihedralEffect, identify.RollDamping, identify.RollDueToYaw, identify.AileronPower, identify.RollByRudder,
		identify.DirectionalStiff, identify.YawDueToRoll, identify.YawDamping, identify.YawByAileron, identify.RudderPower)
}

func longitudinalNames() []string {
	return []string{identify.LiftCurveSlope, identify.LiftByPitchRate, identify.ElevatorLift,
		identify.PitchStiffness, identify.PitchDamping, identify.ElevatorPower, identify.PitchByAlphaRate}
}
