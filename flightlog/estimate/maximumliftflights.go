package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// stallPeak is what is asked of a stall: its lift or its angle of attack.
type stallPeak struct {
	angle bool
	of    func(Stall) (value, sd float64)
}

func stallLift() stallPeak {
	return stallPeak{of: func(s Stall) (float64, float64) { return s.Lift, s.LiftSD }}
}

func stallAngle() stallPeak {
	return stallPeak{angle: true, of: func(s Stall) (float64, float64) { return s.Alpha, s.AlphaSD }}
}

// size turns an effect of slowing into the unit of the peak: it is relative to the peak at the standard rate for lift, an angle for angle
// of attack.
func (p stallPeak) size(value float64) float64 {
	if p.angle {
		return 1
	}
	return value
}

// words name a peak.
func (p stallPeak) words(value float64) string {
	if p.angle {
		return fmt.Sprintf("%.1f° of angle of attack", value*180/math.Pi)
	}
	return fmt.Sprintf("CL %.2f", value)
}

// usableStalls keeps stalls with numbers, of the one power state that most flights flew, sorted.
func usableStalls(stalls []Stall) ([]Stall, string, []string) {
	var kept []Stall
	var warnings []string
	for _, s := range stalls {
		if allFinite(s.CG, s.Lift, s.Alpha) && s.Lift > 0 && !(s.Slowing > mostSlowing) {
			kept = append(kept, s)
		}
	}
	if lost := len(stalls) - len(kept); lost > 0 {
		warnings = append(warnings, fmt.Sprintf("%s left out: a value is missing or not a number, or the model slowed faster than %.0f m/s a second", count(lost, "deceleration"), mostSlowing))
	}
	slices.SortFunc(kept, compareStalls)
	power, others := commonPower(powerPoints(kept, func(s Stall) Point { return Point{Flight: s.Flight, Power: s.Power} }))
	if len(others) > 0 {
		warnings = append(warnings, fmt.Sprintf("power changes maximum lift: only decelerations with power %s are used; power %s left out", power, strings.Join(others, ", ")))
		kept = slices.DeleteFunc(kept, func(s Stall) bool { return s.Power != power })
	}
	return kept, power, warnings
}

// powerPoints tells commonPower which flights flew which power.
func powerPoints[T any](all []T, point func(T) Point) []Point {
	out := make([]Point, len(all))
	for i, one := range all {
		out[i] = point(one)
	}
	return out
}

// compareStalls is a total order, so that the order in which they came does not matter.
func compareStalls(a, b Stall) int {
	broke := func(s Stall) int {
		if s.Broke {
			return 1
		}
		return 0
	}
	return cmp.Or(strings.Compare(a.Flight, b.Flight), cmp.Compare(a.CG, b.CG), cmp.Compare(a.Lift, b.Lift), cmp.Compare(a.Alpha, b.Alpha),
		cmp.Compare(a.Slowing, b.Slowing), cmp.Compare(a.LiftSD, b.LiftSD), cmp.Compare(a.AlphaSD, b.AlphaSD), cmp.Compare(a.Reynolds, b.Reynolds),
		cmp.Compare(broke(a), broke(b)), strings.Compare(a.First, b.First), strings.Compare(a.Power, b.Power))
}

// stallFlight is the stalls of one flight at one CG.
type stallFlight struct {
	name   string
	cg     float64
	stalls []Stall
}

func stallFlights(sorted []Stall) []stallFlight {
	var out []stallFlight
	for _, s := range sorted {
		last := len(out) - 1
		if last < 0 || out[last].name != s.Flight || s.CG-out[last].cg > sameCG {
			out = append(out, stallFlight{name: s.Flight, cg: s.CG})
			last++
		}
		out[last].stalls = append(out[last].stalls, s)
	}
	return out
}

// broken keeps the stalls of a flight that ended in a break.
func (f stallFlight) broken() []Stall {
	return slices.DeleteFunc(slices.Clone(f.stalls), func(s Stall) bool { return !s.Broke })
}

// excess is by how much a stall was slowed faster than the standard; 0 where the rate is not known.
func excess(s Stall) float64 {
	if !allFinite(s.Slowing) || s.Slowing <= 0 {
		return 0
	}
	return s.Slowing - standardSlowing
}

func meanExcess(stalls []Stall) float64 {
	sum := 0.0
	for _, s := range stalls {
		sum += excess(s) / float64(len(stalls))
	}
	return sum
}

// carried is a stall's peak carried to the standard rate of slowing.
func (p stallPart) carried(s Stall, peak stallPeak) float64 {
	value, _ := peak.of(s)
	if peak.angle {
		return value - p.effect*excess(s)
	}
	return value / (1 + p.effect*excess(s))
}

// stallNumbers is one number a flight: the mean of its breaks, each with its weight.
func stallNumbers(kept []Stall, peak stallPeak, part stallPart) []number {
	var out []number
	flights := stallFlights(kept)
	for i, breaks := range weighedStalls(flights, peak, part) {
		sum, weights := 0.0, 0.0
		for _, b := range breaks {
			sum += b.weight() * b.value
			weights += b.weight()
		}
		if weights > 0 {
			out = append(out, number{flight: flights[i].name, cg: flights[i].cg, value: sum / weights, k: 1 / weights})
		}
	}
	return out
}

// weighedStalls are the breaks of each flight, carried to the standard rate of slowing; one that lies far from the others of its flight
// is played down, as a wild flight is among flights.
func weighedStalls(flights []stallFlight, peak stallPeak, part stallPart) [][]number {
	sets := make([][]number, len(flights))
	for i, f := range flights {
		for _, s := range f.broken() {
			sets[i] = append(sets[i], number{flight: f.name, cg: f.cg, value: part.carried(s, peak), k: 1})
		}
	}
	weighed, _ := playDownNumbers(sets, 0)
	return weighed
}

// wildStallWords names the breaks that are played down.
func wildStallWords(kept []Stall, peak stallPeak, part stallPart) []string {
	var words []string
	for _, breaks := range weighedStalls(stallFlights(kept), peak, part) {
		for _, b := range breaks {
			if b.weight() < 1 {
				words = append(words, fmt.Sprintf("flight %s: the break at %s lies %.1f standard deviations from the others of its flight and counts %.0f %%",
					b.flight, peak.words(b.value), b.distance, 100*b.weight()))
			}
		}
	}
	return words
}

// greatest is a flight's greatest lift, carried to the standard rate of slowing, and how far it may be off by chance.
func (f stallFlight) greatest(part stallPart) (value, sd float64) {
	value = math.Inf(-1)
	for _, s := range f.stalls {
		if v := part.carried(s, stallLift()); v > value {
			value, sd = v, math.Max(positive(s.LiftSD), math.Sqrt(part.within))
		}
	}
	return value, sd
}

func meanOfNumbers(asked []number) float64 {
	sum := 0.0
	for _, n := range asked {
		sum += n.value / float64(len(asked))
	}
	return sum
}
