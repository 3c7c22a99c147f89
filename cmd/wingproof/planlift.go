package main

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/plan"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/study"
)

// Maximum lift of a trimmed foreplane aircraft at a model's Reynolds number, where nothing better is known: common practice, no
// source. The foreplane lets go first and leaves the wing below its own maximum.
const (
	usualMaxLift   = 1.05
	usualMaxLiftSD = 0.15
	likeSD         = 0.08 // relative, between configurations that share levels: common practice, no source
	sectionsSD     = 0.08 // relative, of what section data give for the whole aircraft: common practice, no source
)

// planMaxLift is the maximum lift of the model by CG: as flights of the configuration measured it; else as flights of those that are
// most like it did, the least at each CG; else as section data give it; else a default.
func planMaxLift(st *study.Study, c study.Configuration) []plan.Lift {
	if out := measuredLifts(st, c.Name); len(out) > 0 {
		return byCG(out)
	}
	if out := likeLifts(st, c); len(out) > 0 {
		return byCG(out)
	}
	var out []plan.Lift
	for _, s := range modelStalls(c) {
		if s.Greatest.Known && s.Greatest.Lift > 0 {
			out = append(out, plan.Lift{CG: s.CG, Value: s.Greatest.Lift, SD: sectionsSD * s.Greatest.Lift, Source: "from section data at the model's Reynolds number"})
		}
	}
	if len(out) == 0 {
		return []plan.Lift{{Value: usualMaxLift, SD: usualMaxLiftSD, Source: defaultLiftSource}}
	}
	return byCG(out)
}

// measuredLifts are those of the decelerations of one configuration.
func measuredLifts(st *study.Study, configuration string) []plan.Lift {
	var out []plan.Lift
	for _, e := range st.Estimates {
		if e.Configuration != configuration || e.Quantity != evidence.MaxLift || e.Scale != evidence.ModelScale || e.Origin != evidence.Measured {
			continue
		}
		if e.Value != nil && e.SD != nil && e.At.CG != nil && *e.Value > 0 {
			out = append(out, plan.Lift{CG: *e.At.CG, Value: *e.Value, SD: *e.SD, Source: "measured in decelerations of this configuration"})
		}
	}
	return out
}

// likeLifts are those of the configurations that share most levels with one that was not stalled yet.
func likeLifts(st *study.Study, c study.Configuration) []plan.Lift {
	most := 0
	var out []plan.Lift
	for _, other := range st.Configurations {
		lifts := measuredLifts(st, other.Name)
		shared := 0
		for choice, level := range c.Levels {
			if other.Levels[choice] == level {
				shared++
			}
		}
		if len(lifts) == 0 || shared < most {
			continue
		}
		if shared > most {
			most, out = shared, nil
		}
		for _, l := range lifts {
			l.SD, l.Source = math.Hypot(l.SD, likeSD*l.Value), "as measured with "+spoken(other.Name)+", this configuration was not stalled yet"
			out = append(out, l)
		}
	}
	return out
}

// spoken is the name of a configuration in words.
func spoken(name string) string { return strings.NewReplacer("=", " ", ",", ", ").Replace(name) }

// byCG sorts lifts by CG, forward first; of those at one CG the least stays.
func byCG(lifts []plan.Lift) []plan.Lift {
	const together = 0.005 // m, full size
	slices.SortStableFunc(lifts, func(a, b plan.Lift) int { return cmp.Compare(a.CG, b.CG) })
	var out []plan.Lift
	for _, l := range lifts {
		n := len(out)
		switch {
		case n == 0 || l.CG-out[n-1].CG > together:
			out = append(out, l)
		case l.Value < out[n-1].Value:
			l.CG = out[n-1].CG
			out[n-1] = l
		}
	}
	return out
}

// defaultLiftSource is how a sheet calls the default.
const defaultLiftSource = "from a default, no section data"

// modelStalls are the trimmed stalls of the clean model.
func modelStalls(c study.Configuration) []prediction.StallCase {
	var out []prediction.StallCase
	for _, s := range c.Stalls {
		if s.Size == evidence.ModelScale && s.Surfaces == prediction.AllClean && s.Handling != prediction.AftStop {
			out = append(out, s)
		}
	}
	return out
}

// planStalls is which surface lets go first at both ends of the loadings. A margin that is only bounded counts at its bound.
func planStalls(c study.Configuration) []plan.Stall {
	var out []plan.Stall
	for _, s := range modelStalls(c) {
		one := plan.Stall{CG: s.CG, SD: s.Deviation, Words: s.Verdict}
		if math.IsNaN(one.SD) {
			one.SD = 0
		}
		var ok bool
		if one.Margin, ok = s.Order.Margin.Value(); !ok {
			if one.Margin, ok = s.Order.Margin.AtLeast(); !ok {
				if one.Margin, ok = s.Order.Margin.AtMost(); !ok {
					continue
				}
				one.Margin = math.Min(one.Margin, 0)
			}
		}
		out = append(out, one)
	}
	return out
}
