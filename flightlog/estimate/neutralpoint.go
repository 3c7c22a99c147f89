package estimate

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

const (
	// weakG is the share g = (t·sd/value)² of the slope's change with CG from which a neutral point is called
	// weak: its interval is then lopsided, and a third longer than first order would say.
	weakG = 0.25
	// fewDegrees is the number of degrees of freedom below which any result is called weak.
	fewDegrees = 3
	// mostTravel is the largest multiple of the CG travel flown that is recommended as a figure.
	mostTravel = 4
)

// NeutralPoint finds the CG at which trim no longer changes with lift.
//
// Each flight's dδe/dCL [rad per unit CL] is one number; they lie on b0 + b1·(h − centre) in h, the CG in
// full-size metres aft of datum, and x_NP = centre − b0/b1 with Fieller's set from the covariance of (b0, b1) and
// Student's t. Two CGs are needed, and flights minus parameters leave at least one degree of freedom, or
// pooled (may be nil) brings them. An unbounded set gives state not_determined with Low, High and SD nil, and a
// warning that says how much CG travel would do. Airspeed, mass and elevator gain scale all slopes alike and
// cancel in x_NP, not in the slopes; the elevator's zero cancels in both; an offset of all CGs shifts x_NP one for one.
//
// TrimSlopes holds dδe/dCL at each CG, for pooling with theory; it is filled wherever slopes are
// determined, also with one CG. Source of the set: see FiellerSet.
func NeutralPoint(points []Point, s Systematics, pooled *Scatter) (Result, TrimSlopes) {
	data := prepare(points, elevatorRelation())
	r := label("neutral_point", "m", "flight trim slopes against CG, Fieller interval", data)
	r.Warnings = append(r.Warnings, spanWords(data.lines)...)
	asked := numbers(data.lines, slopeTarget)
	if len(asked) == 0 {
		return undetermined(r, "no flight holds steady points at two different lift coefficients: fly slow, middling and fast, trimmed, in each flight"), emptySlopes(data)
	}
	fitted, used, words, err := regress(data.lines, slopeTarget, pooled.orNone().elevatorSlope)
	r.Warnings = append(r.Warnings, words...)
	if err != nil {
		return undetermined(r, err.Error()), emptySlopes(data)
	}
	r.Degrees = used.degrees
	slopes := trimSlopes(asked, used, fitted, s, data)
	if fitted.single {
		return undetermined(r, fmt.Sprintf("flown at one CG only (%s): the trim slope there is known, the neutral point needs a second CG, or the elevator power from another source; fly a second CG",
			millimetres(asked[0].cg))), slopes
	}
	return zeroCrossing(r, "a neutral point", fitted, asked, s), slopes
}

// zeroCrossing is the CG at which the line is zero, from b0, b1 and their covariance; what names it in words.
func zeroCrossing(r Result, what string, l lineInCG, asked []number, s Systematics) Result {
	b, v := l.coefficients, l.covariance
	set := FiellerSet(-b[0], b[1], v[0][0], -v[0][1], v[1][1], statistic.StudentQuantile(r.Degrees))
	value := l.centre + set.Value
	travel := cgTravel(asked)
	if set.Set != SetInterval {
		r.Set = set.Set
		if allFinite(value) {
			r.Value = &value
		}
		if set.Set == SetOutside {
			r.Warnings = append(r.Warnings, fmt.Sprintf("these flights only exclude %s between %s and %s", what, millimetres(l.centre+set.Low), millimetres(l.centre+set.High)))
		}
		return undetermined(r, travelWords(travel, set.G))
	}
	common := map[string]float64{SourceCG: s.CG, SourceCGScale: set.Value * s.CGScale}
	r = fill(r, value, set.SD, l.centre+set.Low, l.centre+set.High, common)
	if set.G > weakG {
		r = weaken(r, travelWords(travel, set.G))
	}
	if b[1] > 0 {
		r.Warnings = append(r.Warnings, "dδe/dCL rises as the CG moves aft; on a foreplane it falls: check the sign of the elevator")
	}
	return thin(r)
}

// thin marks a result that stands on very few degrees of freedom.
func thin(r Result) Result {
	if r.Degrees < fewDegrees {
		degrees := fmt.Sprintf("%.3g degrees", r.Degrees)
		if degrees == "1 degrees" {
			degrees = "1 degree"
		}
		return weaken(r, fmt.Sprintf("stands on %s of freedom; more flights, or scatter pooled over configurations, narrow it", degrees))
	}
	return r
}

// travelWords says how much CG travel brings g down to weakG: g falls with the square of the travel.
func travelWords(travel, g float64) string {
	factor := math.Sqrt(g / weakG)
	if !(factor <= mostTravel) {
		return fmt.Sprintf("CG travel of %s is too little for these flights; fly at least %s full size, or more flights at both ends", millimetres(travel), millimetres(mostTravel*travel))
	}
	return fmt.Sprintf("CG travel of %s is short for these flights; fly about %s full size", millimetres(travel), millimetres(factor*travel))
}

func millimetres(metres float64) string { return fmt.Sprintf("%.0f mm", 1000*metres) }

func cgTravel(asked []number) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, n := range asked {
		low, high = math.Min(low, n.cg), math.Max(high, n.cg)
	}
	return high - low
}

// spanWords names flights that have no slope of their own.
func spanWords(lines []line) []string {
	var words []string
	for _, l := range lines {
		if !l.spans {
			words = append(words, fmt.Sprintf("flight %s has no two clearly different lift coefficients: no slope of its own", l.flight))
		}
	}
	return words
}
