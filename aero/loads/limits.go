package loads

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Limits are the plain figures from which Conditions draws its list.
type Limits struct {
	Positive       float64 // limit load factor up, such as 3.8
	Negative       float64 // limit load factor down, such as −1.52; 0 leaves the conditions out
	ManoeuvreSpeed float64 // equivalent, m/s; ManoeuvreSpeed gives the least one
	DiveSpeed      float64 // equivalent, m/s: the limit loads are flown there too; 0 leaves them out

	Gusts []Gust   // load factors are worked out for each loading: the lightest feels most
	Wing  GustWing // needed where there are gusts

	NoAileron    bool    // leaves the rolling conditions out
	AileronOnset bool    // also the moment at which the ailerons are out and the roll has not begun
	NoRudder     bool    // leaves the conditions with rudder out
	Sideslip     float64 // rad, the greatest that full rudder brings, overswing included; 0 leaves sideslip out

	Loadings []Loading
}

// Conditions lists what has to be flown, loading by loading, in a fixed order:
//
//	limit load up, and down, at the manoeuvre speed and at the dive speed
//	every gust, from below and from above
//	two thirds of the limit load up with full aileron at the manoeuvre speed, in a steady roll: the air load of the
//	    ailerons and that of the roll rate which takes up their moment; AileronOnset adds the moment before the roll
//	level flight at the manoeuvre speed with full rudder before any sideslip, with the sideslip
//	    that it brings, and with that sideslip and the rudder back in neutral
//
// Wing and foreplane have their worst loading at different CGs, so every loading is flown. At the dive speed the
// negative limit is not tapered as codes allow: on the heavy side.
//
// Source: the pattern of 14 CFR 23.333, 23.337, 23.341, 23.349(b), 23.441 and 23.455 as they stood before 2017, from memory.
//
// The error lists every figure that does not fit, and what would.
func Conditions(l Limits) ([]Condition, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	var list []Condition
	for _, loading := range l.Loadings {
		gusts, err := l.gusty(loading.Mass)
		if err != nil {
			return nil, fmt.Errorf("loading %q: %w", loading.Name, err)
		}
		for _, c := range slices.Concat(l.symmetric(), gusts, l.rolling(), l.yawing()) {
			c.Name += "; " + loading.Name
			c.Loading, c.Mass, c.CG, c.FuelFull = loading.Name, loading.Mass, loading.CG, loading.FuelFull
			list = append(list, c)
		}
	}
	return list, nil
}

// symmetric are the limit loads.
func (l Limits) symmetric() []Condition {
	list := []Condition{{Name: "limit load up at the manoeuvre speed", LoadFactor: l.Positive, Speed: l.ManoeuvreSpeed}}
	if l.DiveSpeed > 0 {
		list = append(list, Condition{Name: "limit load up at the dive speed", LoadFactor: l.Positive, Speed: l.DiveSpeed})
	}
	if l.Negative < 0 {
		list = append(list, Condition{Name: "limit load down at the manoeuvre speed", LoadFactor: l.Negative, Speed: l.ManoeuvreSpeed})
	}
	if l.Negative < 0 && l.DiveSpeed > 0 {
		list = append(list, Condition{Name: "limit load down at the dive speed", LoadFactor: l.Negative, Speed: l.DiveSpeed})
	}
	return list
}

// gusty are the gusts as an aircraft of a mass feels them.
func (l Limits) gusty(mass float64) ([]Condition, error) {
	var list []Condition
	for _, g := range l.Gusts {
		below, above, err := GustLoadFactor(g, l.Wing, mass)
		if err != nil {
			return nil, err
		}
		list = append(list,
			Condition{Name: "gust from below " + g.Name, LoadFactor: below, Speed: g.Speed},
			Condition{Name: "gust from above " + g.Name, LoadFactor: above, Speed: g.Speed})
	}
	return list, nil
}

// rolling are the conditions with full aileron.
func (l Limits) rolling() []Condition {
	if l.NoAileron {
		return nil
	}
	base := Condition{LoadFactor: 2.0 / 3 * l.Positive, Speed: l.ManoeuvreSpeed, Aileron: 1}
	steady, onset := base, base
	steady.Name, steady.SteadyRoll = "two thirds of the limit load with full aileron, rolling steadily", true
	onset.Name = "two thirds of the limit load with full aileron, roll not yet begun"
	if l.AileronOnset {
		return []Condition{steady, onset}
	}
	return []Condition{steady}
}

// yawing are the conditions with rudder and sideslip.
func (l Limits) yawing() []Condition {
	level := func(name string, rudder, sideslip float64) Condition {
		return Condition{Name: "level flight, " + name, LoadFactor: 1, Speed: l.ManoeuvreSpeed, Rudder: rudder, Sideslip: sideslip}
	}
	var list []Condition
	if !l.NoRudder {
		list = append(list, level("full rudder, no sideslip yet", 1, 0))
	}
	if !l.NoRudder && l.Sideslip > 0 {
		list = append(list, level("full rudder and the sideslip that it brings", 1, l.Sideslip))
	}
	if l.Sideslip > 0 {
		list = append(list, level("sideslip, rudder neutral", 0, l.Sideslip))
	}
	return list
}

// check finds every figure that does not fit.
func (l Limits) check() error {
	var wrong []error
	report := func(bad bool, format string, values ...any) {
		if bad {
			wrong = append(wrong, fmt.Errorf("load conditions: "+format, values...))
		}
	}
	report(!(positive(l.Positive) && l.Positive >= 1), "the limit load factor up is %.4g; it has to be 1 or more", l.Positive)
	report(!(l.Negative <= 0) || math.IsInf(l.Negative, 0), "the limit load factor down is %.4g; it has to be negative, or zero to leave it out", l.Negative)
	report(!positive(l.ManoeuvreSpeed), "the manoeuvre speed is %.4g m/s; it has to be positive", l.ManoeuvreSpeed)
	report(l.DiveSpeed != 0 && !(positive(l.DiveSpeed) && l.DiveSpeed >= l.ManoeuvreSpeed),
		"the dive speed is %.4g m/s; it has to reach the manoeuvre speed, or be zero to leave it out", l.DiveSpeed)
	report(!(l.Sideslip >= 0 && l.Sideslip < math.Pi/2), "the sideslip is %.4g rad; it has to lie from 0 to below a quarter turn", l.Sideslip)
	report(len(l.Loadings) == 0, "there is no loading; give at least one mass and CG")
	for _, loading := range l.Loadings {
		report(!positive(loading.Mass), "loading %q has a mass of %.4g kg; it has to be positive", loading.Name, loading.Mass)
	}
	return errors.Join(wrong...)
}

// positive tells whether a figure is above zero and finite.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
