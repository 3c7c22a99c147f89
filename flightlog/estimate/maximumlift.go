package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/statistic"
)

const (
	// standardSlowing is the rate of slowing that results are carried to, m/s²: one knot a second is the rate at which stalling speeds
	// are stated (0.514 m/s²; FAA AC 23-8, stall tests, from memory), rounded.
	standardSlowing = 0.5
	// mostSlowing is the rate from which a deceleration is a pull-up rather than an approach to the stall, m/s²: six times the standard rate
	// (common practice, no source).
	mostSlowing = 3.0
	// chanceOfBound is the chance that a lower bound on maximum lift lies above the truth; half of the 5 % of an interval.
	chanceOfBound = 0.025
)

// MaximumLifts gives, for each CG at which decelerations were flown, foremost first, the greatest lift coefficient of steady, trimmed flight and
// the angle of attack there, from decelerations that ended in a break. There is one of each, not determined, where none was flown.
//
// Between CGs nothing is drawn: where the elevator's travel or the foreplane ends the climb of lift, it does so at some CGs only, and a line through
// them runs below the truth. CGs of one place are those closer than SameStation.
//
// The decelerations of a flight are averaged, because they share its airspeed, mass and vertical air, and flights are the sample. Fast slowing raises the peak: each peak is
// carried to 0.5 m/s², with the effect seen inside flights joined with what is commonly believed (see slowingEffect); what stays in doubt of
// it is the shared source slowing_rate. Powers are not mixed. A deceleration without a break reached less than there is: it is left out
// of the mean, and where nothing broke the greatest such lift is a lower bound: Low is set, High is nil, the state is weak.
//
// Warnings say which surface let go first, and how many decelerations say otherwise. pooled may be nil; see PoolStalls.
func MaximumLifts(stalls []Stall, s Systematics, pooled *Scatter) (maxLift, stallAlpha []Result) {
	for _, at := range stallStations(stalls) {
		lift, alpha := maximumLift(at, s, pooled)
		maxLift, stallAlpha = append(maxLift, lift), append(stallAlpha, alpha)
	}
	if len(maxLift) == 0 {
		lift, alpha := maximumLift(nil, s, pooled)
		return []Result{lift}, []Result{alpha}
	}
	return maxLift, stallAlpha
}

// SameStation is the distance between CGs, in full-size m, that one weighing or another makes without anybody having moved the ballast. Common
// practice, no source.
const SameStation = 0.02

// stallStations sorts stalls by the places of their CGs, foremost first, each with the mean CG of its place. A CG that is no number stays with none.
func stallStations(stalls []Stall) [][]Stall {
	sorted := slices.DeleteFunc(slices.Clone(stalls), func(s Stall) bool { return !allFinite(s.CG) })
	slices.SortStableFunc(sorted, func(a, b Stall) int { return cmp.Compare(a.CG, b.CG) })
	var out [][]Stall
	for i, s := range sorted {
		if i == 0 || s.CG-sorted[i-1].CG > SameStation {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], s)
	}
	for _, at := range out {
		mean := 0.0
		for _, s := range at {
			mean += s.CG / float64(len(at))
		}
		for i := range at {
			at[i].CG = mean
		}
	}
	return out
}

// maximumLift is that of one CG.
func maximumLift(stalls []Stall, s Systematics, pooled *Scatter) (maxLift, stallAlpha Result) {
	kept, power, warnings := usableStalls(stalls)
	scatter := chooseStallScatter(kept, pooled)
	maxLift = stallLabel("max_lift_coefficient", "1", kept, power, warnings)
	stallAlpha = stallLabel("stall_alpha", "rad", kept, power, warnings)
	switch {
	case len(kept) == 0:
		const nothing = "no deceleration to the stall was flown: fly three, wings level, slowing by about 0.5 m/s a second, at safe height, in each of three flights"
		return undetermined(maxLift, nothing), undetermined(stallAlpha, nothing)
	case countBroken(kept) == 0:
		return lowerBound(maxLift, kept, s, scatter), undetermined(stallAlpha,
			"no deceleration ended in a break, so the angle of the stall lies beyond what was flown: slow further, at safe height, until the nose or a wing drops")
	}
	maxLift = stallMean(maxLift, kept, stallLift(), scatter, s, s.liftScale(), pooled)
	stallAlpha = stallMean(stallAlpha, kept, stallAngle(), scatter, s, nil, pooled)
	maxLift = beyondWords(maxLift, kept)
	return thin(weakLift(maxLift)), thin(weakAngle(stallAlpha))
}

// stallMean regresses the flights' means in CG.
func stallMean(r Result, kept []Stall, peak stallPeak, scatter stallScatter, s Systematics, relative map[string]float64, pooled *Scatter) Result {
	part := scatter.of(peak)
	asked := stallNumbers(kept, peak, part)
	r.Warnings = append(r.Warnings, wildStallWords(kept, peak, part)...)
	pool := component{}
	if pooled != nil {
		pool = pooled.stalls.component(peak)
	}
	l, used, words, err := regressNumbers(asked, part.within, pool, "a stall")
	r.Warnings = append(r.Warnings, words...)
	r.Degrees = used.degrees
	if err != nil {
		mean := meanOfNumbers(asked)
		r.Value = &mean
		return undetermined(r, err.Error())
	}
	value, sd := l.at(l.centre)
	common := map[string]float64{}
	for name, e := range relative {
		common[name] = value * e
	}
	if peak.angle {
		common[SourceAlpha] = s.Alpha
	}
	common[SourceSlowing] = -part.effectSD * peak.size(value) * meanExcess(kept)
	r.CG, r.HasCG = l.centre, true
	return fillStudent(r, value, sd, s.withCG(common, l.perCG(), 0))
}

// lowerBound is what decelerations without a break say: each reached some lift, so the truth is no lower. The bound is the highest of the
// flights' lower ends, at a chance shared out over the flights, so that picking the highest stays honest.
func lowerBound(r Result, kept []Stall, s Systematics, scatter stallScatter) Result {
	part := scatter.of(stallLift())
	best, low := 0.0, 0.0
	flights := stallFlights(kept)
	for _, f := range flights {
		value, sd := f.greatest(part)
		common := 0.0
		for _, relative := range s.liftScale() {
			common += square(value * relative)
		}
		common += square(part.effectSD * value * meanExcess(f.stalls))
		z := statistic.Normal975 // at least
		if share := chanceOfBound / float64(len(flights)); share < chanceOfBound {
			z = normalQuantile(1 - share)
		}
		best, low = math.Max(best, value), math.Max(low, value-z*math.Sqrt(square(sd)+common))
	}
	r.State, r.Set, r.Value, r.Low = Weak, SetInterval, &best, &low
	r.Warnings = append(r.Warnings, fmt.Sprintf("a lower bound only: none of %s ended in a break, the greatest lift reached was CL %.2f; slow further, at safe height, until the nose or a wing drops",
		count(len(kept), "deceleration"), best))
	return r
}

// beyondWords warns where lift without a break lies above the mean of the breaks.
func beyondWords(r Result, kept []Stall) Result {
	if r.High == nil {
		return r
	}
	for _, s := range kept {
		if !s.Broke && s.Lift-2*positive(s.LiftSD) > *r.High {
			r.Warnings = append(r.Warnings, fmt.Sprintf("flight %s reached CL %.2f without a break, above the interval: the breaks that were found may be something else than the stall", s.Flight, s.Lift))
		}
	}
	return r
}

func weakLift(r Result) Result {
	if r.High == nil || r.State == NotDetermined {
		return r
	}
	if reach := (*r.High - *r.Low) / 2; reach > weakShare**r.Value {
		return weaken(r, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side", 100*reach / *r.Value))
	}
	return r
}

func weakAngle(r Result) Result {
	if r.High != nil && *r.High-*r.Low > 2*weakAlpha {
		return weaken(r, "the 95 % interval reaches 2 degrees or more to either side")
	}
	return r
}

// stallLabel starts a result with the words about which surface let go first.
func stallLabel(quantity, unit string, kept []Stall, power string, warnings []string) Result {
	r := Result{Quantity: quantity, Unit: unit, Power: power, Points: countBroken(kept), Common: map[string]float64{},
		Method: "decelerations to the break, mean of flights, carried to a slowing of 0.5 m/s²", Warnings: slices.Clone(warnings)}
	if len(kept) > 0 {
		r.CG, r.HasCG = kept[0].CG, true
	}
	n := 0.0
	for _, s := range kept {
		if !slices.Contains(r.Flights, s.Flight) {
			r.Flights = append(r.Flights, s.Flight)
		}
		r.Lift += s.Lift / float64(len(kept))
		if s.Reynolds > 0 && allFinite(s.Reynolds) {
			r.Reynolds += s.Reynolds
			n++
		}
	}
	r.Reynolds /= math.Max(1, n)
	r.Warnings = append(r.Warnings, firstWords(kept)...)
	return r
}
