package study

import (
	"math"
	"reflect"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reconstruct"
	"wingproof/flightlog/reduce"
)

// Sound takes out of a reduction what holds a number which is none, as impossible temperatures or pressures make them: no
// document could hold it.
func Sound(r reduce.Reduction) reduce.Reduction {
	lost := func(start, end float64, what, consequence string) {
		r.Findings = append(r.Findings, flightlog.Finding{Severity: flightlog.Loss, Start: start, End: end, What: what, Consequence: consequence})
	}
	r.Points = finiteOnes(r.Points, func(p reduce.TestPoint) {
		lost(p.Start, p.End, "the samples of this stretch give no finite numbers", "no test point from it; look at pressure and temperature of the log")
	})
	r.Manoeuvres = finiteOnes(r.Manoeuvres, func(m manoeuvre.Manoeuvre) {
		lost(m.Start, m.End, "the samples of this manoeuvre give no finite numbers", "it is not listed; look at pressure and temperature of the log")
	})
	r.Stalls = finiteOnes(r.Stalls, func(p reduce.StallPoint) {
		lost(p.Start, p.Time, "the samples of this deceleration give no finite numbers", "nothing is told of the stall; look at pressure and temperature of the log")
	})
	r.Slips = finiteOnes(r.Slips, func(p reduce.SlipPoint) {
		lost(p.Start, p.End, "the samples of this sideslip give no finite numbers", "it is left out; look at pressure and temperature of the log")
	})
	r.Loads = finiteOnes(r.Loads, func(p reduce.LoadPoint) {
		lost(p.Start, p.End, "the samples of this turn or pull-up give no finite numbers", "it is left out; look at pressure and temperature of the log")
	})
	r.Segments = finiteOnes(r.Segments, func(one identify.Segment) {
		lost(one.Start, one.Start+one.Step*float64(len(one.Airspeed)), "the samples of this input give no finite numbers", "no derivative comes from it; look at pressure and temperature of the log")
	})
	r.Air.Whiteness = slices.DeleteFunc(slices.Clone(r.Air.Whiteness), func(w reconstruct.Whiteness) bool { return !allFinite(reflect.ValueOf(w)) })
	if !allFinite(reflect.ValueOf(r.Air)) {
		r.Air = reduce.Air{}
		lost(0, 0, "wind and airspeed scale of this flight are no finite numbers", "they are not told; look at pressure and temperature of the log")
	}
	if r.Air.Whiteness == nil {
		r.Air.Whiteness = []reconstruct.Whiteness{}
	}
	return r
}

// finiteOnes keeps what holds finite numbers only, and calls lost for the rest. It is never nil.
func finiteOnes[T any](list []T, lost func(T)) []T {
	kept := []T{}
	for _, one := range list {
		if allFinite(reflect.ValueOf(one)) {
			kept = append(kept, one)
			continue
		}
		lost(one)
	}
	return kept
}

// allFinite tells whether every number in plain data is one.
func allFinite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Struct:
		for i := range v.NumField() {
			if !allFinite(v.Field(i)) {
				return false
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if !allFinite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}
